"""Hold-up of the whole machine and its parts."""

import math

from builder.reference.channels import (
    feed_channel_L,
    permeate_channel_L,
    wound_diameter_mm,
    wound_ratio_n,
)
from builder.reference.geometry import (
    annulus_L,
    core_tubes_L,
    elements_envelope_L,
    elements_n,
    vessels_water_L,
)
from builder.reference.piping import ends_L, pipe_L, pipes_L
from builder.reference.ranges import require, require_all

__all__ = [
    "annulus_L",
    "core_tubes_L",
    "elements_envelope_L",
    "elements_n",
    "ends_L",
    "feed_channel_L",
    "holdup_adopted_L",
    "holdup_geometry_L",
    "holdup_per_element_L",
    "part_share_pct",
    "permeate_channel_L",
    "pipe_L",
    "pipes_L",
    "vessels_water_L",
    "wound_diameter_mm",
    "wound_ratio_n",
]

SMALLEST = 1e-9  # least divisor taken as not zero (common practice, no source)
LARGEST = 1e9  # upper end of the same ranges (common practice, no source)


def holdup_geometry_L(
    annulus_L: float,
    feed_channel_L: float,
    permeate_channel_L: float,
    core_tubes_L: float,
    ends_L: float,
    pipes_L: float,
    filter_housings_L: float,
    pumps_L: float,
    other_holdup_L: float,
) -> float:
    """Return the hold-up of the machine by geometry.

    Sum of the nine parts.

    Parameters
    ----------
    annulus_L : float
        Vessel water outside the elements [L], -1e+09 to 1e+09.
    feed_channel_L : float
        Water in the feed channels [L], 0 to 1e+09.
    permeate_channel_L : float
        Water in the permeate carriers [L], 0 to 1e+09.
    core_tubes_L : float
        Water in the core tubes [L], 0 to 1e+09.
    ends_L : float
        Water in all vessel ends [L], 0 to 1e+09.
    pipes_L : float
        Water in all pipes [L], 0 to 1e+09.
    filter_housings_L : float
        Water in the filter housings [L], 0 to 1e+09.
    pumps_L : float
        Water in the pumps [L], 0 to 1e+09.
    other_holdup_L : float
        Water elsewhere [L], 0 to 1e+09.

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
    require_all(
        annulus_L=annulus_L,
        feed_channel_L=feed_channel_L,
        permeate_channel_L=permeate_channel_L,
        core_tubes_L=core_tubes_L,
        ends_L=ends_L,
        pipes_L=pipes_L,
        filter_housings_L=filter_housings_L,
        pumps_L=pumps_L,
        other_holdup_L=other_holdup_L,
    )
    elements = (annulus_L, feed_channel_L, permeate_channel_L, core_tubes_L)
    return math.fsum((*elements, ends_L, pipes_L, filter_housings_L, pumps_L, other_holdup_L))


def holdup_adopted_L(holdup_geometry_L: float) -> float:
    """Return the hold-up that everything downstream uses.

    The geometry, as long as nothing is measured; a negative one is refused.

    Parameters
    ----------
    holdup_geometry_L : float
        Hold-up by geometry [L], 0 to 1e+09.

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
    require("holdup_geometry_L", holdup_geometry_L, "L", 0.0, LARGEST)
    return float(holdup_geometry_L)


def holdup_per_element_L(holdup_adopted_L: float, elements_n: float) -> float:
    """Return the hold-up for each element.

    Adopted hold-up / N.

    Parameters
    ----------
    holdup_adopted_L : float
        Hold-up that everything downstream uses [L], 0 to 1e+09.
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
    Common practice, no source.
    """
    require_all(holdup_adopted_L=holdup_adopted_L, elements_n=elements_n)
    return holdup_adopted_L / elements_n


def part_share_pct(part_L: float, whole_L: float) -> float:
    """Return a part as a share of the whole.

    100 part / whole.

    Parameters
    ----------
    part_L : float
        Part [L], -1e+09 to 1e+09.
    whole_L : float
        Whole [L], 1e-09 to 1e+09.

    Returns
    -------
    float
        Share [pct].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Definition.
    """
    require_all(part_L=part_L)
    require("whole_L", whole_L, "L", SMALLEST, LARGEST)
    return 100.0 * part_L / whole_L
