"""Rinse after a wash: volume, time, fills and ideal dilution."""

import math

from builder.reference.ranges import require_all, require_choice
from builder.reference.rinse_dilution import rinse_ideal_decades_n, rinse_volumes_n
from builder.reference.rinse_first import (
    first_rinse_fills_n,
    first_rinse_hourly_L,
    first_rinse_owed_L,
    first_rinse_time_min,
)

__all__ = [
    "first_rinse_fills_n",
    "first_rinse_hourly_L",
    "first_rinse_owed_L",
    "first_rinse_time_min",
    "rinse_by_elements_L",
    "rinse_by_holdup_L",
    "rinse_fills_n",
    "rinse_ideal_decades_n",
    "rinse_owed_L",
    "rinse_time_min",
    "rinse_volumes_n",
]


RINSE_RULES = ("holdup", "elements", "larger")  # definition of this project
WHOLE = 1e-9  # a quotient this near to a whole number counts as it (common practice, no source)


def rinse_by_holdup_L(rinse_factor_n: float, holdup_adopted_L: float) -> float:
    """Return the rinse by hold-up.

    Factor times adopted hold-up.

    Parameters
    ----------
    rinse_factor_n : float
        Hold-up volumes of rinse water [n], 0 to 1e+06.
    holdup_adopted_L : float
        Hold-up that everything downstream uses [L], 0 to 1e+09.

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
    Common practice, no source; definition of this project.
    """
    require_all(rinse_factor_n=rinse_factor_n, holdup_adopted_L=holdup_adopted_L)
    return rinse_factor_n * holdup_adopted_L


def rinse_by_elements_L(
    rinse_first_element_L: float, rinse_further_element_L: float, elements_n: float
) -> float:
    """Return the rinse by elements.

    First + (N - 1) further.

    Parameters
    ----------
    rinse_first_element_L : float
        Rinse water for the first element [L], 0 to 1e+06.
    rinse_further_element_L : float
        Rinse water for each further element [L], 0 to 1e+06.
    elements_n : float
        Elements in the machine [n], 1 to 100000.

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
    Common practice, no source; definition of this project.
    """
    require_all(
        rinse_first_element_L=rinse_first_element_L,
        rinse_further_element_L=rinse_further_element_L,
        elements_n=elements_n,
    )
    return rinse_first_element_L + (elements_n - 1.0) * rinse_further_element_L


def rinse_owed_L(rinse_rule: str, rinse_by_holdup_L: float, rinse_by_elements_L: float) -> float:
    """Return the rinse that the rule picks.

    By hold-up, by elements or the larger of both.

    Parameters
    ----------
    rinse_rule : str
        Rule that decides [choice], "holdup", "elements" or "larger".
    rinse_by_holdup_L : float
        Rinse water by hold-up [L], 0 to 1e+09.
    rinse_by_elements_L : float
        Rinse water by elements [L], 0 to 1e+09.

    Returns
    -------
    float
        Volume [L].

    Raises
    ------
    ValueError
        A value lies outside its range or is no allowed choice.

    References
    ----------
    Common practice, no source; definition of this project.
    """
    require_choice("rinse_rule", rinse_rule, RINSE_RULES)
    require_all(rinse_by_holdup_L=rinse_by_holdup_L, rinse_by_elements_L=rinse_by_elements_L)
    owed = {"holdup": rinse_by_holdup_L, "elements": rinse_by_elements_L}
    return float(max(owed.values()) if rinse_rule == "larger" else owed[rinse_rule])


def rinse_time_min(rinse_owed_L: float, rinse_flow_Lpmin: float) -> float:
    """Return how long the rinse takes.

    Volume / flow.

    Parameters
    ----------
    rinse_owed_L : float
        Rinse water owed [L], 0 to 1e+09.
    rinse_flow_Lpmin : float
        Flow of the rinse [Lpmin], 1e-09 to 1e+09.

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
    require_all(rinse_owed_L=rinse_owed_L, rinse_flow_Lpmin=rinse_flow_Lpmin)
    return rinse_owed_L / rinse_flow_Lpmin


def rinse_fills_n(rinse_owed_L: float, rinse_tank_L: float) -> float:
    """Return the tank fills of the rinse.

    Volume / tank, rounded up; within 1e-9 of a whole number counts as that number.

    Parameters
    ----------
    rinse_owed_L : float
        Rinse water owed [L], 0 to 1e+09.
    rinse_tank_L : float
        Water in one tank fill [L], 1e-09 to 1e+09.

    Returns
    -------
    float
        Fills [n].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Definition of this project.
    """
    require_all(rinse_owed_L=rinse_owed_L, rinse_tank_L=rinse_tank_L)
    quotient = rinse_owed_L / rinse_tank_L
    near = math.floor(quotient + 0.5)
    return float(near if abs(quotient - near) <= WHOLE else math.ceil(quotient))
