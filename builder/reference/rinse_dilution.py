"""Rinse in hold-up volumes and its ideal dilution."""

import math

from builder.reference.ranges import require, require_all

SMALLEST = 1e-9  # least divisor taken as not zero (common practice, no source)
LARGEST = 1e9  # upper end of the same ranges (common practice, no source)


def rinse_volumes_n(rinse_owed_L: float, holdup_adopted_L: float) -> float:
    """Return the rinse in hold-up volumes.

    Volume / adopted hold-up.

    Parameters
    ----------
    rinse_owed_L : float
        Rinse water owed [L], 0 to 1e+09.
    holdup_adopted_L : float
        Hold-up that everything downstream uses [L], 1e-09 to 1e+09.

    Returns
    -------
    float
        Hold-up volumes [n].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Definition of this project.
    """
    require_all(rinse_owed_L=rinse_owed_L)
    require("holdup_adopted_L", holdup_adopted_L, "L", SMALLEST, LARGEST)
    return rinse_owed_L / holdup_adopted_L


def rinse_ideal_decades_n(rinse_volumes_n: float) -> float:
    """Return the powers of ten by which one ideally mixed volume is diluted.

    -log10(exp(-n)) = n log10(e).

    Parameters
    ----------
    rinse_volumes_n : float
        Rinse water in hold-up volumes [n], 0 to 1e+12.

    Returns
    -------
    float
        Powers of ten [n].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Levenspiel (from memory).
    """
    require_all(rinse_volumes_n=rinse_volumes_n)
    return rinse_volumes_n * math.log10(math.e)
