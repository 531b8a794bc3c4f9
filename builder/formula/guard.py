"""Blank guards: a formula whose precedents are not all there shows nothing."""

from builder.formula.tokens import find_blank_tests, find_names
from builder.spec.records import Choice, Constant, Quantity


def guarded_names(formula: str, quantities: dict[str, Quantity]) -> tuple[list[str], list[str]]:
    """Return the numbers and the choices that must be there before the formula is worked out."""
    tested = find_blank_tests(formula)
    numbers: list[str] = []
    choices: list[str] = []
    for name in find_names(formula):
        quantity = quantities.get(name.text)
        if isinstance(quantity, Constant) or name.text in tested:
            continue
        (choices if isinstance(quantity, Choice) else numbers).append(name.text)
    return list(dict.fromkeys(numbers)), list(dict.fromkeys(choices))


def guard(formula: str, numbers: list[str], choices: list[str], blank: str) -> str:
    """Return the formula inside its guard; `blank` is what stands for nothing."""
    tests = [f'{name}=""' for name in choices]
    if numbers:
        tests.insert(0, f"COUNT({','.join(numbers)})<{len(numbers)}")
    if not tests:
        return formula
    test = tests[0] if len(tests) == 1 else f"OR({','.join(tests)})"
    return f"IF({test},{blank},{formula})"
