"""Compares a workbook of another edition with this one by names, and tells what differs."""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

from builder.audit.book import Book, Cell
from builder.audit.cases import TYPED, TYPED_UNIT, keep_columns, list_cells
from builder.audit.normalization import CellValue, normalize_formula
from builder.audit.structure import same_constant
from builder.audit.traits import Traits
from builder.audit.values import show
from builder.formula.grids import LIST

CODES = "_codes"
COUNTED = re.compile(
    r"(input|check)_(states|labels)(_\d+)?|\w+_state_txt"
)  # what counts and tells of others
MOST_NAMES = 8
BLANK = Cell("", None, None, locked=True)


@dataclass(frozen=True, slots=True)
class Changes:
    """What differs between two workbooks, by name; constants with the value on either side."""

    formulas: list[str] = field(default_factory=list)
    constants: dict[str, str] = field(default_factory=dict)
    limits: list[str] = field(default_factory=list)
    new: list[str] = field(default_factory=list)
    gone: list[str] = field(default_factory=list)

    def names(self) -> set[str]:
        """Return the names of both workbooks that stand for something else."""
        return {*self.formulas, *self.constants, *self.limits}

    def __str__(self) -> str:
        """Return all groups in plain words, each with its first names."""
        return "; ".join(self.tell()) or "no formula, constant, limit or name differs"

    def tell(self) -> Iterator[str]:
        """Yield the groups that are not empty."""
        constants = [f"{name} {values}" for name, values in self.constants.items()]
        for words, names in (
            ("formulas that differ", self.formulas),
            ("constants that differ", constants),
            ("limits or numbers behind that differ", self.limits),
            ("names that are new", fold(self.new)),
            ("names that are gone", fold(self.gone)),
        ):
            if names:
                yield f"{words}: {len(names)} ({list_names(names)})"


@dataclass(frozen=True, slots=True)
class Side:
    """One of two workbooks: its traits as it spells them, and in one spelling."""

    book: Book
    plain: Traits
    spelled: Traits


def take_side(book: Book) -> Side:
    """Return a workbook ready to be compared with others."""
    return Side(book, Traits(book, str), Traits(book, normalize_formula))


def compare_editions(found: Side, here: Side) -> Changes:
    """Return what the names of a workbook stand for otherwise than in this edition."""
    older, newer = keep_named(found.book.names), keep_named(here.book.names)
    changes = Changes(
        new=[name for name in newer if name not in older],
        gone=[name for name in older if name not in newer],
    )
    for name in newer:
        if name in older and not name.endswith((TYPED, TYPED_UNIT)):
            pairs = list(pair_cells(older[name], newer[name], name))
            compare_name(name, pairs, (found, here), changes)
    return changes


def keep_named(names: dict[str, str]) -> dict[str, str]:
    """Return the names of quantities and lists: the states of a block stand behind quantities."""
    kept = keep_columns(names)
    return {name: target for name, target in kept.items() if not COUNTED.fullmatch(name)}


def pair_cells(older: str, newer: str, name: str) -> Iterator[tuple[str, str]]:
    """Yield the cells of a name on both sides; a column as far as both reach."""
    sides = list_cells(older), list_cells(newer)
    short = min(map(len, sides)) if name.endswith(LIST) else max(map(len, sides))
    for number in range(short):
        yield tuple(side[number] if number < len(side) else "" for side in sides)  # type: ignore[misc]


def compare_name(
    name: str, pairs: list[tuple[str, str]], sides: tuple[Side, Side], changes: Changes
) -> None:
    """Note how the cells of one name differ, the first difference of them."""
    older, newer = (side.book.cells for side in sides)
    for first, second in pairs:
        found, here = older.get(first, BLANK), newer.get(second, BLANK)
        if not here.locked:
            continue
        if found.formula or here.formula:
            if not (found.formula and here.formula):
                changes.formulas.append(name)
                return
            kind = compare_formulas(first, second, sides)
            if kind:
                (changes.formulas if kind == "shape" else changes.limits).append(name)
                return
        elif differ(found.constant, here.constant, name):
            changes.constants[name] = f"{show(found.constant)} (here {show(here.constant)})"
            return


def compare_formulas(first: str, second: str, sides: tuple[Side, Side]) -> str:
    """Return `shape` or `numbers` where two formulas differ, "" where only their spelling does."""
    found, here = sides[0].plain.describe(first), sides[1].plain.describe(second)
    if found != here:
        found, here = sides[0].spelled.describe(first), sides[1].spelled.describe(second)
    if found.shape != here.shape:
        return "shape"
    return "numbers" if found.numbers != here.numbers else ""


def differ(found: CellValue, here: CellValue, name: str) -> bool:
    """Tell whether two constants differ; words may, unless they are codes that formulas use."""
    if isinstance(found, str) and isinstance(here, str) and not name.endswith(CODES):
        return False
    return not same_constant(found, here)


def fold(names: Iterable[str]) -> list[str]:
    """Return names without the further names of the same quantity."""
    short = (name.removesuffix(TYPED_UNIT).removesuffix(TYPED).removesuffix(LIST) for name in names)
    return list(dict.fromkeys(short))


def list_names(names: list[str]) -> str:
    """Return the first names, and how many more there are."""
    rest = len(names) - MOST_NAMES
    more = f" and {rest} more" if rest > 0 else ""
    return f"{', '.join(names[:MOST_NAMES])}{more}"
