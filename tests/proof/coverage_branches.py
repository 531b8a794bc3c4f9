"""Which branches of the formulas a set of input takes, and which arms decide a condition."""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from workbook.files import ERROR, Cell, File, Value

from builder.formula.syntax import Call, Node, find_inner, parse
from proof.coverage_bench import Bench, Slot
from proof.mutants_trees import write

ROW = re.compile(r"(?<![A-Za-z_\d])(\$?[A-Z]{1,3})(\d+)(?![\d\w(])")
MOST_NEAR = 1  # rows apart that count as beside each other when formulas are compared


@dataclass(frozen=True, slots=True)
class Way:
    """A condition that must hold, or not, for a part of a formula to be looked at."""

    slot: Slot
    wanted: bool


@dataclass(frozen=True, slots=True)
class Fork:
    """A place where a formula goes one way or another."""

    site: str
    function: str
    path: tuple[Way, ...]
    parts: tuple[Slot, ...]

    def list_arms(self) -> list[str]:
        """Return the ways that there are."""
        if self.function in ("IF", "IFERROR"):
            return ["held", "not held"]
        arms = [f"argument {number}" for number, _ in enumerate(self.parts, start=1)]
        return arms if self.function in ("MIN", "MAX", "CHOOSE") else [*arms, "none"]

    def judge(self, values: dict[Slot, Value]) -> str | None:
        """Return the way that was taken, or None where this place was not reached."""
        if any(not reaches(way, values) for way in self.path):
            return None
        found = [values[slot] for slot in self.parts]
        if self.function == "IFERROR":
            return "not held" if is_error(found[0]) else "held"
        if any(is_error(value) for value in found):
            return None
        if self.function == "IF":
            return "held" if found[0] else "not held"
        if self.function in ("AND", "OR"):
            odd = [n for n, value in enumerate(found, 1) if bool(value) == (self.function == "OR")]
            return f"argument {odd[0]}" if len(odd) == 1 else None if odd else "none"
        return judge_numbers(self.function, found)


def judge_numbers(function: str, found: list[Value]) -> str | None:
    """Return which of several numbers is picked, if it is one alone."""
    if function == "CHOOSE":
        return f"argument {int(float(found[0]))}" if isinstance(found[0], float) else None
    numbers = [value for value in found if isinstance(value, float)]
    best = (min if function == "MIN" else max)(numbers, default=None)
    places = [n for n, value in enumerate(found, 1) if value is not None and value == best]
    return f"argument {places[0]}" if len(places) == 1 else None


def reaches(way: Way, values: dict[Slot, Value]) -> bool:
    """Tell whether a condition stands as it must."""
    value = values[way.slot]
    return not is_error(value) and bool(value) == way.wanted


def is_error(value: Value) -> bool:
    """Tell whether a value is an error code."""
    return isinstance(value, str) and bool(ERROR.match(value))


class Forks:
    """All forks of a workbook's formulas, with their conditions on the bench."""

    def __init__(self, bench: Bench, cells: list[Cell]) -> None:
        """Put every condition beside its cell."""
        self.bench, self.places = bench, name_places(bench.file)
        self.slots: dict[tuple[Cell, str], Slot] = {}
        self.seen: dict[str, set[str]] = {}
        self.open: list[Fork] = []
        for cell in cells:
            tree = parse(bench.file.formulas[cell][1:])
            self.open += self.find(tree, cell, (), [0])
        self.arms = {fork.site: fork.list_arms() for fork in self.open}

    def find(
        self, node: Node, cell: Cell, path: tuple[Way, ...], counter: list[int]
    ) -> Iterator[Fork]:
        """Yield the forks of one formula, each with the conditions on the way to it."""
        if not isinstance(node, Call):
            for inner in find_inner(node):
                yield from self.find(inner, cell, path, counter)
            return
        function, arguments = node.function, node.arguments
        forked = function in ("AND", "OR", "MIN", "MAX") and len(arguments) > 1
        if forked or function in ("IF", "IFERROR", "CHOOSE"):
            counter[0] += 1
            site = (
                f"{self.describe(cell)} {function} {counter[0]}: {relate_rows(write(node), cell)}"
            )
            parts = arguments if forked else arguments[:1]
            slots = tuple(self.put(cell, part) for part in parts)
            yield Fork(site, function, path, slots)
        for place, inner in enumerate(arguments):
            further = path
            if function == "IF" and place:
                further = (*path, Way(self.put(cell, arguments[0]), place == 1))
            yield from self.find(inner, cell, further, counter)

    def put(self, cell: Cell, node: Node) -> Slot:
        """Put one part of a formula on the bench, once."""
        text = write(node)
        if (cell, text) not in self.slots:
            self.slots[cell, text] = self.bench.add(cell[0], text)
        return self.slots[cell, text]

    def describe(self, cell: Cell) -> str:
        """Return how a formula is called: by its name, its column or its sheet."""
        return self.places.get(cell, f"{cell[0]} column {cell[2]}")

    def watch(self) -> None:
        """Note which ways the present input takes; a fork that took all is no longer watched."""
        used = {s for f in self.open for s in (*f.parts, *(way.slot for way in f.path))}
        values = {slot: self.bench.look(slot) for slot in used}
        for fork in self.open:
            arm = fork.judge(values)
            if arm:
                self.seen.setdefault(fork.site, set()).add(arm)
        self.open = [f for f in self.open if set(self.arms[f.site]) - self.seen.get(f.site, set())]
        kept = {s for f in self.open for s in (*f.parts, *(way.slot for way in f.path))}
        for slot in used - kept:
            self.bench.drop(slot)

    def list_missing(self) -> list[str]:
        """Return the ways that no input took, without the formula, whose addresses may move."""
        return [
            f"{site.partition(': ')[0]} | {arm}"
            for site, arms in self.arms.items()
            for arm in arms
            if arm not in self.seen.get(site, set())
        ]

    def count(self) -> tuple[int, int]:
        """Return how many ways were taken, and how many there are."""
        missing = len(self.list_missing())
        total = sum(map(len, self.arms.values()))
        return total - missing, total


def name_places(file: File) -> dict[Cell, str]:
    """Return what each cell is called: by its column, by its name, or by the input of its row."""
    typed = {cells[0][:2]: n for n, cells in file.names.items() if n.endswith("_typed")}
    named = {c: f"{typed[c[:2]]} column {c[2]}" for c in file.formulas if c[:2] in typed}
    named |= {cells[0]: name for name, cells in file.names.items() if len(cells) == 1}
    lists = {name: cells for name, cells in file.names.items() if name.endswith("_list")}
    return named | {cell: name for name, cells in lists.items() for cell in cells}


def relate_rows(text: str, cell: Cell) -> str:
    """Return a formula with rows counted from its own, so that those of a column are alike."""

    def relate(found: re.Match[str]) -> str:
        step = int(found[2]) - cell[1]
        return f"{found[1]}[{step}]" if abs(step) <= MOST_NEAR else found[0]

    return ROW.sub(relate, text)
