"""Writes the sheet of the fleet: a row for each machine, the most urgent first."""

from collections.abc import Iterator
from dataclasses import dataclass

import xlsxwriter
from xlsxwriter.worksheet import Worksheet

from builder.collection.fleet_words import Wording
from builder.collection.sheets import set_height, set_up_print, write_cell
from builder.collection.store import Call, Store
from builder.write.looks import BASE, FAINT, HEAD, LOOKS, RULED, STATES

HEAD_ROW = 2
FROZEN = 4
CALL, NOTE = "call", "note"
CELL: dict[str, object] = {**BASE, **RULED, "valign": "top"}
CENTRED: dict[str, object] = {**CELL, "align": "center"}
WRAPPED: dict[str, object] = {**CELL, "text_wrap": True}
STYLES: dict[str, dict[str, object]] = {
    "text": WRAPPED,
    "file": {**WRAPPED, "indent": 1},
    CALL: {**WRAPPED, **STATES["stop"], "bold": False},
    NOTE: {**WRAPPED, "font_color": FAINT},
    "count": {**CENTRED, "num_format": "0"},
    "figure_0": {**CENTRED, "num_format": "#,##0"},
    "figure_1": {**CENTRED, "num_format": "0.0"},
    "figure_2": {**CENTRED, "num_format": "0.00"},
    "day": {**CENTRED, "num_format": "yyyy-mm-dd"},
    "head": {**WRAPPED, **HEAD},
    "head_centred": {**WRAPPED, **HEAD, "align": "center"},
    "title": {**BASE, **LOOKS["title"]},
    "plain": BASE,
}


@dataclass(frozen=True, slots=True)
class Column:
    """A column of the sheet: the words of its heading, its width, and how its cells look."""

    words: str
    width: int
    style: str


FIRST_COLUMNS = (
    Column("fleet_number", 6, "count"),
    Column("fleet_producer", 22, "text"),
    Column("fleet_site", 15, "text"),
    Column("fleet_machine", 15, "text"),
    Column("fleet_why", 58, CALL),
)
LAST_COLUMNS = (
    Column("fleet_last", 14, "day"),
    Column("fleet_entries", 14, "count"),
    Column("fleet_file", 28, "file"),
)


@dataclass(frozen=True, slots=True)
class Counts:
    """How many books there are, machines among them, and machines to call first."""

    books: int
    machines: int
    calls: int


class FleetSheet:
    """The sheet of machines, the most urgent first."""

    def __init__(self, workbook: xlsxwriter.Workbook, sheet: Worksheet, wording: Wording) -> None:
        """Make the looks of the sheet."""
        self.sheet, self.wording = sheet, wording
        self.causes = wording.spec.causes
        self.figures = [cause for cause in self.causes.values() if cause.heading]
        told = (Column(c.heading, c.width, f"figure_{c.digits or 0}") for c in self.figures)
        self.columns = (*FIRST_COLUMNS, *told, *LAST_COLUMNS)
        self.widths = [column.width for column in self.columns]
        self.looks = {name: workbook.add_format(style) for name, style in STYLES.items()}

    def write(self, store: Store, counts: Counts) -> None:
        """Write title, headings and a row for each machine."""
        self.write_head(counts)
        row = HEAD_ROW
        for row, call in enumerate(store.read_calls(), start=HEAD_ROW + 1):
            self.write_call(row, call)
        sheet = self.sheet
        sheet.autofilter(HEAD_ROW, 0, max(row, HEAD_ROW + 1), len(self.columns) - 1)
        sheet.freeze_panes(HEAD_ROW + 1, FROZEN)
        set_up_print(sheet, self.wording.say("page"))
        sheet.fit_to_pages(1, 0)
        sheet.repeat_rows(HEAD_ROW)
        sheet.activate()

    def write_head(self, counts: Counts) -> None:
        """Write the title, what was read, and the headings."""
        sheet, say = self.sheet, self.wording.say
        for col, column in enumerate(self.columns):
            sheet.set_column(col, col, column.width)
        sheet.write_string(0, 0, say("fleet_title"), self.looks["title"])
        told = {"books": counts.books, "machines": counts.machines, "calls": counts.calls}
        sheet.write_string(1, 0, say("fleet_counts", **told), self.looks["plain"])
        headings = [say(column.words) for column in self.columns]
        set_height(sheet, HEAD_ROW, headings, self.widths)
        for col, (column, heading) in enumerate(zip(self.columns, headings, strict=True)):
            centred = "align" in STYLES[column.style]
            look = self.looks["head_centred" if centred else "head"]
            sheet.write_string(HEAD_ROW, col, heading, look)

    def write_call(self, row: int, call: Call) -> None:
        """Write one machine."""
        values = list(self.list_values(row - HEAD_ROW, call))
        texts = [value if isinstance(value, str) else "" for value in values]
        set_height(self.sheet, row, texts, self.widths)
        urgent = self.causes[call.reasons[0].kind].urgent
        for col, (column, value) in enumerate(zip(self.columns, values, strict=True)):
            style = NOTE if column.style == CALL and not urgent else column.style
            self.sheet.write_blank(row, col, None, self.looks[style])
            write_cell(self.sheet, (row, col), value, self.looks[style])

    def list_values(self, number: int, call: Call) -> Iterator[object]:
        """Yield what stands in the row of a machine, in the order of the columns."""
        yield from (number, call.producer, call.site, call.machine)
        yield self.wording.tell_all(call.reasons)
        yield from (call.figures.get(cause.key) for cause in self.figures)
        yield from (call.last_day, call.entries, call.file)
