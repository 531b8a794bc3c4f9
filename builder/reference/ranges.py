"""Refusal of values outside their valid range, shared by all reference modules."""

import math
from collections.abc import Sequence
from numbers import Real

from builder.reference.limits import LIMITS
from builder.reference.limits_log import LOG_LIMITS

RANGES = {**LOG_LIMITS, **LIMITS}


def unit_of(name: str) -> str:
    """Return the unit that a quantity's name carries as its suffix.

    The part after the last underscore; a name without one is its own unit (pH).

    Parameters
    ----------
    name : str
        Quantity name [text].

    Returns
    -------
    str
        Unit [text].

    References
    ----------
    Naming rule of this package (common practice, no source).
    """
    return name.rsplit("_", 1)[-1]


def require(name: str, value: object, unit: str, low: float, high: float) -> None:
    """Refuse a value that is no number or lies outside its range.

    low <= value <= high, value a real number, neither NaN nor true/false.

    Parameters
    ----------
    name : str
        Quantity name [text].
    value : object
        Value to test [unit].
    unit : str
        Unit for the message [text].
    low : float
        Smallest valid value [unit].
    high : float
        Largest valid value [unit].

    Raises
    ------
    ValueError
        The value is refused; the message gives name, value, unit and range.

    References
    ----------
    Rule of this package (common practice, no source).
    """
    number = isinstance(value, Real) and not isinstance(value, bool)
    if number and math.isfinite(float(value)) and low <= float(value) <= high:  # type: ignore[arg-type]
        return
    raise ValueError(f"{name} = {value} {unit} lies outside {low:g} to {high:g} {unit}")


def require_all(**values: object) -> None:
    """Refuse any of several values by the common table of ranges.

    Each keyword is a quantity name of ``limits.LIMITS``.

    Parameters
    ----------
    **values : object
        Values by quantity name [unit of the name].

    Raises
    ------
    ValueError
        One value is refused.

    References
    ----------
    Rule of this package (common practice, no source).
    """
    for name, value in values.items():
        low, high = RANGES[name]
        require(name, value, unit_of(name), low, high)


def require_given(**values: object) -> None:
    """Refuse one of several optional values by the common table of ranges.

    A value that is None is not given and passes.

    Parameters
    ----------
    **values : object
        Values by quantity name [unit of the name].

    Raises
    ------
    ValueError
        One value is refused.

    References
    ----------
    Rule of this package (common practice, no source).
    """
    require_all(**{name: value for name, value in values.items() if value is not None})


def require_columns(**columns: Sequence[float | None]) -> None:
    """Refuse one value of several columns of the log by the common table of ranges.

    The column log_day_d_list holds values of day_d; None is a blank and passes.

    Parameters
    ----------
    **columns : sequence of float or None
        Columns by name, log_..._list or trend_..._list [unit of the name].

    Raises
    ------
    ValueError
        One value is refused.

    References
    ----------
    Rule of this package (common practice, no source).
    """
    for name, column in columns.items():
        quantity = name.split("_", 1)[1].removesuffix("_list")
        low, high = RANGES[quantity]
        for row, value in enumerate(column, start=1):
            if value is not None:
                require(f"{name}, row {row}", value, unit_of(quantity), low, high)


def require_choice(name: str, value: object, choices: tuple[str, ...]) -> None:
    """Refuse a text that is not one of the allowed choices.

    value in choices.

    Parameters
    ----------
    name : str
        Quantity name [text].
    value : object
        Value to test [choice].
    choices : tuple of str
        Allowed texts [choice].

    Raises
    ------
    ValueError
        The value is not among the choices.

    References
    ----------
    Rule of this package (common practice, no source).
    """
    if not isinstance(value, str) or value not in choices:
        raise ValueError(f"{name} = {value} is none of {', '.join(choices)}")
