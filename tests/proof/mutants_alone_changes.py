"""What is set for formulas by themselves: blanks, zeros, other signs, other options, and ties."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field, replace
from itertools import permutations, product

from workbook.files import Value

from builder.calculation import Calculation
from builder.formula.grids import LIST, bind_name
from builder.formula.syntax import (
    COMPARISONS,
    Call,
    Node,
    Number,
    Operand,
    Pair,
    Sign,
    parse,
    walk,
)
from builder.spec.records import Choice, Constant, Grid, Quantity, Record
from builder.spec.specification import Spec
from proof.mutants_alone import Alone

Change = dict[str, Value]
BESIDE = 0.001
LISTS = ("MIN", "MAX")


@dataclass(slots=True)
class Round:
    """Changes that do not touch each other's formulas."""

    change: Change = field(default_factory=dict)
    locked: set[str] = field(default_factory=set)

    def takes(self, change: Change, keys: frozenset[str]) -> bool:
        """Tell whether a change can be made at the same time, and keep it if so."""
        if self.locked & change.keys() or self.change.keys() & keys:
            return False
        self.change |= change
        self.locked |= keys
        return True


def pack(changes: Iterable[tuple[Alone, Change]]) -> list[Change]:
    """Return as few rounds as it easily takes to make all changes."""
    rounds: list[Round] = []
    for alone, change in changes:
        if not any(each.takes(change, alone.keys) for each in rounds):
            rounds.append(Round({**change}, {*alone.keys}))
    return [each.change for each in rounds]


def list_changes(alone: Alone, spec: Spec, season: Calculation, live: set[str]) -> Iterator[Change]:
    """Yield what is set for one formula, a few values at a time."""
    keys = sorted(key for key in alone.keys if is_free(key, spec, live))
    known = {key: get(season, key) for key in keys}
    for key in keys:
        yield from ({key: value} for value in vary(key, known[key], spec))
    if any(" " in key for key in keys) and not alone.row:
        return  # a list of rows, which are not tried against each other
    yield dict.fromkeys(keys)
    for one, other in permutations(keys, 2):
        if get_unit(one, spec) == get_unit(other, spec) and isinstance(known[other], float):
            yield {one: known[other]}
    yield from tie(alone, keys, spec, season)
    choices = [key for key in keys if isinstance(known[key], str)]
    for choice, key in product(choices, sorted({*keys} - {*choices})):
        yield from ({choice: option, key: 0.0} for option in vary(choice, known[choice], spec))


def is_free(key: str, spec: Spec, live: set[str]) -> bool:
    """Tell whether a cell can be set: it is no constant, not typed in a row, and not live."""
    quantity = find_quantity(key, spec)
    typed = isinstance(quantity, Record) and (quantity.entry or quantity.words)
    return not (
        typed or quantity is None or isinstance(quantity, Constant) or key.partition(" ")[0] in live
    )


def find_quantity(key: str, spec: Spec) -> Quantity | None:
    """Return the quantity of a key: of a list, the column."""
    name, _, row = key.partition(" ")
    if not row:
        return spec.quantities.get(name)
    return spec.quantities.get(name.partition("_")[2].removesuffix(LIST))


def get_unit(key: str, spec: Spec) -> str:
    """Return the unit of a key."""
    quantity = find_quantity(key, spec)
    return "" if quantity is None or isinstance(quantity, Choice | Grid) else quantity.unit


def get(season: Calculation, key: str) -> Value:
    """Return what a key stands at."""
    name, _, row = key.partition(" ")
    value = season.columns[name][int(row) - 1] if row else season.values.get(name)
    return float(value) if isinstance(value, int | float) else value


def vary(key: str, value: Value, spec: Spec) -> Iterator[Value]:
    """Yield other values for one key."""
    quantity = find_quantity(key, spec)
    yield None
    if isinstance(quantity, Choice):
        yield from (option for option in quantity.options if option != value)
        return
    number = value if isinstance(value, float) else 1.0
    yield from (0.0, -number, number + 1.0, number - 1.0, number * 2.0)


def tie(alone: Alone, keys: list[str], spec: Spec, season: Calculation) -> Iterator[Change]:
    """Yield values at which two things that are compared are the same, or nearly."""
    grid = spec.quantities.get(alone.grid)

    def locate(name: str) -> str:
        if isinstance(grid, Grid):
            if name in grid.columns:
                return f"{grid.name}_{name}{LIST} {alone.row}"
            return bind_name(name, grid.bind)
        return name

    for left, right in list_pairs(parse(alone.formula)):
        for one, other in ((left, right), (right, left)):
            if isinstance(one, Operand) and locate(one.text) in keys:
                key = locate(one.text)
                step = 1.0 if is_count(key, spec) else BESIDE
                for level in list_levels(other, spec, season, locate):
                    yield from ({key: level + each} for each in (0.0, -step, step))


def list_levels(
    node: Node, spec: Spec, season: Calculation, locate: Callable[[str], str]
) -> Iterator[float]:
    """Yield what something is compared with, as it is and with each of its constants halved."""
    halves: list[dict[str, Value]] = [{}]
    for name in sorted({each.text for each in walk(node) if isinstance(each, Operand)}):
        quantity = spec.quantities.get(name)
        halves += [{name: quantity.value / 2}] if isinstance(quantity, Constant) else []
    for half in halves:
        level = work_out(node, replace(season, values={**season.values, **half}), locate)
        yield from () if level is None else (level,)


def is_count(key: str, spec: Spec) -> bool:
    """Tell whether a key is a column that counts: its numbers are whole."""
    quantity = find_quantity(key, spec)
    return isinstance(quantity, Record) and quantity.unit == "n"


def list_pairs(tree: Node) -> Iterator[tuple[Node, Node]]:
    """Yield what is compared with what."""
    for node in walk(tree):
        if isinstance(node, Pair) and node.sign in COMPARISONS:
            yield node.left, node.right
        elif isinstance(node, Call) and node.function in LISTS:
            yield from permutations(node.arguments, 2)


def work_out(node: Node, season: Calculation, locate: Callable[[str], str]) -> float | None:
    """Return what a part of a formula comes to, or None where it is no plain arithmetic."""
    match node:
        case Number(text):
            return float(text)
        case Operand(text):
            try:
                found = get(season, locate(text))
            except (KeyError, IndexError):
                return None
            return found if isinstance(found, float) else None
        case Sign(sign, inner):
            value = work_out(inner, season, locate)
            return None if value is None else -value if sign == "-" else value
        case Pair(sign, left, right):
            one, other = (work_out(n, season, locate) for n in (left, right))
            return None if one is None or other is None else calculate(sign, one, other)
        case _:
            return None


def calculate(sign: str, one: float, other: float) -> float | None:
    """Return what an operator makes of two numbers."""
    match sign:
        case "+":
            return one + other
        case "-":
            return one - other
        case "*":
            return one * other
        case "/" if other:
            return one / other
        case _:
            return None
