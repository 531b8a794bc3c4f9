"""The strip of pH between floor and ceiling, at any temperature, and the margins of a wash.

The shape is constant data; line and today's values give floor and ceiling at 25 degC.
"""

from dataclasses import dataclass

import numpy as np

from builder.reference.entry import Row
from builder.reference.rinsing import ALKALINE

BASE_DEGC = 25.0  # temperature at which floor and ceiling are given (definition)
DOUBT_PH = 0.1  # of a reading (this project's judgement)
STEPS_DEGC = tuple(range(5, 65, 5))
# pH of one solution at those temperatures (this project's own calculation)
FLOOR_PH = (12.12, 11.93, 11.75, 11.59, 11.44, 11.30, 11.17, 11.05, 10.94, 10.84, 10.74, 10.65)
CEILING_PH = (13.15, 12.94, 12.75, 12.57, 12.40, 12.24, 12.09, 11.95, 11.82, 11.69, 11.57, 11.46)


def shift_pH(temp_degC: float, table_pH: tuple[float, ...]) -> float:
    """Return what a temperature adds to a pH at 25 degC: straight lines between the steps."""
    at, base = np.interp([temp_degC, BASE_DEGC], STEPS_DEGC, table_pH)
    return float(at - base)


@dataclass(frozen=True, slots=True)
class Margins:
    """Of an alkaline wash: ceiling less start, end less floor, start less floor, rise to its end.

    Start by the ceiling's table, against the floor by the floor's; None where it cannot be told.
    """

    top_pH: float | None
    low_pH: float | None
    begin_pH: float | None
    rise_pH: float | None


def read_margins(row: Row) -> Margins:
    """Return the margins of a row; all None but for an alkaline wash."""
    if row.event != ALKALINE:
        return Margins(None, None, None, None)
    start = _bring(row, "begin", CEILING_PH)
    end = _bring(row, "finish", FLOOR_PH)
    return Margins(
        _subtract(row.line.ceiling_pH, start),
        _subtract(end, row.line.floor_pH),
        _subtract(_bring(row, "begin", FLOOR_PH), row.line.floor_pH),
        _subtract(end, start),
    )


def _bring(row: Row, when: str, table_pH: tuple[float, ...]) -> float | None:
    """Return a reading at 25 degC; it counts only with its temperature."""
    reading, temp = row.number(f"{when}_pH"), row.number(f"{when}_degC")
    return None if reading is None or temp is None else reading - shift_pH(temp, table_pH)


def _subtract(first: float | None, second: float | None) -> float | None:
    return None if first is None or second is None else first - second
