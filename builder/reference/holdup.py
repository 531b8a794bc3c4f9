"""Water inside the machine, part by part.

A function that names no source is geometry or a sum (definition).
"""

import math

from builder.reference.comparison import Verdict, round_compared

MM3_PER_L = 1e6
MM_PER_M = 1000.0
MM2_PER_M2 = 1e6
WHOLE_PCT = 100.0
# liquid for each element in its vessel and its uncertainty, caps and pipes not counted: draws over
# ranges of dimensions, partly from memory; 4.5 and 17.0 L for 4 and 8 inch in a manual (read)
SIZE_SMALL_L, SIZE_SMALL_U_L = 1.8, 0.14  # 2.5 x 40 inch
SIZE_MEDIUM_L, SIZE_MEDIUM_U_L = 4.6, 0.36  # 4 x 40 inch
SIZE_LARGE_L, SIZE_LARGE_U_L = 18.7, 1.3  # 8 x 40 inch
SIZE_GAP_MOST_N = 2.5  # standard uncertainties between size and dimensions (no source)
SIZES = {
    "2.5x40": (SIZE_SMALL_L, SIZE_SMALL_U_L),
    "4x40": (SIZE_MEDIUM_L, SIZE_MEDIUM_U_L),
    "8x40": (SIZE_LARGE_L, SIZE_LARGE_U_L),
    "other": (0.0, 0.0),
}
KNOWN, DIMENSIONS, SIZE = 1.0, 2.0, 3.0  # ways to the hold-up
WAYS = {KNOWN: "known", DIMENSIONS: "dimensions", SIZE: "size"}


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


def full_pipe_L(pipe_bore_mm: float, pipe_length_m: float) -> float:
    """Return the water in a full pipe, pi/4 bore^2 length."""
    return cylinder_L(pipe_bore_mm, pipe_length_m * MM_PER_M)


def pipe_L(pipe_bore_mm: float | None = None, pipe_length_m: float | None = None) -> float:
    """Return the water in one run of pipe; a run without length has none.

    A run that has a length needs a bore; without it nobody knows.
    """
    if not pipe_length_m:
        return 0.0
    if pipe_bore_mm is None:
        raise ValueError(f"a pipe of {pipe_length_m} m without a bore holds nobody knows how much")
    return full_pipe_L(pipe_bore_mm, pipe_length_m)


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


def element_part_L(
    annulus_L: float, feed_channel_L: float, permeate_channel_L: float, core_tubes_L: float
) -> float:
    """Return the water that the dimensions give for elements in their vessels, four parts."""
    return annulus_L + feed_channel_L + permeate_channel_L + core_tubes_L


def element_extra_L(element_part_L: float, element_extra_pct: float) -> float:
    """Return the water in glued margins, end pieces and slack, a share of the element part."""
    return element_part_L * element_extra_pct / WHOLE_PCT


def membrane_side_L(
    annulus_L: float,
    feed_channel_L: float,
    permeate_channel_L: float,
    core_tubes_L: float,
    element_extra_L: float,
    ends_L: float,
) -> float:
    """Return the water in the vessels, elements and ends, the sum of the six parts."""
    part = element_part_L(annulus_L, feed_channel_L, permeate_channel_L, core_tubes_L)
    return part + element_extra_L + ends_L


def elsewhere_L(filter_housings_L: float, pumps_L: float, other_holdup_L: float) -> float:
    """Return the water held elsewhere in the circuit, the sum of the three parts."""
    return filter_housings_L + pumps_L + other_holdup_L


def holdup_geometry_L(
    annulus_L: float,
    feed_channel_L: float,
    permeate_channel_L: float,
    core_tubes_L: float,
    element_extra_L: float,
    ends_L: float,
    pipes_L: float,
    filter_housings_L: float,
    pumps_L: float,
    other_holdup_L: float,
) -> float:
    """Return the hold-up of the machine by its dimensions, the sum of the ten parts."""
    part = element_part_L(annulus_L, feed_channel_L, permeate_channel_L, core_tubes_L)
    elsewhere = elsewhere_L(filter_housings_L, pumps_L, other_holdup_L)
    return part + element_extra_L + ends_L + pipes_L + elsewhere


def typical_element_L(element_size: str) -> float:
    """Return the water of one element of a usual size in its vessel, 0 for another."""
    return SIZES[element_size][0]


def typical_element_u_L(element_size: str) -> float:
    """Return the uncertainty of the water of one element of a usual size, 0 for another."""
    return SIZES[element_size][1]


def require_size(typical_element_L: float) -> None:
    """Refuse elements of no usual size."""
    if typical_element_L <= 0.0:
        raise ValueError("elements of no usual size hold nobody knows how much")


def holdup_size_L(
    elements_n: float, typical_element_L: float, pipes_L: float, ends_L: float, elsewhere_L: float
) -> float:
    """Return the hold-up of the machine by the size of its elements; there must be one."""
    require_size(typical_element_L)
    return elements_n * typical_element_L + pipes_L + ends_L + elsewhere_L


