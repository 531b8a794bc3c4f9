"""Standard uncertainty of the hold-up by its dimensions, and the 15 parts that make it.

Each part is |dV/dx| u(x); an input shared by many pieces moves them together, so their changes
are added before squaring (JCGM 100:2008, law of propagation, from memory).
"""

import math
from collections.abc import Callable

from builder.reference.holdup import core_tubes_L, elements_envelope_L, vessels_water_L

WHOLE_PCT = 100.0


def find_slope(volume: Callable[[float], float], at: float) -> float:
    """Return dV/dx by difference, (V(x+1) - V(x-1)) / 2: exact where V goes with x^2."""
    return (volume(at + 1.0) - volume(at - 1.0)) / 2.0


def with_extra_L(part_L: float, element_extra_pct: float) -> float:
    """Return a part with what the extra, a share of the element part, adds to it."""
    return part_L * (1.0 + element_extra_pct / WHOLE_PCT)


def vessel_bore_part_u_L(
    vessels_n: float,
    vessel_bore_mm: float,
    vessel_length_mm: float,
    vessel_bore_u_mm: float,
    element_extra_pct: float,
) -> float:
    """Return the part of the vessel bore, from the slope of all vessels' water."""

    def water_L(bore_mm: float) -> float:
        return vessels_water_L(vessels_n, bore_mm, vessel_length_mm)

    return with_extra_L(find_slope(water_L, vessel_bore_mm) * vessel_bore_u_mm, element_extra_pct)


def vessel_length_part_u_L(
    vessels_n: float, vessel_bore_mm: float, vessel_length_u_mm: float, element_extra_pct: float
) -> float:
    """Return the part of the vessel length: the water in vessels as long as its uncertainty."""
    return with_extra_L(
        vessels_water_L(vessels_n, vessel_bore_mm, vessel_length_u_mm), element_extra_pct
    )


def element_diameter_part_u_L(
    elements_n: float,
    element_diameter_mm: float,
    element_length_mm: float,
    element_diameter_u_mm: float,
    element_extra_pct: float,
) -> float:
    """Return the part of the element diameter, from the slope of all envelopes."""

    def envelope_L(diameter_mm: float) -> float:
        return elements_envelope_L(elements_n, diameter_mm, element_length_mm)

    return with_extra_L(
        find_slope(envelope_L, element_diameter_mm) * element_diameter_u_mm, element_extra_pct
    )


def element_length_part_u_L(
    elements_n: float,
    element_diameter_mm: float,
    core_tube_inner_mm: float,
    element_length_u_mm: float,
    element_extra_pct: float,
) -> float:
    """Return the part of the element length: |envelope - core tube| of that length.

    A longer element takes water from the vessel and holds more in its tube.
    """
    envelope_L = elements_envelope_L(elements_n, element_diameter_mm, element_length_u_mm)
    return with_extra_L(
        abs(envelope_L - core_tubes_L(elements_n, core_tube_inner_mm, element_length_u_mm)),
        element_extra_pct,
    )


def core_tube_part_u_L(
    elements_n: float,
    core_tube_inner_mm: float,
    element_length_mm: float,
    core_tube_inner_u_mm: float,
    element_extra_pct: float,
) -> float:
    """Return the part of the core tube bore, from the slope of all tubes' water."""

    def water_L(bore_mm: float) -> float:
        return core_tubes_L(elements_n, bore_mm, element_length_mm)

    return with_extra_L(
        find_slope(water_L, core_tube_inner_mm) * core_tube_inner_u_mm, element_extra_pct
    )


def element_area_part_u_L(
    feed_channel_L: float,
    permeate_channel_L: float,
    element_area_u_pct: float,
    element_extra_pct: float,
) -> float:
    """Return the part of the membrane area, (feed + permeate channel) u/100."""
    return with_extra_L(
        (feed_channel_L + permeate_channel_L) * element_area_u_pct / WHOLE_PCT, element_extra_pct
    )


def feed_spacer_part_u_L(
    feed_channel_L: float, feed_spacer_u_pct: float, element_extra_pct: float
) -> float:
    """Return the part of the feed spacer's thickness, feed channel u/100."""
    return with_extra_L(feed_channel_L * feed_spacer_u_pct / WHOLE_PCT, element_extra_pct)


def feed_porosity_part_u_L(
    feed_channel_L: float,
    feed_spacer_porosity_frac: float,
    feed_spacer_porosity_u_frac: float,
    element_extra_pct: float,
) -> float:
    """Return the part of the feed spacer's porosity, feed channel u / porosity."""
    return with_extra_L(
        feed_channel_L / feed_spacer_porosity_frac * feed_spacer_porosity_u_frac, element_extra_pct
    )


def permeate_carrier_part_u_L(
    permeate_channel_L: float, permeate_carrier_u_pct: float, element_extra_pct: float
) -> float:
    """Return the part of the permeate carrier's thickness, permeate channel u/100."""
    return with_extra_L(permeate_channel_L * permeate_carrier_u_pct / WHOLE_PCT, element_extra_pct)


