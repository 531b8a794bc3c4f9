"""Sums and steps between the main quantities: volumes here, the others from beside."""

import math

from builder.reference.parts_uncertainty import elements_u_L, leaves_u_L, vessels_u_L
from builder.reference.parts_wash import (
    end_reading_degC,
    guess_ionic_molpL,
    last_step_pH,
    wash_ionic_molpL,
)
from builder.reference.ranges import require_all

__all__ = [
    "elements_u_L",
    "elsewhere_L",
    "end_reading_degC",
    "guess_ionic_molpL",
    "last_step_pH",
    "leaf_section_mm2",
    "leaves_u_L",
    "membrane_side_L",
    "vessels_u_L",
    "wash_ionic_molpL",
]

MM2_PER_M2 = 1e6  # square millimetres in a square metre (definition)
FACES_PER_CHANNEL = 2.0  # membrane on both sides of each channel (definition)


def membrane_side_L(
    annulus_L: float,
    feed_channel_L: float,
    permeate_channel_L: float,
    core_tubes_L: float,
    ends_L: float,
) -> float:
    """Return the water in the vessels, elements and ends.

    Sum of the five parts.

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
    Definition of this project: parts of holdup_geometry_L.
    """
    require_all(
        annulus_L=annulus_L,
        feed_channel_L=feed_channel_L,
        permeate_channel_L=permeate_channel_L,
        core_tubes_L=core_tubes_L,
        ends_L=ends_L,
    )
    return math.fsum((annulus_L, feed_channel_L, permeate_channel_L, core_tubes_L, ends_L))


def elsewhere_L(filter_housings_L: float, pumps_L: float, other_holdup_L: float) -> float:
    """Return the water held elsewhere in the circuit.

    Sum of the three parts.

    Parameters
    ----------
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
    Definition of this project: parts of holdup_geometry_L.
    """
    require_all(filter_housings_L=filter_housings_L, pumps_L=pumps_L, other_holdup_L=other_holdup_L)
    return math.fsum((filter_housings_L, pumps_L, other_holdup_L))


def leaf_section_mm2(
    element_area_m2: float,
    element_length_mm: float,
    feed_spacer_mm: float,
    permeate_carrier_mm: float,
    membrane_thickness_mm: float,
) -> float:
    """Return the cross-section of the wound leaves of one element.

    Volume of all membrane sheets and of the two channels between them, over the length.

    Parameters
    ----------
    element_area_m2 : float
        Active membrane area of one element, both faces of each leaf [m2], 0.001 to 1000.
    element_length_mm : float
        Length of an element [mm], 1 to 100000.
    feed_spacer_mm : float
        Thickness of the feed spacer [mm], 0.001 to 50.
    permeate_carrier_mm : float
        Thickness of the permeate carrier [mm], 0.001 to 50.
    membrane_thickness_mm : float
        Thickness of one membrane sheet [mm], 0 to 50.

    Returns
    -------
    float
        Area [mm2].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Geometry (definition).
    """
    require_all(
        element_area_m2=element_area_m2,
        element_length_mm=element_length_mm,
        feed_spacer_mm=feed_spacer_mm,
        permeate_carrier_mm=permeate_carrier_mm,
        membrane_thickness_mm=membrane_thickness_mm,
    )
    sheets_mm2 = element_area_m2 * MM2_PER_M2
    membrane_mm3 = sheets_mm2 * membrane_thickness_mm
    feed_mm3 = sheets_mm2 / FACES_PER_CHANNEL * feed_spacer_mm
    permeate_mm3 = sheets_mm2 / FACES_PER_CHANNEL * permeate_carrier_mm
    return (membrane_mm3 + feed_mm3 + permeate_mm3) / element_length_mm
