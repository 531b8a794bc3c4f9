"""The values in force: lines with a day each, and today's values where no line is.

All are definitions of this project. Line 0 stands for today's values.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from builder.reference.comparison import TINY, Verdict
from builder.reference.units import Raw, Units, choose_units

VOLUME_SHARE = 0.005  # a rinse this far from the line's differs (this project's judgement)
PH_STEP = 0.05  # and a limit of pH (this project's judgement)
HELD = ("held_day_d", "held_rinse_L", "held_first_L", "held_floor_pH", "held_ceiling_pH")
KINDS = ("date", "volume", "volume", "pH", "pH")
# limits of what a line may hold, in canonical units, inclusive (this project's judgement)
LIMITS = {
    "date": (40000.0, 80000.0),
    "volume": (0.0, 100_000.0),
    "pH": (0.0, 14.0),
    "factor": (0.0, 1000.0),
}

Column = Sequence[float | None]
Typed = Sequence[Raw]


@dataclass(frozen=True, slots=True)
class Line:
    """One line in force, or today's values; without a day it is not in force."""

    day_d: float | None
    rinse_L: float | None
    first_L: float | None
    floor_pH: float | None
    ceiling_pH: float | None
    units: Units


def held(
    force_line_date_list: Typed,
    force_line_rinse_L_list: Typed,
    force_line_first_L_list: Typed,
    force_line_floor_pH_list: Typed,
    force_line_ceiling_pH_list: Typed,
    force_line_volume_list: Typed,
    reader_units: str | None = None,
    rinse_owed_L: float | None = None,
    first_rinse_owed_L: float | None = None,
    floor_pH: float | None = None,
    ceiling_pH: float | None = None,
) -> dict[str, list[float | None]]:
    """Return today's values in the first row and the lines in force below, blank where not sound.

    A line is sound if its day, both rinses, floor and ceiling are numbers within their limits and
    its day is later than that of the line above; lines are in force down to the first that is not.
    """
    numbers = zip(
        force_line_date_list,
        force_line_rinse_L_list,
        force_line_first_L_list,
        force_line_floor_pH_list,
        force_line_ceiling_pH_list,
        strict=True,
    )
    table = [[None, rinse_owed_L, first_rinse_owed_L, floor_pH, ceiling_pH]]
    sound = True
    for line, word in zip(numbers, force_line_volume_list, strict=True):
        units = choose_units(reader_units, (word, None, None, None))
        found = [_read(cell, kind, units) for cell, kind in zip(line, KINDS, strict=True)]
        above = table[-1][0]
        sound = sound and None not in found and (above is None or (found[0] or 0.0) > above)
        table.append(found if sound else [None] * len(HELD))
    columns = zip(*table, strict=True)
    return {name: list(column) for name, column in zip(HELD, columns, strict=True)}


def _read(cell: Raw, kind: str, units: Units) -> float | None:
    """Return a number in its canonical unit; a text or a number out of its limits is not there."""
    if cell is None or isinstance(cell, str):
        return None
    value, (low, high) = units.convert(float(cell), kind), LIMITS[kind]
    return value if low - TINY <= value <= high + TINY else None


def find_line(day_d: float, days: Column) -> int:
    """Return the last line in force whose day is not later; 0, today's values, without one."""
    return max(
        (n for n, day in enumerate(days) if day is not None and day <= day_d + TINY), default=0
    )


def line_bad_n(
    force_line_date_list: Typed,
    force_line_rinse_L_list: Typed,
    force_line_first_L_list: Typed,
    force_line_holdup_L_list: Typed,
    force_line_factor_n_list: Typed,
    force_line_floor_pH_list: Typed,
    force_line_ceiling_pH_list: Typed,
    force_line_volume_list: Typed,
    force_line_pressure_list: Typed,
    force_line_temperature_list: Typed,
    force_line_mass_list: Typed,
    held_day_d_list: Column,
) -> float:
    """Return the first line that holds something and is not in force, 0 without one."""
    lines = zip(
        force_line_date_list,
        force_line_rinse_L_list,
        force_line_first_L_list,
        force_line_holdup_L_list,
        force_line_factor_n_list,
        force_line_floor_pH_list,
        force_line_ceiling_pH_list,
        force_line_volume_list,
        force_line_pressure_list,
        force_line_temperature_list,
        force_line_mass_list,
        strict=True,
    )
    for n, (cells, day) in enumerate(zip(lines, held_day_d_list[1:], strict=True), start=1):
        if day is None and any(cell not in {None, ""} for cell in cells):
            return float(n)
    return 0.0


def line_differs_n(
    held_day_d_list: Column,
    held_rinse_L_list: Column,
    held_first_L_list: Column,
    held_floor_pH_list: Column,
    held_ceiling_pH_list: Column,
) -> float:
    """Return the flag of today's values that have left the newest line in force.

    A rinse by more than 0.5 % of the line's, or a limit by more than 0.05 pH; a value of today
    that is blank is not compared, and without a line in force nothing is.
    """
    newest = max(n for n, day in enumerate(held_day_d_list) if day is not None or n == 0)
    for column in (held_rinse_L_list, held_first_L_list, held_floor_pH_list, held_ceiling_pH_list):
        today, line = column[0], column[newest]
        volume = column is held_rinse_L_list or column is held_first_L_list
        if today is None or line is None:
            continue
        if abs(today - line) > (VOLUME_SHARE * line if volume else PH_STEP) + TINY:
            return 1.0
    return 0.0


def line_under_n(
    force_line_rinse_L_list: Typed,
    force_line_holdup_L_list: Typed,
    force_line_factor_n_list: Typed,
    force_line_volume_list: Typed,
    reader_units: str | None = None,
) -> float:
    """Return the first line whose rinse is over 0.5 % below its hold-up x factor, 0 without one.

    Any line that holds the three numbers within their limits, in force or not.
    """
    lines = zip(
        force_line_rinse_L_list,
        force_line_holdup_L_list,
        force_line_factor_n_list,
        force_line_volume_list,
        strict=True,
    )
    kinds = ("volume", "volume", "factor")
    for n, (*line, word) in enumerate(lines, start=1):
        units = choose_units(reader_units, (word, None, None, None))
        rinse, holdup, factor = (_read(c, k, units) for c, k in zip(line, kinds, strict=True))
        if rinse is None or holdup is None or factor is None:
            continue
        if rinse < holdup * factor * (1.0 - VOLUME_SHARE) - TINY:
            return float(n)
    return 0.0


def line_sound_ok(line_bad_n: float) -> Verdict:
    """Return look where a line that holds something is not in force, else ok."""
    return "look" if line_bad_n else "ok"


def line_today_ok(line_differs_n: float) -> Verdict:
    """Return look where today's values have left the newest line in force, else ok."""
    return "look" if line_differs_n else "ok"


def line_rule_ok(line_under_n: float) -> Verdict:
    """Return look where a line's rinse is below its hold-up x factor, else ok."""
    return "look" if line_under_n else "ok"
