"""Verdicts on what was worked out from volumes: spiral, tank, solution and rinse."""

from builder.reference.ranges import require, require_all
from builder.reference.verdicts_entries import Verdict

# least plausible wound diameter over the stated one (definition of this project, no source)
WOUND_RATIO_MIN_N = 0.8
# hold-up volumes that thin one ideally mixed volume to 4.5e-5 (exp(-10), definition)
RINSE_VOLUMES_LEAST_N = 10.0
LARGEST = 1e9  # upper end of the ranges (common practice, no source)


def wound_ok(wound_ratio_n: float) -> Verdict:
    """Return whether area and thicknesses give the stated diameter.

    0.8 <= ratio <= 1.

    Parameters
    ----------
    wound_ratio_n : float
        Diameter that the spiral implies over the stated one [n], 0 to 1e+09.

    Returns
    -------
    str
        Verdict, ok or look [ok].

    Raises
    ------
    ValueError
        The value lies outside its range.

    References
    ----------
    Definition of this project: plausibility.
    """
    require("wound_ratio_n", wound_ratio_n, "n", 0.0, LARGEST)
    return "ok" if WOUND_RATIO_MIN_N <= wound_ratio_n <= 1.0 else "look"


def tank_ok(tank_short_L: float) -> Verdict:
    """Return whether the wash fits into its tank.

    Nothing is short.

    Parameters
    ----------
    tank_short_L : float
        Volume that does not fit into the tank [L], 0 to 1e+09.

    Returns
    -------
    str
        Verdict, ok or stop [ok].

    Raises
    ------
    ValueError
        The value lies outside its range.

    References
    ----------
    Volume balance (definition).
    """
    require("tank_short_L", tank_short_L, "L", 0.0, LARGEST)
    return "stop" if tank_short_L > 0.0 else "ok"


def solution_ok(wash_solution_L: float, holdup_adopted_L: float) -> Verdict:
    """Return whether the recipe's volume is more than the machine itself holds.

    Solution > hold-up.

    Parameters
    ----------
    wash_solution_L : float
        Wash solution that the recipe means [L], 0 to 1e+09.
    holdup_adopted_L : float
        Hold-up that everything downstream uses [L], 0 to 1e+09.

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
    Definition of this project: dose where the machine alone holds more.
    """
    require_all(wash_solution_L=wash_solution_L, holdup_adopted_L=holdup_adopted_L)
    return "ok" if wash_solution_L > holdup_adopted_L else "look"


def rinse_ok(rinse_volumes_n: float) -> Verdict:
    """Return whether the rinse would do for an ideally mixed machine.

    Hold-up volumes >= 10.

    Parameters
    ----------
    rinse_volumes_n : float
        Rinse owed over the hold-up [n], 0 to 1e+12.

    Returns
    -------
    str
        Verdict, ok or look [ok].

    Raises
    ------
    ValueError
        The value lies outside its range.

    References
    ----------
    Levenspiel, washout of one mixed volume exp(-n) (from memory).
    """
    require_all(rinse_volumes_n=rinse_volumes_n)
    return "ok" if rinse_volumes_n >= RINSE_VOLUMES_LEAST_N else "look"
