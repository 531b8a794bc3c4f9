"""Sugar in the permeate along the log: readings, and whether one is still open.

All are definitions of this project but the correction, which is that of the refractometer's scale.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from builder.reference.comparison import TINY
from builder.reference.entry import Row
from builder.reference.permeate import sugar_brix, sugar_correction_brix
from builder.reference.rinsing import REPLACEMENT

CLEAR, TRACE, ALARM = 0.0, 1.0, 2.0
WAIT_H = 3.0  # a trace may take 2 to 3 h to go (common practice, no source)
PLAIN = "plain"


@dataclass(frozen=True, slots=True)
class Gauge:
    """The refractometer: its kind, reading in clean water, step, and the alarm."""

    instrument: str | None
    zero_brix: float
    step_brix: float
    alarm_brix: float


@dataclass(frozen=True, slots=True)
class Reading:
    """The sugar of one row and its class; `was_open` before it, `stays` for a trace that stays."""

    brix: float | None
    class_n: float | None
    was_open: bool
    stays: bool


def read_sugar(row: Row, gauge: Gauge) -> tuple[float | None, float | None]:
    """Return sugar and class of a row.

    A plain instrument without a temperature has no sugar; its uncorrected reading is judged
    against the alarm only, and below the alarm it is none.
    """
    reading, temp_degC = row.number("permeate_brix"), row.number("water_degC")
    if reading is None:
        return None, None
    if gauge.instrument == PLAIN and temp_degC is None:
        brix = sugar_brix(reading, gauge.zero_brix, 0.0)
        return None, ALARM if brix >= gauge.alarm_brix - TINY else None
    plain = gauge.instrument == PLAIN
    correction = sugar_correction_brix(PLAIN, reading, temp_degC) if plain else 0.0
    brix = sugar_brix(reading, gauge.zero_brix, correction)
    return brix, class_sugar(brix, gauge.step_brix, gauge.alarm_brix)


def class_sugar(brix: float, step_brix: float, alarm_brix: float) -> float:
    """Return 2 from the alarm up, 1 from the instrument's step up, else 0."""
    if brix >= alarm_brix - TINY:
        return ALARM
    return TRACE if brix >= step_brix - TINY else CLEAR


def walk_sugar(rows: Sequence[Row], gauge: Gauge) -> list[Reading]:
    """Return the readings of all rows.

    The first trace or alarm opens, a clear reading closes; a replacement closes before the
    reading of its own row is taken. A trace while open stays, except on the day of opening with
    some hours since, but fewer than 3.
    """
    readings: list[Reading] = []
    opened_d: float | None = None
    since_h = 0.0
    for row in rows:
        if row.event == REPLACEMENT:
            opened_d = None
        since_h += row.number("hours_h") or 0.0
        brix, class_n = read_sugar(row, gauge)
        early = row.day_d == opened_d and 0.0 < since_h < WAIT_H - TINY
        stays = class_n == TRACE and opened_d is not None and not early
        readings.append(Reading(brix, class_n, opened_d is not None, stays))
        if class_n == CLEAR:
            opened_d = None
        elif class_n is not None and opened_d is None:
            opened_d, since_h = row.day_d, 0.0
    return readings
