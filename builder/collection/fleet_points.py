"""Writes the flow of every machine against its hours, a row each, and the one to be shown."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import chain

import xlsxwriter
from xlsxwriter.format import Format
from xlsxwriter.utility import quote_sheetname, xl_col_to_name
from xlsxwriter.worksheet import Worksheet

from builder.collection.fleet_words import Wording
from builder.collection.sheets import set_up_print, write_cell
from builder.write.looks import BASE, HEAD, LOOKS

NUMBER, NAME, COUNT, HOURS = range(4)  # columns; behind the hours stand the percents
SHOWN, FIRST = 1, 2  # rows: the machine shown, and the first of all
WIDTHS = {NUMBER: 8, NAME: 44, COUNT: 24}
# Where a reader types which machine to show, on the sheet of charts.
CHOICE = "$E$3"


@dataclass(frozen=True, slots=True)
class Charted:
    """A machine with its number on the fleet sheet and its points of hours and flow."""

    number: int
    name: str
    points: list[tuple[float, float]]


@dataclass(frozen=True, slots=True)
class Area:
    """Where the points stand: how many machines, and the most points that one of them has."""

    sheet: str
    machines: int
    most: int

    @property
    def percents(self) -> int:
        """The first column of the percents."""
        return HOURS + self.most

    def find(self, row: int, col: int) -> str:
        """Return the address of a cell, with its sheet."""
        return f"{quote_sheetname(self.sheet)}!${xl_col_to_name(col)}${row + 1}"

    def span(self, col: int) -> str:
        """Return the address of a column of all machines, without its sheet."""
        letter = xl_col_to_name(col)
        return f"${letter}${FIRST + 1}:${letter}${FIRST + self.machines}"

    def list_numbers(self) -> str:
        """Return the address of the numbers of all machines."""
        return f"{quote_sheetname(self.sheet)}!{self.span(NUMBER)}"

    def describe_series(self, row: int, points: Sequence[tuple[float, float]]) -> dict[str, object]:
        """Return the ranges of the points of a row, and what stands there."""
        last = len(points) - 1
        hours, percents = (list(column) for column in zip(*points, strict=True))
        return {
            "categories": [self.sheet, row, HOURS, row, HOURS + last],
            "values": [self.sheet, row, self.percents, row, self.percents + last],
            "categories_data": hours,
            "values_data": percents,
        }

    def fill(self, charted: Charted) -> list[tuple[float, float]]:
        """Return as many points as the longest row has: the last one stands for those missing."""
        return charted.points + charted.points[-1:] * (self.most - len(charted.points))


class PointsSheet:
    """The sheet of the points of all machines, the most urgent first."""

    def __init__(self, workbook: xlsxwriter.Workbook, area: Area, wording: Wording) -> None:
        """Add the sheet, and make its looks."""
        self.area, self.wording = area, wording
        self.sheet: Worksheet = workbook.add_worksheet(area.sheet)
        self.plain: Format = workbook.add_format(BASE)
        self.centred: Format = workbook.add_format({**BASE, "align": "center"})
        self.head: Format = workbook.add_format({**BASE, **HEAD})
        self.shown: Format = workbook.add_format({**BASE, **LOOKS["result"], "align": "general"})

    def write(self, machines: Iterator[Charted], chooser: str) -> Iterator[Charted]:
        """Write headings, the machine shown, and all machines, and yield each."""
        first = next(machines)
        self.write_head()
        self.write_shown(first, chooser)
        for row, machine in enumerate(chain([first], machines), start=FIRST):
            for col, value in self.list_cells(machine, machine.points):
                look = self.centred if col == NUMBER else self.plain
                write_cell(self.sheet, (row, col), value, look)
            yield machine

    def write_head(self) -> None:
        """Write the headings, and set up the sheet."""
        sheet, say = self.sheet, self.wording.say
        for col, width in WIDTHS.items():
            sheet.set_column(col, col, width)
        words = ("fleet_number", "fleet_machine", "fleet_measurements")
        for col, key in enumerate(words):
            sheet.write_string(0, col, say(key), self.head)
        for place in range(self.area.most):
            for col, key in ((HOURS + place, "h"), (self.area.percents + place, "pct")):
                sheet.write_string(0, col, f"{self.wording.sign(key)} {place + 1}", self.head)
        sheet.freeze_panes(FIRST, HOURS)
        set_up_print(sheet, say("page"))
        # Who has how many points prints on a page; the hundreds of points are for the charts.
        sheet.fit_to_pages(1, 0)
        sheet.print_area(0, 0, FIRST + self.area.machines - 1, COUNT)

    def write_shown(self, first: Charted, chooser: str) -> None:
        """Write the formulas that fetch the machine chosen, or the first where none is."""
        values = dict(self.list_cells(first, self.area.fill(first)))
        for col, formula in self.list_formulas(chooser):
            self.sheet.write_formula(SHOWN, col, formula, self.shown, values[col])

    def list_formulas(self, chooser: str) -> Iterator[tuple[int, str]]:
        """Yield each column of the machine shown, with its formula."""
        area, shown, numbers = self.area, f"$A${SHOWN + 1}", self.area.span(NUMBER)
        place = f"MATCH({chooser},{numbers},0)"
        yield NUMBER, f"=IFERROR(INDEX({numbers},{place}),{numbers.partition(':')[0]})"
        for col in range(NAME, area.percents + area.most):
            fetch = f"INDEX({area.span(col)},MATCH({shown},{numbers},0))"
            number = (col - HOURS) % area.most + 1
            if col < HOURS or number == 1:
                yield col, f"={fetch}"
            else:
                before = f"{xl_col_to_name(col - 1)}{SHOWN + 1}"
                yield col, f"=IF({number}>$C${SHOWN + 1},{before},{fetch})"

    def list_cells(
        self, machine: Charted, points: list[tuple[float, float]]
    ) -> Iterator[tuple[int, object]]:
        """Yield the columns of a machine and what stands there."""
        yield from ((NUMBER, machine.number), (NAME, machine.name), (COUNT, len(machine.points)))
        for place, (hours, percent) in enumerate(points):
            yield from ((HOURS + place, hours), (self.area.percents + place, percent))
