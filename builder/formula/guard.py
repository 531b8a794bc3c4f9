"""Blank guards: a formula whose precedents are not all there shows nothing."""

from collections.abc import Collection

from builder.formula.grids import FIXED, LIST, ROW_NUMBER, GridName, split_grid_name
from builder.formula.tokens import find_blank_tests, find_names
from builder.spec.records import Choice, Constant, Quantity, Record, Result

WORDS = ("choice", "text")


def guarded_names(
    formula: str, quantities: dict[str, Quantity], optional: Collection[str] = ()
) -> tuple[list[str], list[str]]:
    """Return the numbers and the words that must be there before the formula is worked out.

    Constants are always there; lists of a grid may have gaps; a formula that tests a name for
    a blank deals with the blank itself.
    """
    tested = find_blank_tests(formula) | set(optional)
    numbers: list[str] = []
    words: list[str] = []
    for name in find_names(formula):
        quantity = quantities.get(name.text)
        part = split_grid_name(name.text, quantities)
        always = isinstance(quantity, Constant) or name.text == ROW_NUMBER or is_column(part)
        lists = quantity is None and name.text.endswith(("_words", "_codes"))
        if always or lists or name.text in tested or name.prior:
            continue
        worded = isinstance(quantity, Record) and (quantity.codes or quantity.entry in WORDS)
        coded = isinstance(quantity, Choice) or (isinstance(quantity, Result) and quantity.options)
        (words if worded or coded else numbers).append(name.text)
    return list(dict.fromkeys(numbers)), list(dict.fromkeys(words))


def is_column(part: GridName | None) -> bool:
    """Tell whether a name means a whole column, its limits or words: these are always there."""
    return part is not None and part.part in (LIST, *FIXED)


def guard(formula: str, numbers: list[str], words: list[str], blank: str) -> str:
    """Return the formula inside its guard; `blank` is what stands for nothing."""
    tests = [f'{name}=""' for name in words]
    if numbers:
        tests.insert(0, f"COUNT({','.join(numbers)})<{len(numbers)}")
    if not tests:
        return formula
    test = tests[0] if len(tests) == 1 else f"OR({','.join(tests)})"
    return f"IF({test},{blank},{formula})"


def guard_result(formula: str, quantities: dict[str, Quantity]) -> str:
    """Return a result's formula with its guard; one that only shows a number needs none."""
    numbers, words = guarded_names(formula, quantities)
    return formula if numbers == [formula] else guard(formula, numbers, words, '""')
