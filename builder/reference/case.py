"""Everything that is known of one row of the log, and what its neighbours say of it.

All are definitions of this project.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from builder.reference.cleanwater import Baseline, Tested
from builder.reference.entry import BAD, JUDGED, LIMITS, WORDS, Row
from builder.reference.rinsing import ACID, ALKALINE, FIRST, RINSE, RUN, STORAGE, TEST, Stand
from builder.reference.shape import Margins
from builder.reference.sugar import PLAIN, Reading

NEEDS = {  # columns that an event needs, beside date and event
    RINSE: ("rinse_L", "water_kind", "initials"),
    FIRST: ("rinse_L", "water_kind", "initials"),
    ALKALINE: (
        "product",
        "product_kg",
        "begin_pH",
        "begin_degC",
        "finish_pH",
        "finish_degC",
        "initials",
    ),
    ACID: ("product", "product_kg", "begin_pH", "initials"),
    TEST: ("flow_Lph", "feed_bar", "out_bar", "water_degC"),
    STORAGE: ("product",),
}


@dataclass(frozen=True, slots=True)
class Limits:
    """What rows are compared with: flows in per cent, approved products, the machine, the gauge."""

    wash_pct: float
    stop_pct: float
    approved: dict[str, str | None]
    baseline: Baseline
    instrument: str | None


@dataclass(frozen=True, slots=True)
class Case:
    """One row (`n` from 0) with all rows, and what was found out about it."""

    rows: Sequence[Row]
    n: int
    stand: Stand
    reading: Reading
    tested: Tested | None
    margins: Margins
    made_good: bool
    owes: bool
    limits: Limits

    @property
    def row(self) -> Row:
        """Return the row itself."""
        return self.rows[self.n]

    @property
    def event(self) -> str | None:
        """Return the code of its event, or None."""
        return self.row.event

    def gap_d(self, other: Row | None) -> float:
        """Return the days since another row, 0 where one has no day."""
        known = other is not None and other.day_d > 0.0
        return self.row.day_d - other.day_d if other is not None and known else 0.0

    def find_above(self, *events: str) -> Row | None:
        """Return the last row above with one of these events, or with any."""
        for row in reversed(self.rows[: self.n]):
            if row.event is not None and (row.event in events or not events):
                return row
        return None

    @property
    def above(self) -> Row | None:
        """Return the row above."""
        return self.rows[self.n - 1] if self.n else None

    def sum_day(self) -> float:
        """Return the hours of the rows next to each other that have this row's day, up to it."""
        hours = []
        for row in reversed(self.rows[: self.n + 1]):
            if row.day_d != self.row.day_d:
                break
            hours.append(row.number("hours_h") or 0.0)
        return math.fsum(hours)

    def list_bad(self) -> list[int]:
        """Return the places of the columns that are not usable, from the left, from 1."""
        return [
            place
            for place, name in enumerate(JUDGED, start=1)
            if self.row.cells[name] == BAD and (name in LIMITS or name in WORDS)
        ]

    def list_missing(self) -> list[int]:
        """Return the places of the needed columns that are blank, from the left, from 1.

        A rinse volume is there if flow and time are; water is needed where more than 0 L count.
        """
        needed = {"date", "event", *NEEDS.get(self.event or "", ())}
        if self.row.volume_L is not None:
            needed.discard("rinse_L")
        if self.row.counted_L > 0.0:
            needed.add("water_kind")
        if self.row.number("permeate_brix") is not None and self.limits.instrument == PLAIN:
            needed.add("water_degC")
        cells = self.row.cells
        return [n for n, name in enumerate(JUDGED, 1) if name in needed and cells[name] is None]

    @property
    def column_n(self) -> int:
        """Return the place of the leftmost column not usable, else missing, else 0."""
        return next(iter([*self.list_bad(), *self.list_missing()]), 0)

    def is_unknown(self) -> bool:
        """Return whether the row is judged by something that nobody knows.

        A rinse of today where no line is in force, a limit of an alkaline wash, or what a usable
        clean-water test is compared with.
        """
        row, line = self.row, self.row.line
        rinse = row.line_n == 0 and None in {line.rinse_L, line.first_L}
        limits = self.event == ALKALINE and None in {line.floor_pH, line.ceiling_pH}
        return rinse or limits or (self.tested is not None and self.tested.pct is None)

    def has_no_alkaline(self) -> bool:
        """Return whether no alkaline wash came since the last run, or since the log's top."""
        last = self.find_above(RUN, ALKALINE)
        return last is None or last.event == RUN
