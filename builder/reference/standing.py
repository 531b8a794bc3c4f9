"""What the season log compares readings with today: floor and ceiling as pH at 25 degC.

All are definitions of this project.
"""

from builder.reference.comparison import round_compared
from builder.reference.shape import BASE_DEGC, CEILING_PH, FLOOR_PH, STEPS_DEGC, shift_pH


def ceiling_reads_degC(limit_means: str, wash_temp_degC: float) -> float:
    """Return the temperature at which the limit of the element is meant.

    25, the wash temperature, or min(25, t) where it is unknown: a colder wash shows a higher pH.
    """
    meant = {
        "at_25": BASE_DEGC,
        "at_wash": wash_temp_degC,
        "unknown": min(BASE_DEGC, wash_temp_degC),
    }
    if limit_means not in meant:
        raise ValueError(f"a limit is not meant {limit_means!r}")
    return meant[limit_means]


def floor_shift_pH(wash_temp_degC: float) -> float:
    """Return the shift of the floor's shape at the wash temperature: s(t) - s(25)."""
    return _find_shift(wash_temp_degC, FLOOR_PH)


def ceiling_shift_pH(ceiling_reads_degC: float) -> float:
    """Return the shift of the ceiling's shape where the ceiling is meant: s(t) - s(25)."""
    return _find_shift(ceiling_reads_degC, CEILING_PH)


def floor_for_log_pH(
    wash_temp_degC: float,
    floor_pH: float,
    floor_at_25_pH: float | None = None,
    floor_shift_pH: float | None = None,
) -> float:
    """Return the floor at 25 degC: itself, else by the strip of this wash, else floor - shift."""
    return _bring(wash_temp_degC, floor_pH, floor_at_25_pH, floor_shift_pH)


def ceiling_for_log_pH(
    ceiling_reads_degC: float,
    ceiling_pH: float,
    ceiling_at_25_pH: float | None = None,
    ceiling_shift_pH: float | None = None,
) -> float:
    """Return the ceiling at 25 degC: itself, else by its strip, else ceiling - shift."""
    return _bring(ceiling_reads_degC, ceiling_pH, ceiling_at_25_pH, ceiling_shift_pH)


def _find_shift(temp_degC: float, table_pH: tuple[float, ...]) -> float:
    if not STEPS_DEGC[0] <= round_compared(temp_degC) <= STEPS_DEGC[-1]:
        raise ValueError(f"the shape does not reach {temp_degC} degC")
    return shift_pH(temp_degC, table_pH)


def _bring(temp_degC: float, pH: float, at_25_pH: float | None, shift: float | None) -> float:
    if round_compared(temp_degC) == BASE_DEGC:
        return pH
    if at_25_pH is not None:
        return at_25_pH
    if shift is None:
        raise ValueError(f"nothing brings a pH at {temp_degC} degC to {BASE_DEGC:g} degC")
    return pH - shift


def floor_by_shape_pH(floor_pH: float, floor_shift_pH: float) -> float:
    """Return the floor at 25 degC by the constant shape: floor less its shift (definition)."""
    return floor_pH - floor_shift_pH


def ceiling_by_shape_pH(ceiling_pH: float, ceiling_shift_pH: float) -> float:
    """Return the ceiling at 25 degC by the constant shape: ceiling less shift (definition)."""
    return ceiling_pH - ceiling_shift_pH


def floor_brought_pH(
    floor_at_25_pH: float | None = None, floor_by_shape_pH: float | None = None
) -> float:
    """Return the floor at 25 degC by the strip of this wash, else by the shape (definition)."""
    found = floor_by_shape_pH if floor_at_25_pH is None else floor_at_25_pH
    if found is None:
        raise ValueError("neither strip nor shape brings it to 25 degC")
    return found


def ceiling_brought_pH(
    ceiling_at_25_pH: float | None = None, ceiling_by_shape_pH: float | None = None
) -> float:
    """Return the ceiling at 25 degC by the strip of this wash, else by the shape (definition)."""
    found = ceiling_by_shape_pH if ceiling_at_25_pH is None else ceiling_at_25_pH
    if found is None:
        raise ValueError("neither strip nor shape brings it to 25 degC")
    return found