def permeate_porosity_part_u_L(
    permeate_channel_L: float,
    permeate_carrier_porosity_frac: float,
    permeate_carrier_porosity_u_frac: float,
    element_extra_pct: float,
) -> float:
    """Return the part of the permeate carrier's porosity, permeate channel u / porosity."""
    return with_extra_L(
        permeate_channel_L / permeate_carrier_porosity_frac * permeate_carrier_porosity_u_frac,
        element_extra_pct,
    )


def element_extra_part_u_L(element_part_L: float, element_extra_u_pct: float) -> float:
    """Return the part of the extra's share, element part u/100."""
    return element_part_L * element_extra_u_pct / WHOLE_PCT


def ends_part_u_L(vessels_n: float, vessel_ends_u_L: float) -> float:
    """Return the part of the vessel ends, vessels times u: the same error in each vessel."""
    return vessels_n * vessel_ends_u_L


def pipe_bore_part_u_L(pipes_L: float, pipe_bore_u_pct: float) -> float:
    """Return the part of the pipe bores, 2 pipes u/100: one relative error in all runs."""
    return 2.0 * pipes_L * pipe_bore_u_pct / WHOLE_PCT


def pipe_length_part_u_L(pipes_L: float, pipe_length_u_pct: float) -> float:
    """Return the part of the pipe lengths, pipes u/100: one relative error in all runs."""
    return pipes_L * pipe_length_u_pct / WHOLE_PCT


def elsewhere_part_u_L(
    filter_housings_L: float, pumps_L: float, other_holdup_L: float, elsewhere_u_pct: float
) -> float:
    """Return the part of the volumes elsewhere, their sum times u/100."""
    return (filter_housings_L + pumps_L + other_holdup_L) * elsewhere_u_pct / WHOLE_PCT


def vessels_u_L(
    vessel_bore_part_u_L: float, vessel_length_part_u_L: float, ends_part_u_L: float
) -> float:
    """Return the uncertainty from the vessels, the root of the sum of squares."""
    return math.hypot(vessel_bore_part_u_L, vessel_length_part_u_L, ends_part_u_L)


def leaves_u_L(
    element_area_part_u_L: float,
    feed_spacer_part_u_L: float,
    feed_porosity_part_u_L: float,
    permeate_carrier_part_u_L: float,
    permeate_porosity_part_u_L: float,
) -> float:
    """Return the uncertainty from the leaves of the elements, the root of the sum of squares."""
    return math.hypot(
        element_area_part_u_L,
        feed_spacer_part_u_L,
        feed_porosity_part_u_L,
        permeate_carrier_part_u_L,
        permeate_porosity_part_u_L,
    )


def elements_u_L(
    element_diameter_part_u_L: float,
    element_length_part_u_L: float,
    element_area_part_u_L: float,
    feed_spacer_part_u_L: float,
    feed_porosity_part_u_L: float,
    permeate_carrier_part_u_L: float,
    permeate_porosity_part_u_L: float,
    core_tube_part_u_L: float,
    element_extra_part_u_L: float,
) -> float:
    """Return the uncertainty from the elements, the root of the sum of squares."""
    return math.hypot(
        element_diameter_part_u_L,
        element_length_part_u_L,
        element_area_part_u_L,
        feed_spacer_part_u_L,
        feed_porosity_part_u_L,
        permeate_carrier_part_u_L,
        permeate_porosity_part_u_L,
        core_tube_part_u_L,
        element_extra_part_u_L,
    )


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
    element_extra_part_u_L: float,
    ends_part_u_L: float,
    pipe_bore_part_u_L: float,
    pipe_length_part_u_L: float,
    elsewhere_part_u_L: float,
) -> float:
    """Return the standard uncertainty of the hold-up, the root of the sum of 15 squares."""
    return math.hypot(
        vessel_bore_part_u_L,
        vessel_length_part_u_L,
        element_diameter_part_u_L,
        element_length_part_u_L,
        element_area_part_u_L,
        feed_spacer_part_u_L,
        feed_porosity_part_u_L,
        permeate_carrier_part_u_L,
        permeate_porosity_part_u_L,
        core_tube_part_u_L,
        element_extra_part_u_L,
        ends_part_u_L,
        pipe_bore_part_u_L,
        pipe_length_part_u_L,
        elsewhere_part_u_L,
    )


def holdup_geometry_u_pct(holdup_geometry_u_L: float, holdup_geometry_L: float) -> float:
    """Return the relative uncertainty of the hold-up, 100 u / V; none of a V not above 0."""
    if holdup_geometry_L <= 0.0:
        raise ValueError(f"a hold-up of {holdup_geometry_L} L has no relative uncertainty")
    return WHOLE_PCT * holdup_geometry_u_L / holdup_geometry_L
