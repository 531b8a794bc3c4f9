"""An older workbook: what was typed in it, by its own names, and what there is to tell about it."""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from openpyxl.utils.datetime import from_excel

from builder.audit.book import assemble, load, refusing
from builder.audit.cases import TYPED, TYPED_UNIT, list_cells, name_row
from builder.audit.container import pack, read_parts
from builder.audit.identity import find_strangeness
from builder.audit.inputs import Reader
from builder.audit.normalization import CellValue
from builder.formula.grids import LIST
from builder.problems import EXIT_FILE, UserError
from builder.spec.records import Former
from builder.spec.specification import Spec

AREA = re.compile(r".+!\$?([A-Z]{1,3})\$?(\d{1,7})(?::\$?([A-Z]{1,3})\$?(\d{1,7}))?", re.DOTALL)
MOST_ROWS = 10_000
LONGEST = 32_767  # characters of one cell, in every spreadsheet program
FORMULA = "a formula, which is not worked out here"


@dataclass(frozen=True, slots=True)
class Note:
    """One line about one cell: what became of what was typed there."""

    fate: str
    cell: str
    name: str
    text: str

    def __str__(self) -> str:
        """Return `dropped: Sheet!B5 name: value, why`."""
        place = " ".join(part for part in (self.cell, self.name) if part)
        return ": ".join(part for part in (self.fate, place, self.text) if part)


class Source:
    """Hands out typed cells by name, and remembers which ones and what there is to tell."""

    def __init__(self, path: Path, spec: Spec) -> None:
        """Open a workbook of this program; raise UserError where it is none."""
        data = pack(read_parts(path))
        self.workbook = load(path, data)
        with refusing(path):
            self.book = assemble(self.workbook, {})
        for strange in find_strangeness(self.book, spec):
            raise UserError(f"{path}: {strange.text}. Give one that it built.", EXIT_FILE)
        self.spec, self.units = spec, self.book.properties["units"]
        self.names = {name: area for name, area in self.book.names.items() if is_column(area)}
        self.rename()
        shown = {place: cell.constant for place, cell in self.book.cells.items()}
        self.reader = Reader(spec, self.book.properties["language"], shown)
        self.asked: set[str] = set()
        self.notes: list[Note] = []

    def rename(self) -> None:
        """Let cells and columns of an older edition be found by the names of this one."""
        renamed = self.spec.renaming.names if self.spec.renaming else {}
        former = {former.name: former.to for former in self.list_former()}
        for old, new in {**renamed, **former}.items():
            for end in (LIST, TYPED, TYPED_UNIT):
                if old + end in self.names:
                    self.names.setdefault(new + end, self.names.pop(old + end))

    def list_former(self) -> list[Former]:
        """Return the inputs of earlier editions that the workbook asks for."""
        former = self.spec.former.values()
        return [one for one in former if one.name + TYPED in self.book.names]

    def find(self, name: str) -> str:
        """Return the one cell of a name, or "" where there is none."""
        places = list_cells(self.names[name]) if name in self.names else []
        return places[0] if len(places) == 1 else ""

    def read(self, place: str, name: str) -> CellValue:
        """Return what was typed in a cell, nothing where it cannot be carried as it is."""
        self.asked.add(place)
        cell = self.book.cells.get(place)
        if cell is None:
            return None
        if cell.formula:
            self.drop(place, name, FORMULA)
            return None
        if isinstance(cell.constant, str) and len(cell.constant) > LONGEST:
            self.drop(place, name, f"more than {LONGEST} characters")
            return None
        return cell.constant

    def read_words(self, place: str, name: str) -> float | str | None:
        """Return what was typed in a cell for words; a day that stands there becomes a text."""
        typed = self.read(place, name)
        if isinstance(typed, bool):
            return str(typed).upper()
        if isinstance(typed, float) and self.is_day(place):
            return str(from_excel(typed)).removesuffix(" 00:00:00")
        return typed

    def is_day(self, place: str) -> bool:
        """Tell whether a cell shows its number as a day or time."""
        sheet, _, cell = place.rpartition("!")
        return bool(self.workbook[sheet][cell].is_date)

    def list_words(self, name: str) -> dict[str, str]:
        """Return the codes of the words among which the workbook itself lets people choose."""
        sides = (self.names.get(f"{name}_{part}", "") for part in ("words", "codes"))
        words, codes = (
            [self.reader.shown.get(c) for c in list_cells(a)] if a else [] for a in sides
        )
        pairs = zip(words, codes, strict=False)
        return {str(word).casefold(): str(code) for word, code in pairs if word and code}

    def drop(self, place: str, name: str, why: str) -> None:
        """Tell that the content of a cell is not in the fresh workbook, and why."""
        self.notes.append(Note("dropped", place, name, f"{quote(self.content(place))}: {why}"))

    def tell(self, fate: str, place: str, name: str, text: str) -> None:
        """Tell what else there is to know about a cell."""
        self.notes.append(Note(fate, place, name, text))

    def content(self, place: str) -> CellValue:
        """Return what stands in a cell: its formula, or what was typed."""
        cell = self.book.cells.get(place)
        return (cell.formula or cell.constant) if cell else None

    def drop_rest(self) -> None:
        """Tell of every filled cell for typing that nobody asked for."""
        owners = dict(self.list_owners())
        for place, cell in self.book.cells.items():
            if not cell.locked and place not in self.asked and self.content(place) is not None:
                name = owners.get(place, "")
                self.drop(place, name, self.explain_rest(name))

    def explain_rest(self, name: str) -> str:
        """Return why nobody asked for a cell for typing of that name."""
        if name.removesuffix(TYPED_UNIT).removesuffix(TYPED) in self.spec.quantities:
            return "this edition works it out"
        return "this edition has no such name" if name else "the cell has no name"

    def drop_strays(self, planned: set[str]) -> None:
        """Tell of what stands where this edition has no cell at all, such as a remark beside."""
        for place, cell in self.book.cells.items():
            if cell.locked and place not in planned and self.content(place) is not None:
                self.drop(place, "", "not one of the cells to type in")

    def drop_comments(self) -> None:
        """Tell of comments that were pinned to cells."""
        for sheet in self.workbook.worksheets:
            for row in sheet.iter_rows():
                for cell in row:
                    if cell.comment:
                        text = f"comment {quote(cell.comment.text)}: comments are not carried"
                        self.tell("dropped", f"{sheet.title}!{cell.coordinate}", "", text)

    def list_owners(self) -> Iterator[tuple[str, str]]:
        """Yield each cell for typing that a name of the workbook leads to, with that name."""
        for name, area in self.names.items():
            if name.endswith(LIST):
                for number, place in enumerate(list_cells(area), start=1):
                    yield place, name_row(name.removesuffix(LIST), number)
        for name, area in self.names.items():
            if name.endswith((TYPED, TYPED_UNIT)):
                yield list_cells(area)[0], name


def is_column(area: str) -> bool:
    """Tell whether a name leads to one cell, or to cells one below the other, and not too many."""
    found = AREA.fullmatch(area)
    if found is None:
        return False
    first, top, last, bottom = found.groups()
    return (last or first) == first and 0 <= int(bottom or top) - int(top) < MOST_ROWS


def quote(value: object) -> str:
    """Return a value in full on one line, without signs that cannot be printed."""
    if isinstance(value, float):
        return f"{value:.15g}"
    words = "".join(sign if sign.isprintable() else f"\\u{ord(sign):04x}" for sign in str(value))
    return words if words.startswith("=") else f"“{words}”"
