"""Uncertainty of the hold-up caused by all vessels and by all elements."""

import math

from builder.reference.ranges import require_all


def vessels_u_L(
    vessel_bore_part_u_L: float, vessel_length_part_u_L: float, ends_part_u_L: float
) -> float:
    """Return the standard uncertainty caused by the vessels.

    Root of the sum of squares of the three parts.

    Parameters
    ----------
    vessel_bore_part_u_L : float
        Part caused by the vessel bore [L], 0 to 1e+09.
    vessel_length_part_u_L : float
        Part caused by the vessel length [L], 0 to 1e+09.
    ends_part_u_L : float
        Part caused by the vessel ends [L], 0 to 1e+09.

    Returns
    -------
    float
        Standard uncertainty [L].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    JCGM 100:2008, law of propagation (from memory).
    """
    parts = dict(locals())  # the three arguments by name
    require_all(**parts)
    return math.hypot(*parts.values())


def elements_u_L(
    element_diameter_part_u_L: float,
    element_length_part_u_L: float,
    element_area_part_u_L: float,
    feed_spacer_part_u_L: float,
    feed_porosity_part_u_L: float,
    permeate_carrier_part_u_L: float,
    permeate_porosity_part_u_L: float,
    core_tube_part_u_L: float,
) -> float:
    """Return the standard uncertainty caused by the elements.

    Root of the sum of squares of the eight parts.

    Parameters
    ----------
    element_diameter_part_u_L : float
        Part caused by the element diameter [L], 0 to 1e+09.
    element_length_part_u_L : float
        Part caused by the element length [L], 0 to 1e+09.
    element_area_part_u_L : float
        Part caused by the element area [L], 0 to 1e+09.
    feed_spacer_part_u_L : float
        Part caused by the feed spacer [L], 0 to 1e+09.
    feed_porosity_part_u_L : float
        Part caused by the feed porosity [L], 0 to 1e+09.
    permeate_carrier_part_u_L : float
        Part caused by the permeate carrier [L], 0 to 1e+09.
    permeate_porosity_part_u_L : float
        Part caused by the permeate porosity [L], 0 to 1e+09.
    core_tube_part_u_L : float
        Part caused by the core tube bore [L], 0 to 1e+09.

    Returns
    -------
    float
        Standard uncertainty [L].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    JCGM 100:2008, law of propagation (from memory).
    """
    parts = dict(locals())  # the eight arguments by name
    require_all(**parts)
    return math.hypot(*parts.values())


def leaves_u_L(
    element_area_part_u_L: float,
    feed_spacer_part_u_L: float,
    feed_porosity_part_u_L: float,
    permeate_carrier_part_u_L: float,
    permeate_porosity_part_u_L: float,
) -> float:
    """Return the standard uncertainty caused by the leaves of the elements.

    Root of the sum of squares of the five parts, as the standard deviation of a sum of
    independent effects of one standard deviation each.

    Parameters
    ----------
    element_area_part_u_L : float
        Part caused by the element area [L], 0 to 1e+09.
    feed_spacer_part_u_L : float
        Part caused by the feed spacer [L], 0 to 1e+09.
    feed_porosity_part_u_L : float
        Part caused by the feed porosity [L], 0 to 1e+09.
    permeate_carrier_part_u_L : float
        Part caused by the permeate carrier [L], 0 to 1e+09.
    permeate_porosity_part_u_L : float
        Part caused by the permeate porosity [L], 0 to 1e+09.

    Returns
    -------
    float
        Standard uncertainty [L].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    JCGM 100:2008, law of propagation (from memory).
    """
    parts = dict(locals())  # the five arguments by name
    require_all(**parts)
    return math.hypot(*parts.values())
