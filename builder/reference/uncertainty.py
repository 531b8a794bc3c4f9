"""Uncertainty of the hold-up by geometry, and its parts."""

import math

from builder.reference.ranges import require, require_all
from builder.reference.uncertainty_channels import (
    element_area_part_u_L,
    feed_porosity_part_u_L,
    feed_spacer_part_u_L,
    permeate_carrier_part_u_L,
    permeate_porosity_part_u_L,
)
from builder.reference.uncertainty_lengths import (
    core_tube_part_u_L,
    element_diameter_part_u_L,
    element_length_part_u_L,
    vessel_bore_part_u_L,
    vessel_length_part_u_L,
)
from builder.reference.uncertainty_piping import (
    elsewhere_part_u_L,
    ends_part_u_L,
    pipe_bore_part_u_L,
    pipe_length_part_u_L,
)

__all__ = [
    "core_tube_part_u_L",
    "element_area_part_u_L",
    "element_diameter_part_u_L",
    "element_length_part_u_L",
    "elsewhere_part_u_L",
    "ends_part_u_L",
    "feed_porosity_part_u_L",
    "feed_spacer_part_u_L",
    "holdup_geometry_u_L",
    "holdup_geometry_u_pct",
    "permeate_carrier_part_u_L",
    "permeate_porosity_part_u_L",
    "pipe_bore_part_u_L",
    "pipe_length_part_u_L",
    "vessel_bore_part_u_L",
    "vessel_length_part_u_L",
]

SMALLEST = 1e-9  # least divisor taken as not zero (common practice, no source)
LARGEST = 1e9  # upper end of the same ranges (common practice, no source)


def holdup_geometry_u_L(
    vessel_bore_part_u_L: float,
    vessel_length_part_u_L: float,
    element_diameter_part_u_L: float,
    element_length_part_u_L: float,
    element_area_part_u_L: float,
    feed_spacer_part_u_L: float,
    feed_porosity_part_u_L: float,
    permeate_carrier_part_u_L: float,
    permeate_porosity_part_u_L: float,
    core_tube_part_u_L: float,
    ends_part_u_L: float,
    pipe_bore_part_u_L: float,
    pipe_length_part_u_L: float,
    elsewhere_part_u_L: float,
) -> float:
    """Return the standard uncertainty of the hold-up by geometry.

    Root of the sum of squares of the 14 parts.

    Parameters
    ----------
    vessel_bore_part_u_L : float
        Part caused by the vessel bore [L], 0 to 1e+09.
    vessel_length_part_u_L : float
        Part caused by the vessel length [L], 0 to 1e+09.
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
    ends_part_u_L : float
        Part caused by the vessel ends [L], 0 to 1e+09.
    pipe_bore_part_u_L : float
        Part caused by the pipe bore [L], 0 to 1e+09.
    pipe_length_part_u_L : float
        Part caused by the pipe length [L], 0 to 1e+09.
    elsewhere_part_u_L : float
        Part caused by the volumes elsewhere [L], 0 to 1e+09.

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
    JCGM 100:2008, law of propagation (from memory); shared inputs add before squaring (definition).
    """
    parts = dict(locals())  # the 14 arguments by name
    require_all(**parts)
    return math.hypot(*parts.values())


def holdup_geometry_u_pct(holdup_geometry_u_L: float, holdup_geometry_L: float) -> float:
    """Return the relative standard uncertainty of the hold-up by geometry.

    100 u / V.

    Parameters
    ----------
    holdup_geometry_u_L : float
        Standard uncertainty of the hold-up by geometry [L], 0 to 1e+09.
    holdup_geometry_L : float
        Hold-up by geometry [L], 1e-09 to 1e+09.

    Returns
    -------
    float
        Relative standard uncertainty [pct].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    JCGM 100:2008, law of propagation (from memory); shared inputs add before squaring (definition).
    """
    require_all(holdup_geometry_u_L=holdup_geometry_u_L)
    require("holdup_geometry_L", holdup_geometry_L, "L", SMALLEST, LARGEST)
    return 100.0 * holdup_geometry_u_L / holdup_geometry_L
