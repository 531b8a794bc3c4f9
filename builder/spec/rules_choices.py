"""Choices in formulas: compared with their codes only, which neither language nor order changes."""

from collections.abc import Iterator

from builder.formula.grids import LIST, UNUSABLE, WORDS, split_grid_name
from builder.formula.syntax import (
    COMPARISONS,
    Call,
    Node,
    Number,
    Operand,
    Pair,
    Words,
    find_inner,
    walk,
)
from builder.formula.tokens import find_names
from builder.problems import Problem, suggest
from builder.spec.records import Choice, Quantity, Record, Result
from builder.spec.rules_texts import Formula, find_fault, list_bound
from builder.spec.specification import Spec

CODE = "choice-compared"
CRITERIA = (">0", "<0")  # of COUNTIF: the same in every language
REMEDY = 'Write CHOICE="code", with a code of its options.'


def check_codes(spec: Spec) -> Iterator[Problem]:
    """Demand that a column of codes belongs to a column of choices."""
    records = {name: q for name, q in spec.quantities.items() if isinstance(q, Record)}
    choices = [name for name, record in records.items() if record.entry == "choice"]
    for record in records.values():
        if record.codes and record.codes not in choices:
            text = f"codes {record.codes!r} is no column of choices."
            near = suggest(record.codes, choices)
            remedy = 'Name a record with entry = "choice".'
            yield find_fault(record, "unknown-choice", record.name, text + near, remedy, "codes")


def check_compared(spec: Spec) -> Iterator[Problem]:
    """Choices are compared with their codes, texts are codes, and nobody uses a position."""
    places = {f.column.name for f in list_bound(spec) if f.column and list_places(f.read())}
    for formula in list_bound(spec):
        tree = None if formula.made else formula.read()
        if tree is None:
            continue
        for node in walk(tree):
            ordered = isinstance(node, Pair) and node.sign not in ("=", "<>")
            for one, other in list_pairs(node):
                if fault := judge_pair(one, None if ordered else other, spec.quantities):
                    yield formula.fault(CODE, fault, REMEDY)
        own = find_options(formula.owner.name, spec.quantities)
        for text in list_loose(Call("", (tree,)), spec.quantities):
            if text in own:
                continue
            known = f"{formula.owner.name} has no option {text!r}.{suggest(text, own)}"
            what = known if own else f'"{text}" is compared with no choice.'
            yield formula.fault("forbidden-text", what, REMEDY)
        yield from check_places(formula, tree, places, spec.quantities)


def list_pairs(node: Node) -> Iterator[tuple[Node, Node]]:
    """Yield the two sides of a comparison, either one first; of COUNTIF, list and criterion."""
    match node:
        case Pair(sign, left, right) if sign in COMPARISONS:
            yield find_list(left), right
            yield find_list(right), left
        case Call("COUNTIF" | "COUNTIFS", arguments):
            yield from zip(arguments[::2], arguments[1::2], strict=False)


def judge_pair(one: Node, other: Node | None, quantities: dict[str, Quantity]) -> str:
    """Return what is wrong with comparing a choice with something, None where order decides."""
    if not isinstance(one, Operand) or (isinstance(other, Words) and not other.text):
        return ""
    column = find_column(one.text, quantities)
    if isinstance(column, Record) and column.options:
        return f"{one.text} holds words of the reader's language; compare a column of its codes."
    options = find_options(one.text, quantities)
    if not options or (isinstance(other, Words) and other.text in (*options, UNUSABLE)):
        return ""
    known = ", ".join(options)
    if isinstance(other, Words):
        hint = suggest(other.text, options)
        return f'{one.text} has no option "{other.text}", but {known}.{hint}'
    if other is None:
        return f"{one.text} is compared by its order; it has no order, but codes: {known}."
    shown = other.text if isinstance(other, Number | Operand) else "something worked out"
    return f"{one.text} is compared with {shown}, and not with one of its codes: {known}."


def find_column(name: str, quantities: dict[str, Quantity]) -> Quantity | None:
    """Return the quantity of a name, or the column whose cells it means."""
    part = split_grid_name(name, quantities)
    return quantities.get(part.column if part and part.part in ("", LIST) else name)


def find_options(name: str, quantities: dict[str, Quantity]) -> list[str]:
    """Return the codes that a name can have: of a choice, or of a column of codes."""
    found = find_column(name, quantities)
    if isinstance(found, Record) and found.codes:
        found = quantities.get(found.codes)
    return list(found.options) if isinstance(found, Choice | Record | Result) else []


def is_used(name: str, quantities: dict[str, Quantity]) -> bool:
    """Tell whether a name means what was typed, or that it cannot be used."""
    column = find_column(name, quantities)
    return isinstance(column, Record) and bool(column.used)


def list_branches(node: Node) -> Iterator[Node]:
    """Yield what the branches of an IF show."""
    if isinstance(node, Call) and node.function == "IF":
        yield from map(find_list, node.arguments[1:])


def find_list(node: Node) -> Node:
    """Return the list that a lookup takes from, or the node itself."""
    match node:
        case Call("INDEX", (listed, *_)):
            return listed
        case _:
            return node


def list_loose(node: Node, quantities: dict[str, Quantity]) -> Iterator[str]:
    """Yield the texts that are no blanks, and neither compared with codes nor beside them."""
    paired = [one for one, _ in list_pairs(node)]
    worded = [one for one in (*paired, *list_branches(node)) if isinstance(one, Operand)]
    held = any(find_options(one.text, quantities) for one in worded)
    used = any(is_used(one.text, quantities) for one in worded)
    for inner in find_inner(node):
        allowed = ("", *CRITERIA, *([UNUSABLE] if used else []))
        if isinstance(inner, Words) and inner.text not in allowed and not held:
            yield inner.text
        yield from list_loose(inner, quantities)


def list_places(node: Node | None) -> list[Call]:
    """Return what finds the place of a word or code in its list, unless an INDEX looks it up."""
    if node is None or (isinstance(node, Call) and node.function == "INDEX"):
        return []
    lists = [inner for inner in find_inner(node) if isinstance(inner, Operand)]
    found = any(inner.text.endswith(WORDS) for inner in lists)
    here = [node] if isinstance(node, Call) and node.function == "MATCH" and found else []
    return here + [place for inner in find_inner(node) for place in list_places(inner)]


def check_places(
    formula: Formula, tree: Node, places: set[str], quantities: dict[str, Quantity]
) -> Iterator[Problem]:
    """Refuse a formula that works with the place of an option, which moves with the list."""
    remedy = "Compare the codes; a column may show the place, and no formula may use it."
    bare = tree.arguments[0] if isinstance(tree, Call) and tree.function == "IFERROR" else tree
    if list_places(tree) and list_places(tree) != [bare]:
        yield formula.fault(CODE, "works with the place of an option in its list.", remedy)
    for name in find_names(formula.text):
        column = find_column(name.text, quantities)
        if column and column.name in places:
            text = f"{name.text} is the place of an option in its list."
            yield formula.fault(CODE, text, remedy)
