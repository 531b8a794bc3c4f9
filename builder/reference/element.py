"""Whether the dimensions of vessel, element and tube can be true together.

A function that names no source is geometry (definition).
"""

import math

from scipy.optimize import brentq

from builder.reference.comparison import Verdict, round_compared
from builder.reference.holdup import MM2_PER_M2

WOUND_RATIO_MIN_N = 0.8  # least plausible wound diameter over the stated one (no source)


def leaf_section_mm2(
    element_area_m2: float,
    element_length_mm: float,
    feed_spacer_mm: float,
    permeate_carrier_mm: float,
    membrane_thickness_mm: float,
) -> float:
    """Return the cross-section of the wound leaves of one element.

    area/2 / length (feed spacer + permeate carrier + 2 membrane sheets).
    """
    turn_mm = feed_spacer_mm + permeate_carrier_mm + 2.0 * membrane_thickness_mm
    return element_area_m2 / 2.0 * MM2_PER_M2 / element_length_mm * turn_mm


def wound_diameter_mm(
    core_tube_outer_mm: float,
    element_area_m2: float,
    element_length_mm: float,
    feed_spacer_mm: float,
    permeate_carrier_mm: float,
    membrane_thickness_mm: float,
) -> float:
    """Return the outside diameter that area and thicknesses imply.

    2 r, where the ring between core tube and r is as large as the section of the leaves (root).
    """
    section_mm2 = leaf_section_mm2(
        element_area_m2,
        element_length_mm,
        feed_spacer_mm,
        permeate_carrier_mm,
        membrane_thickness_mm,
    )
    tube_mm = core_tube_outer_mm / 2.0

    def surplus_mm2(radius_mm: float) -> float:
        return math.pi * (radius_mm - tube_mm) * (radius_mm + tube_mm) - section_mm2

    return 2.0 * float(brentq(surplus_mm2, tube_mm, tube_mm + math.sqrt(section_mm2), xtol=1e-13))


def wound_ratio_n(wound_diameter_mm: float, element_diameter_mm: float) -> float:
    """Return the implied diameter over the stated one."""
    return wound_diameter_mm / element_diameter_mm


def annulus_ok(
    element_diameter_mm: float,
    vessel_bore_mm: float,
    elements_per_vessel_n: float,
    element_length_mm: float,
    vessel_length_mm: float,
) -> Verdict:
    """Return whether the elements fit: diameter < bore, and their row <= vessel length."""
    narrower = round_compared(element_diameter_mm) < round_compared(vessel_bore_mm)
    row_mm = round_compared(elements_per_vessel_n * element_length_mm)
    return "ok" if narrower and row_mm <= round_compared(vessel_length_mm) else "stop"


def core_ok(
    core_tube_inner_mm: float, core_tube_outer_mm: float, element_diameter_mm: float
) -> Verdict:
    """Return whether the core tube can be: inner < outer < element diameter."""
    outer_mm = round_compared(core_tube_outer_mm)
    inside = round_compared(core_tube_inner_mm) < outer_mm < round_compared(element_diameter_mm)
    return "ok" if inside else "stop"


def wound_ok(wound_ratio_n: float) -> Verdict:
    """Return whether the spiral nearly fills its element: 0.8 <= ratio <= 1."""
    return "ok" if WOUND_RATIO_MIN_N <= wound_ratio_n <= 1.0 else "look"
