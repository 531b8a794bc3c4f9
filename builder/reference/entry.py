"""One row of the season log as it is read: cells that are blank, usable or not, day and line.

All are definitions of this project.
"""

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from builder.reference.comparison import TINY
from builder.reference.force import Line, find_line
from builder.reference.rinsing import EVENTS, count_rinse
from builder.reference.units import Raw

BAD = "x"  # stands for a cell that is not usable
WATERS = ("permeate", "potable", "other")
# unit and limits, inclusive, in the canonical unit (this project's judgement)
LIMITS = {
    "date": ("date", 40000.0, 80000.0),
    "hours_h": ("time", 0.0, 24.0),
    "flow_Lph": ("volume", 0.0, 100_000.0),
    "feed_bar": ("pressure", 0.0, 100.0),
    "out_bar": ("pressure", 0.0, 100.0),
    "back_bar": ("pressure", 0.0, 100.0),
    "water_degC": ("temperature", -2.0, 50.0),
    "prefilter_bar": ("pressure", 0.0, 10.0),
    "product_kg": ("mass", 0.0, 1000.0),
    "begin_pH": ("pH", 0.0, 14.0),
    "begin_degC": ("temperature", 5.0, 60.0),
    "finish_pH": ("pH", 0.0, 14.0),
    "finish_degC": ("temperature", 5.0, 60.0),
    "rinse_L": ("volume", 0.0, 100_000.0),
    "rinse_Lpmin": ("volume", 0.0, 2000.0),
    "rinse_min": ("time", 0.0, 3000.0),
    "permeate_brix": ("sugar", 0.0, 40.0),
}
WORDS = {"event": EVENTS, "water_kind": WATERS}
_JUDGED = """date event hours_h flow_Lph feed_bar out_bar back_bar water_degC prefilter_bar product
    product_kg begin_pH begin_degC finish_pH finish_degC rinse_L rinse_Lpmin rinse_min permeate_brix
    water_kind initials mended"""
JUDGED = tuple(_JUDGED.split())  # columns in the order of the sheet
KEPT = ("sap_L", "sap_brix", "concentrate_brix", "who", "letter", "note")  # and not judged


@dataclass(frozen=True, slots=True)
class Row:
    """One row as it is read; `cells` holds numbers in canonical units, codes, texts and BAD."""

    cells: Mapping[str, Raw]
    begun: bool
    day_d: float
    line_n: int
    line: Line

    def number(self, name: str) -> float | None:
        """Return a usable number, or None."""
        cell = self.cells[name]
        return None if isinstance(cell, str) else cell

    def word(self, name: str) -> str | None:
        """Return a usable word or text, or None."""
        cell = self.cells[name]
        return None if cell in {None, BAD} and name in WORDS else _tell(cell)

    @property
    def event(self) -> str | None:
        """Return the code of the event, or None."""
        return self.word("event")

    @property
    def volume_L(self) -> float | None:
        """Return the rinse volume: the typed one, else flow x time, else None."""
        volume, flow, time = map(self.number, ("rinse_L", "rinse_Lpmin", "rinse_min"))
        if volume is not None:
            return volume
        return None if flow is None or time is None else flow * time

    @property
    def counted_L(self) -> float:
        """Return the rinse that counts, 0 in rows where none does."""
        return count_rinse(self.event, self.volume_L)


def _tell(cell: Raw) -> str | None:
    return None if cell is None else str(cell)


def read_rows(columns: Mapping[str, Sequence[Raw]], lines: Sequence[Line]) -> list[Row]:
    """Return the rows of a log from top to bottom: `columns` as typed, lines from 0 on."""
    return list(_walk(columns, lines))


def _walk(columns: Mapping[str, Sequence[Raw]], lines: Sequence[Line]) -> Iterator[Row]:
    day_d = 0.0  # before the first date
    days = [line.day_d for line in lines]
    for cells in zip(*columns.values(), strict=True):
        typed = {n: None if c == "" else c for n, c in zip(columns, cells, strict=True)}
        date = read_cell("date", typed["date"], lines[0])
        day_d = date if isinstance(date, float) else day_d
        line_n = find_line(day_d, days)
        line = lines[line_n]
        read = {name: read_cell(name, typed[name], line) for name in JUDGED}
        yield Row(read, any(c is not None for c in typed.values()), day_d, line_n, line)


def read_cell(name: str, cell: Raw, line: Line) -> Raw:
    """Return a number in its canonical unit, a code or a text; BAD if it is not usable.

    Not usable: a text for a number, a word that is not on the list, a number beyond the limits.
    """
    if cell is None:
        return None
    if name in WORDS:
        return cell if cell in WORDS[name] else BAD
    if name not in LIMITS:
        return cell
    if isinstance(cell, str):
        return BAD
    kind, low, high = LIMITS[name]
    value = line.units.convert(float(cell), kind)
    return value if math.isfinite(value) and low - TINY <= value <= high + TINY else BAD
