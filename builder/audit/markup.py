"""The XML of a workbook's parts: read through once, before any package makes cells of it.

A few bytes can ask for seventeen thousand million cells; the reading package would make them all.
"""

from dataclasses import dataclass, field
from xml.parsers import expat

from openpyxl.utils.cell import coordinate_to_tuple, range_boundaries

SUFFIXES = (".xml", ".rels")
MOST_MARKS = 2_000_000
MOST_ELEMENTS = 500_000
MOST_LEVELS = 100
MOST_CELLS = 500_000
# Namespaces and types of relations of the strict form, ISO/IEC 29500-1; the reading package knows
# the transitional ones of part 4 alone, and sees no cells in the others.
STRICT = "http://purl.oclc.org/ooxml/"
ROW, CELL = "row", "c"
# What the reading package spreads over every cell of the area that it names.
SPREAD = frozenset({"mergeCell", "hyperlink", "comment"})
LAST_COLUMN, LAST_ROW = 16_384, 1_048_576


class MarkupError(Exception):
    """The XML of a part cannot be read, or asks for more than any workbook holds."""


def judge_markup(parts: dict[str, bytes]) -> None:
    """Raise MarkupError where the parts of a workbook are not to be read further."""
    marks = sum(data.count(b"<") + data.count(b"=") for data in parts.values())
    if marks > MOST_MARKS:
        raise MarkupError(f"holds {marks} marks of XML, more than {MOST_MARKS}")
    survey = Survey()
    for name, data in parts.items():
        if name.lower().endswith(SUFFIXES):
            survey.read(name, data)


@dataclass(slots=True)
class Survey:
    """How far the cells of a workbook reach, and how many elements it has so far."""

    elements: int = 0
    level: int = 0
    places: int = 0
    columns: int = 0
    row: int = 0
    column: int = 0
    deepest: int = 0
    part: str = field(default="")

    def read(self, name: str, data: bytes) -> None:
        """Read one part."""
        self.part, self.level, self.row, self.column = name, 0, 0, 0
        self.deepest, self.columns = 0, 0
        parser = expat.ParserCreate(namespace_separator=" ")
        parser.StartElementHandler = self.begin
        parser.EndElementHandler = self.end
        parser.StartDoctypeDeclHandler = self.refuse_type
        try:
            parser.Parse(data, True)  # noqa: FBT003 the last piece, says the package
        except (expat.ExpatError, LookupError, ValueError) as error:  # or a code nobody knows
            raise MarkupError(f"is damaged in {name}: {error}") from error
        self.places += self.deepest * self.columns

    def refuse_type(self, *_: object) -> None:
        """Refuse what entities are declared in."""
        raise MarkupError(
            f"declares a document type in {self.part}, as no spreadsheet program does"
        )

    def begin(self, name: str, given: dict[str, str]) -> None:
        """Take in one element."""
        self.elements += 1
        self.level += 1
        if self.elements > MOST_ELEMENTS:
            raise MarkupError(f"holds more than {MOST_ELEMENTS} elements of XML")
        if self.level > MOST_LEVELS:
            raise MarkupError(f"holds elements {self.level} deep in {self.part}")
        if name.startswith(STRICT) or given.get("Type", "").startswith(STRICT):
            raise MarkupError("is a strict Open XML workbook: save it as .xlsx of the usual kind")
        plain = name.rpartition(" ")[2]
        if plain == CELL:
            self.take_cell(given.get("r", ""))
        elif plain == ROW:
            self.take_row(given.get("r", ""))
        elif plain in SPREAD:
            self.take_area(given.get("ref", ""))

    def end(self, _name: str) -> None:
        """Leave an element."""
        self.level -= 1

    def take_row(self, number: str) -> None:
        """Take in the number of a row; some programs write the last one although it is blank."""
        try:
            self.row, self.column = int(number) if number else self.row + 1, 0
        except ValueError:
            return  # the reading package tells of it
        if self.row > LAST_ROW:
            raise MarkupError(f"is damaged: it has a row {self.row} ({self.part})")

    def take_cell(self, place: str) -> None:
        """Take in one cell, which may not say where it stands."""
        try:
            row, self.column = coordinate_to_tuple(place) if place else (self.row, self.column + 1)
        except ValueError:
            return  # the reading package tells of it
        self.reach(row, self.column)

    def take_area(self, area: str) -> None:
        """Take in the cells of an area, whole rows and columns too."""
        try:
            _, _, column, row = range_boundaries(area)
        except ValueError:
            return  # the reading package tells of it
        self.reach(row or LAST_ROW, column or LAST_COLUMN)

    def reach(self, row: int, column: int) -> None:
        """Let the cells reach as far as this one."""
        self.deepest, self.columns = max(self.deepest, row), max(self.columns, column)
        if self.places + self.deepest * self.columns > MOST_CELLS:
            raise MarkupError(
                f"has cells as far out as row {row}, column {column} ({self.part}): "
                "delete the rows and columns that nobody needs"
            )
