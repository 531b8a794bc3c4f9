"""Water inside the machine, part by part, and whether its dimensions can be true.

A function that names no source is geometry or a sum (definition).
"""

import math

from scipy.optimize import brentq

from builder.reference.comparison import Verdict, round_compared

MM3_PER_L = 1e6
MM_PER_M = 1000.0
MM2_PER_M2 = 1e6
WHOLE_PCT = 100.0
WOUND_RATIO_MIN_N = 0.8  # least plausible wound diameter over the stated one (no source)


def cylinder_L(diameter_mm: float, length_mm: float) -> float:
    """Return the volume of a cylinder, pi/4 d^2 l."""
    return math.pi / 4.0 * diameter_mm**2 * length_mm / MM3_PER_L


def elements_n(vessels_n: float, elements_per_vessel_n: float) -> float:
    """Return the elements in the machine, N = vessels times elements in each."""
    return vessels_n * elements_per_vessel_n


def vessels_water_L(vessels_n: float, vessel_bore_mm: float, vessel_length_mm: float) -> float:
    """Return the water in the empty vessels, vessels times pi/4 bore^2 length."""
    return vessels_n * cylinder_L(vessel_bore_mm, vessel_length_mm)


def elements_envelope_L(
    elements_n: float, element_diameter_mm: float, element_length_mm: float
) -> float:
    """Return the volume of the elements taken as solid, N pi/4 diameter^2 length."""
    return elements_n * cylinder_L(element_diameter_mm, element_length_mm)


def annulus_L(vessels_water_L: float, elements_envelope_L: float) -> float:
    """Return the vessel water outside the elements; negative where dimensions are wrong."""
    return vessels_water_L - elements_envelope_L


def feed_channel_L(
    elements_n: float,
    element_area_m2: float,
    feed_spacer_mm: float,
    feed_spacer_porosity_frac: float,
) -> float:
    """Return the water in the feed spacers.

    N area/2 thickness porosity: a channel has membrane on both sides; 1 m2 times 1 mm is 1 L.
    """
    return elements_n * element_area_m2 / 2.0 * feed_spacer_mm * feed_spacer_porosity_frac


def permeate_channel_L(
    elements_n: float,
    element_area_m2: float,
    permeate_carrier_mm: float,
    permeate_carrier_porosity_frac: float,
) -> float:
    """Return the water in the permeate carriers, N area/2 thickness porosity."""
    return elements_n * element_area_m2 / 2.0 * permeate_carrier_mm * permeate_carrier_porosity_frac


def core_tubes_L(elements_n: float, core_tube_inner_mm: float, element_length_mm: float) -> float:
    """Return the water in the core tubes, N pi/4 bore^2 length."""
    return elements_n * cylinder_L(core_tube_inner_mm, element_length_mm)


def ends_L(vessels_n: float, vessel_ends_L: float) -> float:
    """Return the water in all vessel ends, vessels times the ends of one."""
    return vessels_n * vessel_ends_L


def pipe_L(pipe_bore_mm: float, pipe_length_m: float) -> float:
    """Return the water in one run of pipe, pi/4 bore^2 length."""
    return cylinder_L(pipe_bore_mm, pipe_length_m * MM_PER_M)


def pipes_L(
    pipe_1_L: float,
    pipe_2_L: float,
    pipe_3_L: float,
    pipe_4_L: float,
    pipe_5_L: float,
    pipe_6_L: float,
    pipe_7_L: float,
    pipe_8_L: float,
) -> float:
    """Return the water in all eight runs of pipe, their sum."""
    return pipe_1_L + pipe_2_L + pipe_3_L + pipe_4_L + pipe_5_L + pipe_6_L + pipe_7_L + pipe_8_L


def membrane_side_L(
    annulus_L: float,
    feed_channel_L: float,
    permeate_channel_L: float,
    core_tubes_L: float,
    ends_L: float,
) -> float:
    """Return the water in the vessels, elements and ends, the sum of the five parts."""
    return annulus_L + feed_channel_L + permeate_channel_L + core_tubes_L + ends_L


def elsewhere_L(filter_housings_L: float, pumps_L: float, other_holdup_L: float) -> float:
    """Return the water held elsewhere in the circuit, the sum of the three parts."""
    return filter_housings_L + pumps_L + other_holdup_L


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
    """Return the hold-up of the machine by its dimensions, the sum of the nine parts."""
    elements = annulus_L + feed_channel_L + permeate_channel_L + core_tubes_L
    return elements + ends_L + pipes_L + filter_housings_L + pumps_L + other_holdup_L


def holdup_adopted_L(holdup_geometry_L: float) -> float:
    """Return the hold-up that everything downstream uses: the geometry, unless it is negative."""
    if holdup_geometry_L < 0.0:
        raise ValueError(f"a hold-up of {holdup_geometry_L} L cannot be")
    return holdup_geometry_L


def holdup_per_element_L(holdup_adopted_L: float, elements_n: float) -> float:
    """Return the hold-up for each element, hold-up / N."""
    return holdup_adopted_L / elements_n


def part_share_pct(part_L: float, whole_L: float) -> float:
    """Return a part as a share of the whole, 100 part / whole; none of a whole not above 0."""
    if whole_L <= 0.0:
        raise ValueError(f"a hold-up of {whole_L} L has no shares")
    return WHOLE_PCT * part_L / whole_L


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
