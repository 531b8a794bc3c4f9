"""Formulas with one thing wrong: operators, numbers, names, functions, ranges, units, signs."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace

from builder.formula.syntax import (
    COMPARISONS,
    Call,
    Node,
    Number,
    Operand,
    Pair,
    Sign,
    Words,
    find_inner,
)

ARITHMETIC = ("+", "-", "*", "/", "^")
NUMBERS = ("0", "1", "2", "4")
SWAPPED = {
    "MIN": ("MAX",),
    "MAX": ("MIN",),
    "SUM": ("MAX", "COUNT"),
    "COUNT": ("SUM",),
    "AND": ("OR",),
    "OR": ("AND",),
    "ROUNDUP": ("ROUNDDOWN", "ROUND"),
    "ROUNDDOWN": ("ROUNDUP",),
    "LN": ("LOG10",),
    "LOG10": ("LN",),
    "SUMSQ": ("SUM",),
    "SUMPRODUCT": ("SUM",),
}
DROPPED = frozenset({"INT", "ABS", "SQRT", "EXP", "LN", "LOG10", "ROUND", "ROUNDUP", "IFERROR"})
LISTED = ("_list", "_words", "_codes")
LISTS = frozenset({"MIN", "MAX", "AND", "OR", "SUM", "SUMSQ", "COUNT"})


@dataclass(frozen=True, slots=True)
class Change:
    """A formula after one change, and which kind of change it was."""

    kind: str
    text: str


Swap = Callable[[str], Iterable[str]]  # the names or words that may stand in place of one


def write(node: Node) -> str:
    """Return a formula with brackets round every pair."""
    match node:
        case Number(text) | Operand(text):
            return text
        case Words(text):
            return f'"{text}"'
        case Sign(sign, inner):
            return f"({sign}{write(inner)})"
        case Pair("=" | "<>" as sign, Operand(name), Words("")):
            return f'{name}{sign}""'  # the blank test, as the generator looks for it
        case Pair(sign, left, right):
            return f"({write(left)}{sign}{write(right)})"
        case Call(function, arguments):
            return f"{function}({','.join(map(write, arguments))})"


def list_changes(
    tree: Node, names: Swap, options: Callable[[str, str], Iterable[str]]
) -> list[Change]:
    """Return every formula that differs from this one by one change, each once."""
    found = {
        write(changed): kind
        for kind, changed in vary(tree, lambda node: list_alternatives(node, names, options))
    }
    found.pop(write(tree), None)
    return [Change(kind, text) for text, kind in found.items()]


Alternatives = Iterator[tuple[str, Node]]


def vary(node: Node, change: Callable[[Node], Alternatives]) -> Alternatives:
    """Yield the tree with each of its nodes changed, one at a time."""
    yield from change(node)
    for place, inner in enumerate(find_inner(node)):
        for kind, changed in vary(inner, change):
            yield kind, put(node, place, changed)


def put(node: Node, place: int, inner: Node) -> Node:
    """Return a node with one of its inner nodes replaced."""
    match node:
        case Sign():
            return replace(node, inner=inner)
        case Pair():
            return replace(node, left=inner) if place == 0 else replace(node, right=inner)
        case Call(_, arguments):
            return replace(node, arguments=(*arguments[:place], inner, *arguments[place + 1 :]))
        case _:
            raise TypeError(node)


def list_alternatives(
    node: Node, names: Swap, options: Callable[[str, str], Iterable[str]]
) -> Alternatives:
    """Yield what may stand in place of a node."""
    match node:
        case Number(text):
            near = (str(int(text) + 1), str(int(text) - 1)) if text.isdigit() else ()
            yield from (("constant", Number(other)) for other in sorted({*NUMBERS, *near} - {text}))
        case Operand(text):
            yield from (("reference", Operand(other)) for other in names(text))
            if not text.endswith(LISTED):
                yield "sign", Sign("-", node)
        case Sign(_, inner):
            yield "sign", inner
        case Pair():
            yield from change_pair(node, options)
        case Call():
            yield from change_call(node)


def change_pair(node: Pair, options: Callable[[str, str], Iterable[str]]) -> Alternatives:
    """Yield other operators, the sides swapped or alone, other words to compare with."""
    if node.sign in COMPARISONS:
        # Words have no order that means anything, so they are only the same or not.
        signs = {"=", "<>"} if isinstance(node.right, Words) else COMPARISONS
        for sign in sorted(signs - {node.sign}):
            yield "comparison", replace(node, sign=sign)
        if isinstance(node.left, Operand) and isinstance(node.right, Words) and node.right.text:
            for code in options(node.left.text, node.right.text):
                yield "word", replace(node, right=Words(code))
        return
    for sign in ARITHMETIC:
        if sign != node.sign:
            yield "operator", replace(node, sign=sign)
    yield "dropped operand", node.left
    yield "dropped operand", node.right


def change_call(node: Call) -> Alternatives:
    """Yield other functions, arguments dropped, branches swapped, places off by one."""
    function, arguments = node.function, node.arguments
    only = arguments[0] if len(arguments) == 1 else None
    single = isinstance(only, Operand) and not only.text.endswith(LISTED)
    # The sum of one cell is that cell, and so is the largest of it.
    for other in SWAPPED.get(function, ()) if not single else ():
        yield "function", replace(node, function=other)
    if function in DROPPED or function == "PRIOR":
        yield "function" if function in DROPPED else "range", arguments[0]
    if function in LISTS and len(arguments) > 1:
        for place in range(len(arguments)):
            rest = arguments[:place] + arguments[place + 1 :]
            yield "dropped argument", replace(node, arguments=rest)
    if function == "IF":
        test, yes, no = arguments
        yield "branches", replace(node, arguments=(test, no, yes))
    if function == "INDEX":
        for sign in "+-":
            place_by_one = Pair(sign, arguments[1], Number("1"))
            yield "range", replace(node, arguments=(arguments[0], place_by_one))