def holdup_size_u_L(
    elements_n: float,
    typical_element_L: float,
    typical_element_u_L: float,
    ends_part_u_L: float,
    pipe_bore_part_u_L: float,
    pipe_length_part_u_L: float,
    elsewhere_part_u_L: float,
) -> float:
    """Return the uncertainty of the hold-up by size, the root of the sum of squares.

    Elements share their doubt: N u of one.
    """
    require_size(typical_element_L)
    elements_L = elements_n * typical_element_u_L
    pipes_u_L = pipe_bore_part_u_L, pipe_length_part_u_L
    return math.hypot(elements_L, ends_part_u_L, *pipes_u_L, elsewhere_part_u_L)


def holdup_from_n(
    known_holdup_L: float | None = None, holdup_geometry_L: float | None = None
) -> float:
    """Return the way to the hold-up: 1 known, else 2 by dimensions, else 3 by size."""
    if known_holdup_L is not None:
        return KNOWN
    return SIZE if holdup_geometry_L is None else DIMENSIONS


def holdup_estimated_n(holdup_from: str) -> float:
    """Return 1 where the hold-up rests on the size of the element alone, else 0."""
    return 1.0 if holdup_from == WAYS[SIZE] else 0.0


def holdup_from(holdup_from_n: float, holdup_adopted_L: float) -> str:
    """Return the code of the way to the hold-up, where there is a hold-up."""
    return WAYS[holdup_from_n]


def holdup_adopted_L(
    holdup_from_n: float,
    known_holdup_L: float | None = None,
    holdup_geometry_L: float | None = None,
    holdup_size_L: float | None = None,
) -> float:
    """Return the hold-up that everything downstream uses, by its way, unless it is negative."""
    ways = {KNOWN: known_holdup_L, DIMENSIONS: holdup_geometry_L, SIZE: holdup_size_L}
    holdup_L = ways[holdup_from_n]
    if holdup_L is None or holdup_L < 0.0:
        raise ValueError(f"a hold-up of {holdup_L} L cannot be")
    return holdup_L


def holdup_adopted_u_L(
    holdup_from_n: float,
    known_holdup_u_L: float | None = None,
    holdup_geometry_u_L: float | None = None,
    holdup_size_u_L: float | None = None,
) -> float:
    """Return the uncertainty of the hold-up, by its way; what is known and not doubted has none."""
    if holdup_from_n == KNOWN:
        return known_holdup_u_L or 0.0
    u_L = holdup_geometry_u_L if holdup_from_n == DIMENSIONS else holdup_size_u_L
    if u_L is None:
        raise ValueError("nothing tells the uncertainty of the hold-up")
    return u_L


def vessel_spare_L(
    vessels_n: float,
    vessel_bore_mm: float,
    vessel_length_mm: float,
    elements_per_vessel_n: float,
    element_length_mm: float,
) -> float:
    """Return the water in the vessels beyond the length of their elements."""
    spare_mm = vessel_length_mm - elements_per_vessel_n * element_length_mm
    return vessels_n * cylinder_L(vessel_bore_mm, spare_mm)


def size_gap_L(
    holdup_geometry_L: float, vessel_spare_L: float, element_extra_pct: float, holdup_size_L: float
) -> float:
    """Return how much more the dimensions give than the size, without the vessels' spare length.

    geometry - spare (1 + extra/100) - size.
    """
    spare_L = vessel_spare_L * (1.0 + element_extra_pct / WHOLE_PCT)
    return holdup_geometry_L - spare_L - holdup_size_L


def size_gap_u_L(
    elements_n: float,
    typical_element_L: float,
    typical_element_u_L: float,
    vessel_bore_part_u_L: float,
    elements_u_L: float,
) -> float:
    """Return the uncertainty of that difference: what is common to both has dropped out."""
    require_size(typical_element_L)
    return math.hypot(elements_n * typical_element_u_L, vessel_bore_part_u_L, elements_u_L)


def size_ok(size_gap_L: float, size_gap_u_L: float) -> Verdict:
    """Return whether size and dimensions agree within 2.5 standard uncertainties."""
    most_L = round_compared(SIZE_GAP_MOST_N * size_gap_u_L)
    return "ok" if round_compared(abs(size_gap_L)) <= most_L else "look"


def holdup_per_element_L(holdup_adopted_L: float, elements_n: float) -> float:
    """Return the hold-up for each element, hold-up / N."""
    return holdup_adopted_L / elements_n


def part_share_pct(part_L: float, whole_L: float) -> float:
    """Return a part as a share of the whole, 100 part / whole; none of a whole not above 0."""
    if whole_L <= 0.0:
        raise ValueError(f"a hold-up of {whole_L} L has no shares")
    return WHOLE_PCT * part_L / whole_L
