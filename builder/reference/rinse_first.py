"""First rinse of new or preserved elements."""

import math

from builder.reference.ranges import require_all, require_choice

RINSE_RULES = ("holdup", "elements", "larger")  # definition of this project
WHOLE = 1e-9  # a quotient this near to a whole number counts as it (common practice, no source)


def first_rinse_hourly_L(rated_flow_Lph: float, first_rinse_hours_h: float) -> float:
    """Return the volume that the rated flow delivers in the given hours.

    Flow times hours.

    Parameters
    ----------
    rated_flow_Lph : float
        Rated flow of the machine [Lph], 0 to 1e+08.
    first_rinse_hours_h : float
        Hours of rated flow [h], 0 to 10000.

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
    require_all(rated_flow_Lph=rated_flow_Lph, first_rinse_hours_h=first_rinse_hours_h)
    return rated_flow_Lph * first_rinse_hours_h


def first_rinse_owed_L(
    rinse_rule: str, first_rinse_hourly_L: float, rinse_by_elements_L: float
) -> float:
    """Return the first rinse that the rule picks.

    holdup: the hourly volume; elements: by elements; larger: the greater.

    Parameters
    ----------
    rinse_rule : str
        Rule that decides [choice], "holdup", "elements" or "larger".
    first_rinse_hourly_L : float
        Volume of the rated flow in the given hours [L], 0 to 1e+09.
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
    require_all(first_rinse_hourly_L=first_rinse_hourly_L, rinse_by_elements_L=rinse_by_elements_L)
    owed = {"holdup": first_rinse_hourly_L, "elements": rinse_by_elements_L}
    return float(max(owed.values()) if rinse_rule == "larger" else owed[rinse_rule])


def first_rinse_time_min(first_rinse_owed_L: float, rinse_flow_Lpmin: float) -> float:
    """Return how long the first rinse takes.

    Volume / flow.

    Parameters
    ----------
    first_rinse_owed_L : float
        First rinse water owed [L], 0 to 1e+09.
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
    require_all(first_rinse_owed_L=first_rinse_owed_L, rinse_flow_Lpmin=rinse_flow_Lpmin)
    return first_rinse_owed_L / rinse_flow_Lpmin


def first_rinse_fills_n(first_rinse_owed_L: float, rinse_tank_L: float) -> float:
    """Return the tank fills of the first rinse.

    Volume / tank, rounded up; within 1e-9 of a whole number counts as that number.

    Parameters
    ----------
    first_rinse_owed_L : float
        First rinse water owed [L], 0 to 1e+09.
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
    require_all(first_rinse_owed_L=first_rinse_owed_L, rinse_tank_L=rinse_tank_L)
    quotient = first_rinse_owed_L / rinse_tank_L
    near = math.floor(quotient + 0.5)
    return float(near if abs(quotient - near) <= WHOLE else math.ceil(quotient))
