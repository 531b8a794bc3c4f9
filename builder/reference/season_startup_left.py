"""What start-up still lacks: soak, wetting and first rinse, and the margin of the latch."""

from builder.reference.ranges import require_all
from builder.reference.season_log_rinse import short_L


def soak_left_min(shaft_soak_least_min: float, shaft_soak_min: float) -> float:
    """Return how much longer a stuck shaft has to soak.

    Least less soak, never below 0.

    Parameters
    ----------
    shaft_soak_least_min : float
        Shortest soak [min], 0 to 10000.
    shaft_soak_min : float
        Time the shaft soaked in warm water [min], 0 to 10000.

    Returns
    -------
    float
        Time [min].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Definition of this project.
    """
    require_all(shaft_soak_least_min=shaft_soak_least_min, shaft_soak_min=shaft_soak_min)
    return float(shaft_soak_least_min - min(shaft_soak_min, shaft_soak_least_min))


def latch_margin_bar(latch_reached_bar: float, latch_pressure_bar: float) -> float:
    """Return how far the feed pressure went beyond its latch.

    Reached less latch, negative where it fell short.

    Parameters
    ----------
    latch_reached_bar : float
        Feed pressure reached [bar], 0 to 200.
    latch_pressure_bar : float
        Feed pressure at which the pump stays latched [bar], 0 to 200.

    Returns
    -------
    float
        Margin [bar].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Definition of this project.
    """
    require_all(latch_reached_bar=latch_reached_bar, latch_pressure_bar=latch_pressure_bar)
    return float(latch_reached_bar - latch_pressure_bar)


def wetting_left_min(wetting_least_min: float, wetting_run_min: float) -> float:
    """Return how much longer the wetting run has to last.

    Least less run, never below 0.

    Parameters
    ----------
    wetting_least_min : float
        Shortest wetting run [min], 0 to 10000.
    wetting_run_min : float
        Wetting run in closed loop [min], 0 to 10000.

    Returns
    -------
    float
        Time [min].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Definition of this project.
    """
    require_all(wetting_least_min=wetting_least_min, wetting_run_min=wetting_run_min)
    return float(wetting_least_min - min(wetting_run_min, wetting_least_min))


def first_rinse_left_L(first_rinse_owed_L: float, first_rinse_done_L: float) -> float:
    """Return how much of the first rinse is still to run.

    Owed less done, 0 unless that is more than 1e-9 of what is owed.

    Parameters
    ----------
    first_rinse_owed_L : float
        First rinse owed [L], 0 to 1e+09.
    first_rinse_done_L : float
        First rinse as run [L], 0 to 1e+09.

    Returns
    -------
    float
        Volume [L].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Definition of this project.
    """
    require_all(first_rinse_owed_L=first_rinse_owed_L, first_rinse_done_L=first_rinse_done_L)
    return short_L(first_rinse_owed_L, first_rinse_done_L)
