"""Start-up after storage: soak of the shaft, latch, wetting run and first rinse."""

from builder.reference.ranges import require_all
from builder.reference.season_startup_left import (
    first_rinse_left_L,
    latch_margin_bar,
    soak_left_min,
    wetting_left_min,
)
from builder.reference.verdicts_entries import Verdict, _compared

__all__ = [
    "EYEWASH_MIN",
    "first_rinse_left_L",
    "first_rinse_ok",
    "latch_margin_bar",
    "latch_ok",
    "soak_left_min",
    "soak_ok",
    "wetting_left_min",
    "wetting_ok",
]

# least rinsing of splashed eyes or skin, ANSI Z358.1 (second hand: two summaries of the standard)
EYEWASH_MIN = 15.0


def _within(value: float, low: float, high: float) -> Verdict:
    return "ok" if _compared(low) <= _compared(value) <= _compared(high) else "look"


def soak_ok(
    shaft_soak_min: float, shaft_soak_least_min: float, shaft_soak_most_min: float
) -> Verdict:
    """Return whether a stuck shaft soaked long enough, and not for too long.

    Least <= soak <= most, at 15 digits.

    Parameters
    ----------
    shaft_soak_min : float
        Time the shaft soaked in warm water [min], 0 to 10000.
    shaft_soak_least_min : float
        Shortest soak [min], 0 to 10000.
    shaft_soak_most_min : float
        Longest soak [min], 0 to 10000.

    Returns
    -------
    str
        Verdict, ok or look [ok].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Common practice, no source.
    """
    require_all(
        shaft_soak_min=shaft_soak_min,
        shaft_soak_least_min=shaft_soak_least_min,
        shaft_soak_most_min=shaft_soak_most_min,
    )
    return _within(shaft_soak_min, shaft_soak_least_min, shaft_soak_most_min)


def latch_ok(
    latch_reached_bar: float,
    latch_pressure_bar: float,
    latch_time_s: float,
    latch_time_most_s: float,
) -> Verdict:
    """Return whether the feed pressure reached its latch in time.

    Reached >= latch, and time <= most, at 15 digits.

    Parameters
    ----------
    latch_reached_bar : float
        Feed pressure reached [bar], 0 to 200.
    latch_pressure_bar : float
        Feed pressure at which the pump stays latched [bar], 0 to 200.
    latch_time_s : float
        Time to that pressure [s], 0 to 100000.
    latch_time_most_s : float
        Longest time to the latch [s], 0 to 100000.

    Returns
    -------
    str
        Verdict, ok or stop [ok].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Common practice, no source.
    """
    require_all(
        latch_reached_bar=latch_reached_bar,
        latch_pressure_bar=latch_pressure_bar,
        latch_time_s=latch_time_s,
        latch_time_most_s=latch_time_most_s,
    )
    reached = _compared(latch_reached_bar) >= _compared(latch_pressure_bar)
    in_time = _compared(latch_time_s) <= _compared(latch_time_most_s)
    return "ok" if reached and in_time else "stop"


def wetting_ok(
    wetting_run_min: float, wetting_least_min: float, wetting_most_min: float
) -> Verdict:
    """Return whether the wetting run was neither too short nor too long.

    Least <= run <= most, at 15 digits.

    Parameters
    ----------
    wetting_run_min : float
        Wetting run in closed loop [min], 0 to 10000.
    wetting_least_min : float
        Shortest wetting run [min], 0 to 10000.
    wetting_most_min : float
        Longest wetting run [min], 0 to 10000.

    Returns
    -------
    str
        Verdict, ok or look [ok].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Common practice, no source.
    """
    require_all(
        wetting_run_min=wetting_run_min,
        wetting_least_min=wetting_least_min,
        wetting_most_min=wetting_most_min,
    )
    return _within(wetting_run_min, wetting_least_min, wetting_most_min)


def first_rinse_ok(first_rinse_done_L: float, first_rinse_owed_L: float) -> Verdict:
    """Return whether the first rinse was as large as owed.

    At most 1e-9 of what is owed is missing.

    Parameters
    ----------
    first_rinse_done_L : float
        First rinse as run [L], 0 to 1e+09.
    first_rinse_owed_L : float
        First rinse owed [L], 0 to 1e+09.

    Returns
    -------
    str
        Verdict, ok or stop [ok].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Common practice, no source.
    """
    require_all(first_rinse_done_L=first_rinse_done_L, first_rinse_owed_L=first_rinse_owed_L)
    return "stop" if first_rinse_left_L(first_rinse_owed_L, first_rinse_done_L) else "ok"
