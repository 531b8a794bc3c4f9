"""Blank guards with one thing wrong: a name not waited for, another count, no guard at all."""

import re
from collections.abc import Iterator

from workbook.files import Cell

from builder.formula.syntax import Call, Node, Number, Operand, Pair, Words, parse
from proof.mutants_trees import Change, write

ROWS = re.compile(r"\$?\d+$")
MISSING, NONE = Operand("word_missing_txt"), Operand("word_none_txt")
OTHERS: dict[str, list[Node]] = {  # what may stand in place of what a guard shows for nothing
    '""': [Number("0")],
    "word_missing_txt": [Words(""), NONE],
    "word_none_txt": [Words(""), MISSING],
}
# A count is never more than what is counted: another <> would be no change.
COMPARED = (">", ">=", "=", "<=")


def list_guard_changes(
    cells: dict[Cell, str], bare: str
) -> Iterator[tuple[Change, dict[Cell, str]]]:
    """Yield each change of a guard with the cells that hold it, all rows alike."""
    changes = {cell: dict(change_guard(text)) for cell, text in cells.items()}
    for place in dict.fromkeys(place for each in changes.values() for place in each):
        hit = {cell: f"={each[place]}" for cell, each in changes.items() if place in each}
        yield Change("guard", f"guard {place} of {bare}"), hit


def change_guard(text: str) -> Iterator[tuple[str, str]]:
    """Yield the changed texts of one cell, by what was changed."""
    tree = parse(text.removeprefix("="))
    if not (isinstance(tree, Call) and tree.function == "IF" and is_guard(tree.arguments[0])):
        return
    test, blank, rest = tree.arguments
    yield "dropped", write(rest)
    for other in OTHERS.get(write(blank), [Words("")]):
        yield f"shows {write(other)}", write(Call("IF", (test, other, rest)))
    for told, changed in change_test(test):
        yield told, write(Call("IF", (changed, blank, rest)))


def is_guard(test: Node) -> bool:
    """Tell whether a condition asks whether something is there."""
    first = list_tests(test)[0]
    if not isinstance(first, Pair):
        return False
    counted = isinstance(first.left, Call) and first.left.function == "COUNT" and first.sign == "<"
    return counted or first.right == Words("")


def list_tests(test: Node) -> tuple[Node, ...]:
    """Return the conditions of which one is enough."""
    return test.arguments if isinstance(test, Call) and test.function == "OR" else (test,)


def change_test(test: Node) -> Iterator[tuple[str, Node]]:
    """Yield conditions that wait for one thing less, or that compare otherwise."""
    tests = list_tests(test)
    for place, one in enumerate(tests):
        before, after = tests[:place], tests[place + 1 :]
        for told, changed in change_one(one):
            yield told, join((*before, *changed, *after))
    if len(tests) > 1:
        yield "waits for one of all", Call("AND", tests)


def join(tests: tuple[Node, ...]) -> Node:
    """Return one condition out of several."""
    return tests[0] if len(tests) == 1 else Call("OR", tests)


def change_one(test: Node) -> Iterator[tuple[str, tuple[Node, ...]]]:
    """Yield what may stand in place of one condition; nothing where it is left out."""
    if isinstance(test, Pair) and isinstance(test.left, Call):
        names, number = test.left.arguments, len(test.left.arguments)
        for place, name in enumerate(names) if number > 1 else ():
            less = Call("COUNT", names[:place] + names[place + 1 :])
            told = f"without {ROWS.sub('', write(name))}"
            yield told, (Pair("<", less, Number(str(number - 1))),)
        for step in (-1, 1):
            yield f"counts {step:+d}", (Pair("<", test.left, Number(str(number + step))),)
        for sign in COMPARED:
            yield f"compares {sign}", (Pair(sign, test.left, test.right),)
    elif isinstance(test, Pair):
        yield f"asks {ROWS.sub('', write(test.left))}<>", (Pair("<>", test.left, test.right),)
