"""Hold-up, its uncertainty and its checks against tables, the closed definition and libraries."""

import math
from typing import Any

import numpy as np
import pytest
from fluids.piping import nearest_pipe
from scipy.integrate import quad
from uncertainties import ufloat  # type: ignore[import-untyped]

from builder.reference import element as dimensions
from builder.reference import holdup, uncertainty

Number = Any  # float, array or a number with an uncertainty
MM_PER_IN = 25.4  # NIST SP 811, exact
PIPES = ((52.48, 3.0), (26.64, 12.0), (40.94, 1.5), (20.96, 6.0), (15.8, 2.0), (35.08, 0.7))
INPUTS = {
    "vessels_n": 2.0,
    "vessel_bore_mm": 203.0,
    "vessel_length_mm": 2200.0,
    "element_diameter_mm": 201.0,
    "element_length_mm": 1016.0,
    "core_tube_inner_mm": 26.0,
    "element_area_m2": 37.0,
    "feed_spacer_mm": 0.8636,
    "feed_spacer_porosity_frac": 0.89,
    "permeate_carrier_mm": 0.25,
    "permeate_carrier_porosity_frac": 0.5,
    "vessel_ends_L": 2.5,
    "element_extra_pct": 16.0,
}
SPREAD = {
    "vessel_bore_mm": 0.5,
    "vessel_length_mm": 5.0,
    "element_diameter_mm": 0.5,
    "element_length_mm": 2.0,
    "core_tube_inner_mm": 0.3,
    "element_area_m2": 37.0 * 0.03,
    "feed_spacer_mm": 0.8636 * 0.02,
    "feed_spacer_porosity_frac": 0.03,
    "permeate_carrier_mm": 0.25 * 0.1,
    "permeate_carrier_porosity_frac": 0.1,
    "vessel_ends_L": 0.5,
    "element_extra_pct": 6.0,
    "bore_scale": 0.02,
    "length_scale": 0.05,
    "elsewhere_scale": 0.2,
}


def closed_L(x: dict[str, Number]) -> Number:
    """Return the project's closed definition, typed out independently, in litres."""
    n = x["vessels_n"] * 2
    quarter = math.pi / 4
    vessels = x["vessels_n"] * quarter * x["vessel_bore_mm"] ** 2 * x["vessel_length_mm"] / 1e6
    envelope = n * quarter * x["element_diameter_mm"] ** 2 * x["element_length_mm"] / 1e6
    feed = n * x["element_area_m2"] / 2 * x["feed_spacer_mm"] * x["feed_spacer_porosity_frac"]
    carrier = x["permeate_carrier_mm"] * x["permeate_carrier_porosity_frac"]
    permeate = n * x["element_area_m2"] / 2 * carrier
    tubes = n * quarter * x["core_tube_inner_mm"] ** 2 * x["element_length_mm"] / 1e6
    runs = sum(quarter * bore**2 * metres / 1e3 for bore, metres in PIPES)
    pipes = runs * x["bore_scale"] ** 2 * x["length_scale"]
    elsewhere = (6.0 + 4.0 + 1.0) * x["elsewhere_scale"]
    ends = x["vessels_n"] * x["vessel_ends_L"]
    inside = vessels - envelope + feed + permeate + tubes
    return inside * (1 + x["element_extra_pct"] / 100) + ends + pipes + elsewhere


def parts_L() -> dict[str, float]:
    """Return the parts of the hold-up by the reference functions."""
    x = INPUTS
    n = holdup.elements_n(2.0, 2.0)
    vessels = holdup.vessels_water_L(2.0, x["vessel_bore_mm"], x["vessel_length_mm"])
    size = (x["element_diameter_mm"], x["element_length_mm"])
    feed = (x["feed_spacer_mm"], x["feed_spacer_porosity_frac"])
    carrier = (x["permeate_carrier_mm"], x["permeate_carrier_porosity_frac"])
    runs = [holdup.pipe_L(*pipe) for pipe in PIPES] + [0.0, 0.0]
    inside = {
        "annulus_L": holdup.annulus_L(vessels, holdup.elements_envelope_L(n, *size)),
        "feed_channel_L": holdup.feed_channel_L(n, x["element_area_m2"], *feed),
        "permeate_channel_L": holdup.permeate_channel_L(n, x["element_area_m2"], *carrier),
        "core_tubes_L": holdup.core_tubes_L(n, x["core_tube_inner_mm"], size[1]),
    }
    part = holdup.element_part_L(**inside)
    return {
        **inside,
        "element_extra_L": holdup.element_extra_L(part, x["element_extra_pct"]),
        "ends_L": holdup.ends_L(2.0, x["vessel_ends_L"]),
        "pipes_L": holdup.pipes_L(*runs),
        "filter_housings_L": 6.0,
        "pumps_L": 4.0,
        "other_holdup_L": 1.0,
    }


def uncertainty_parts_L() -> dict[str, float]:
    """Return the 15 parts of the uncertainty, by the input of ``SPREAD`` that causes them."""
    x, p, u = INPUTS, parts_L(), uncertainty
    bore, length = x["vessel_bore_mm"], x["vessel_length_mm"]
    across, along, tube = x["element_diameter_mm"], x["element_length_mm"], x["core_tube_inner_mm"]
    feed, permeate = p["feed_channel_L"], p["permeate_channel_L"]
    carrier_void, extra = x["permeate_carrier_porosity_frac"], x["element_extra_pct"]
    inside = list(p.values())[:4]
    return {
        "vessel_bore_mm": u.vessel_bore_part_u_L(2.0, bore, length, 0.5, extra),
        "vessel_length_mm": u.vessel_length_part_u_L(2.0, bore, 5.0, extra),
        "element_diameter_mm": u.element_diameter_part_u_L(4.0, across, along, 0.5, extra),
        "element_length_mm": u.element_length_part_u_L(4.0, across, tube, 2.0, extra),
        "element_area_m2": u.element_area_part_u_L(feed, permeate, 3.0, extra),
        "feed_spacer_mm": u.feed_spacer_part_u_L(feed, 2.0, extra),
        "feed_spacer_porosity_frac": u.feed_porosity_part_u_L(feed, 0.89, 0.03, extra),
        "permeate_carrier_mm": u.permeate_carrier_part_u_L(permeate, 10.0, extra),
        "permeate_carrier_porosity_frac": u.permeate_porosity_part_u_L(
            permeate, carrier_void, 0.1, extra
        ),
        "core_tube_inner_mm": u.core_tube_part_u_L(4.0, tube, along, 0.3, extra),
        "element_extra_pct": u.element_extra_part_u_L(holdup.element_part_L(*inside), 6.0),
        "vessel_ends_L": u.ends_part_u_L(2.0, 0.5),
        "bore_scale": u.pipe_bore_part_u_L(p["pipes_L"], 2.0),
        "length_scale": u.pipe_length_part_u_L(p["pipes_L"], 5.0),
        "elsewhere_scale": u.elsewhere_part_u_L(6.0, 4.0, 1.0, 20.0),
    }


def nominal() -> dict[str, float]:
    """Return all inputs of the closed definition, scales at one."""
    return {**INPUTS, "bore_scale": 1.0, "length_scale": 1.0, "elsewhere_scale": 1.0}


@pytest.mark.parametrize(
    ("size", "schedule", "bore_mm", "litres_per_metre"),
    [  # ASME B36.10M and ASTM D1785 bores and L/m, second hand through `fluids`
        (0.5, "40", 15.76, 0.1951),
        (0.75, "40", 20.96, 0.3450),
        (1, "40", 26.64, 0.5574),
        (1.25, "40", 35.08, 0.9665),
        (1.5, "40", 40.94, 1.3164),
        (2, "40", 52.48, 2.1631),
        (3, "40", 77.92, 4.7686),
        (4, "40", 102.26, 8.2130),
    ],
)
def test_pipe_volume_follows_the_bore_of_the_pipe_tables(
    size: Any, schedule: str, bore_mm: float, litres_per_metre: float
) -> None:
    library_mm = nearest_pipe(NPS=size, schedule=schedule)[1] * 1000
    assert library_mm == pytest.approx(bore_mm, abs=0.005)
    assert holdup.pipe_L(library_mm, 1.0) == pytest.approx(litres_per_metre, abs=6e-5)


@pytest.mark.parametrize("bore_mm", [None, 0.0, 52.48])
@pytest.mark.parametrize("length_m", [None, 0.0])
def test_a_run_of_pipe_without_length_holds_nothing_whatever_its_bore(
    bore_mm: float | None, length_m: float | None
) -> None:
    litres = holdup.pipe_L(bore_mm, length_m)
    assert litres == 0.0
    # 10 L in another run: a run that is not used adds no doubt, 2 x 10 x 2 % and 10 x 5 %
    pipes = holdup.pipes_L(10.0, *[litres] * 7)
    assert uncertainty.pipe_bore_part_u_L(pipes, 2.0) == pytest.approx(0.4)
    assert uncertainty.pipe_length_part_u_L(pipes, 5.0) == pytest.approx(0.5)


def test_a_run_of_pipe_with_a_length_needs_its_bore() -> None:
    with pytest.raises(ValueError, match=r"a pipe of 3\.0 m without a bore"):
        holdup.pipe_L(None, 3.0)
    assert holdup.pipe_L(0.0, 3.0) == 0.0


def test_eight_inch_element_agrees_with_the_published_volumes() -> None:
    # 8-inch element, dimensions read in a public repository:
    # 37 m2, 0.8636 mm: 13.6 L (.85), 14.2 (.89), 14.7 (.92)
    for void, litres in ((0.85, 13.6), (0.89, 14.2), (0.92, 14.7)):
        assert holdup.feed_channel_L(1.0, 37.0, 0.8636, void) == pytest.approx(litres, abs=0.05)
    # same row: 201 mm x 1016 mm envelope 32.2 L, tube of 29 mm at most 0.67 L
    assert holdup.elements_envelope_L(1.0, 201.0, 1016.0) == pytest.approx(32.2, abs=0.05)
    assert holdup.core_tubes_L(1.0, 29.0, 1016.0) == pytest.approx(0.67, abs=0.005)


def test_total_agrees_with_the_closed_definition() -> None:
    assert holdup.holdup_geometry_L(**parts_L()) == pytest.approx(closed_L(nominal()), rel=1e-13)


def test_shares_of_all_parts_add_up_to_one_hundred() -> None:
    parts = parts_L()
    whole = holdup.holdup_geometry_L(**parts)
    assert math.fsum(holdup.part_share_pct(p, whole) for p in parts.values()) == pytest.approx(100)


def test_wound_diameter_fits_the_length_of_an_archimedean_spiral() -> None:
    # within 0.3 mm of the numeric spiral length
    pitch = 0.8636 + 0.25 + 2 * 0.15
    inner, outer = 14.5, dimensions.wound_diameter_mm(29.0, 37.0, 1016.0, 0.8636, 0.25, 0.15) / 2
    slope = pitch / (2 * math.pi)
    turn = (outer - inner) / slope
    length, _ = quad(lambda a: math.hypot(inner + slope * a, slope), 0.0, turn, limit=200)
    leaf = 37.0 * 1e6 / 2 / 1016.0
    assert leaf == pytest.approx(length, abs=0.3 * math.pi * outer / pitch)  # 0.3 mm of diameter


def test_wound_diameter_agrees_with_its_closed_form() -> None:
    for tube, area, pitch in ((29.0, 37.0, 1.4), (0.0, 7.5, 1.3), (20.0, 0.001, 0.02)):
        closed = math.sqrt(tube**2 + 4 / math.pi * (area * 1e6 / 2 / 1016.0) * pitch)
        parts = (pitch * 0.6, pitch * 0.2, pitch * 0.1)
        value = dimensions.wound_diameter_mm(tube, area, 1016.0, *parts)
        assert value == pytest.approx(closed, rel=1e-12)
        ring = math.pi / 4 * (value - tube) * (value + tube)
        assert dimensions.leaf_section_mm2(area, 1016.0, *parts) == pytest.approx(ring, rel=1e-12)


def test_uncertainty_agrees_with_automatic_propagation_of_the_closed_definition() -> None:
    values = nominal()
    x: dict[str, Number] = {
        k: ufloat(v, SPREAD[k]) if k in SPREAD else v for k, v in values.items()
    }
    total = closed_L(x)
    by_tag = {id(var): abs(e) for var, e in total.error_components().items()}
    parts = uncertainty_parts_L()
    for name, part in parts.items():
        assert part == pytest.approx(by_tag[id(x[name])], rel=1e-11), name
    combined = uncertainty.holdup_geometry_u_L(*parts.values())
    assert combined == pytest.approx(total.std_dev, rel=1e-12)
    assert uncertainty.holdup_geometry_u_pct(combined, total.nominal_value) == pytest.approx(
        100 * total.std_dev / total.nominal_value
    )


def test_uncertainty_agrees_with_a_monte_carlo_to_one_per_cent() -> None:
    random = np.random.default_rng(20240311)
    draws: dict[str, Number] = {
        k: random.normal(v, SPREAD[k], 400_000) if k in SPREAD else v for k, v in nominal().items()
    }
    combined = uncertainty.holdup_geometry_u_L(*uncertainty_parts_L().values())
    assert combined == pytest.approx(float(np.std(closed_L(draws))), rel=0.01)


def test_four_pipes_sharing_a_bore_error_count_twice_as_much_as_independent_ones() -> None:
    # worked out for this project: 1.050 L correlated, 0.525 L if wrongly treated as independent
    one = 1.050 / 4 / 2 / 0.02  # volume of one run that gives 1.050 L at 2 % of bore
    shared = uncertainty.pipe_bore_part_u_L(holdup.pipes_L(*[one] * 4, *[0.0] * 4), 2.0)
    independent = math.hypot(*[uncertainty.pipe_bore_part_u_L(one, 2.0)] * 4)
    assert shared == pytest.approx(1.050)
    assert independent == pytest.approx(0.525)


def test_a_negative_holdup_is_not_adopted_and_has_no_shares() -> None:
    whole = holdup.holdup_geometry_L(-50.0, 20.0, 5.0, 1.0, 0.0, 2.0, 3.0, 0.0, 0.0, 0.0)
    assert whole == -19.0  # dimensions that cannot be still add up; annulus_ok says stop
    with pytest.raises(ValueError, match=r"a hold-up of -19\.0 L cannot be"):
        holdup.holdup_adopted_L(holdup.DIMENSIONS, None, whole, 20.0)
    with pytest.raises(ValueError, match=r"a hold-up of -19\.0 L has no shares"):
        holdup.part_share_pct(20.0, whole)
    with pytest.raises(ValueError, match=r"a hold-up of 0\.0 L has no relative uncertainty"):
        uncertainty.holdup_geometry_u_pct(1.0, 0.0)


def test_groups_of_parts_make_the_whole() -> None:
    parts, u = parts_L(), list(uncertainty_parts_L().values())
    side = holdup.membrane_side_L(*list(parts.values())[:6])
    elsewhere = holdup.elsewhere_L(6.0, 4.0, 1.0)
    whole = holdup.holdup_geometry_L(**parts)
    assert side + parts["pipes_L"] + elsewhere == pytest.approx(whole, rel=1e-15)
    vessels, elements = (
        uncertainty.vessels_u_L(u[0], u[1], u[11]),
        uncertainty.elements_u_L(*u[2:11]),
    )
    assert uncertainty.holdup_geometry_u_L(*u) == pytest.approx(
        math.hypot(vessels, elements, *u[12:]), rel=1e-15
    )
    leaves = uncertainty.leaves_u_L(*u[4:9])
    assert holdup.pipes_L(*(10.0**run for run in range(8))) == 11_111_111.0
    assert holdup.holdup_per_element_L(109.0, 4.0) == 27.25
    assert dimensions.wound_ratio_n(180.0, 200.0) == 0.9
    assert elements == pytest.approx(math.hypot(leaves, u[2], u[3], u[9], u[10]), rel=1e-15)


@pytest.mark.parametrize(
    ("size", "manual", "table"),
    [  # 4.5 and 17.0 L of solution for an element: a general equipment manual (read)
        ("4x40", 4.5, 0.03),
        ("8x40", 17.0, 0.1),
        # 15 kg (read) at 1.2 kg/L (from memory) in an envelope of 32.2 L with a tube of 0.7 L
        ("8x40", 32.2 - 15.0 / 1.2 + 0.7, 0.09),
    ],
)
def test_a_usual_size_holds_about_what_others_tell(size: str, manual: float, table: float) -> None:
    typical, u = holdup.typical_element_L(size), holdup.typical_element_u_L(size)
    assert typical == pytest.approx(manual, rel=table)
    assert abs(typical - manual) <= 2.0 * u


def test_holdup_by_size_counts_elements_and_their_doubt_together() -> None:
    # four of 8 x 40 inch with 12 L of pipes, 5 L of ends and 11 L elsewhere: 4 x 18.7 + 28, by hand
    assert holdup.holdup_size_L(4.0, 18.7, 12.0, 5.0, 11.0) == pytest.approx(102.8)
    assert holdup.holdup_size_u_L(4.0, 18.7, 1.3, 1.0, 0.0, 0.0, 0.0) == pytest.approx(
        5.295, abs=6e-4
    )
    assert holdup.typical_element_L("other") == holdup.typical_element_u_L("other") == 0.0
    for refused in (
        lambda: holdup.holdup_size_L(4.0, 0.0, 12.0, 5.0, 11.0),
        lambda: holdup.holdup_size_u_L(4.0, 0.0, 0.0, 1.0, 0.0, 0.0, 0.0),
        lambda: holdup.size_gap_u_L(4.0, 0.0, 0.0, 1.0, 1.0),
    ):
        with pytest.raises(ValueError, match="no usual size"):
            refused()


@pytest.mark.parametrize(
    ("known", "geometry", "size", "way", "litres", "u"),
    [
        (80.0, 109.0, 102.8, "known", 80.0, 2.0),
        (None, 109.0, 102.8, "dimensions", 109.0, 6.0),
        (None, None, 102.8, "size", 102.8, 5.3),
    ],
)
def test_what_is_known_goes_before_dimensions_and_these_before_the_size(
    known: float | None, geometry: float | None, size: float, way: str, litres: float, u: float
) -> None:
    number = holdup.holdup_from_n(known, geometry)
    assert holdup.holdup_adopted_L(number, known, geometry, size) == litres
    assert holdup.holdup_adopted_u_L(number, 2.0, 6.0, 5.3) == u
    assert holdup.holdup_from(number, litres) == way
    assert holdup.holdup_estimated_n(way) == (way == "size")


def test_what_is_known_without_doubt_has_none_and_what_nobody_knows_is_blank() -> None:
    assert holdup.holdup_adopted_u_L(holdup.KNOWN) == 0.0
    with pytest.raises(ValueError, match="nothing tells"):
        holdup.holdup_adopted_u_L(holdup.SIZE)
    with pytest.raises(ValueError, match="cannot be"):
        holdup.holdup_adopted_L(holdup.SIZE)


def test_size_and_dimensions_are_compared_without_the_spare_length_of_the_vessels() -> None:
    # 168 mm beyond two elements in each of two vessels of 203 mm: 2 x 5.4375 L, by hand
    spare = holdup.vessel_spare_L(2.0, 203.0, 2200.0, 2.0, 1016.0)
    assert spare == pytest.approx(10.875, abs=6e-4)
    gap = holdup.size_gap_L(109.0, spare, 16.0, 102.8)
    assert gap == pytest.approx(109.0 - 1.16 * 10.875 - 102.8, abs=6e-4)
    assert holdup.size_gap_u_L(4.0, 18.7, 1.3, 3.0, 4.0) == pytest.approx(math.hypot(5.2, 5.0))
    assert [holdup.size_ok(way * 2.5, 1.0) for way in (1.0, -1.0, 1.01, -1.01)] == [
        "ok",
        "ok",
        "look",
        "look",
    ]


@pytest.mark.parametrize(
    ("across", "bore", "row", "along", "length", "verdict"),
    [
        (202.999, 203.0, 2, 1016.0, 2032.0, "ok"),  # end to end
        (203.0, 203.0, 2, 1016.0, 2032.0, "stop"),
        (201.0, 203.0, 2, 1016.0, 2031.999, "stop"),
        (201.0, 203.0, 3, 1016.0, 2200.0, "stop"),
        (8.1 * MM_PER_IN, 205.74, 1, 1016.0, 1100.0, "stop"),  # the same length, in two units
    ],
)
def test_elements_fit_into_a_wider_and_not_shorter_vessel(
    across: float, bore: float, row: float, along: float, length: float, verdict: str
) -> None:
    assert dimensions.annulus_ok(across, bore, row, along, length) == verdict


@pytest.mark.parametrize("tenths", range(380, 421))
def test_inches_that_just_fit_on_paper_fit_here(tenths: int) -> None:
    element, vessel = tenths / 10 * MM_PER_IN, tenths * 3 / 10 * MM_PER_IN
    assert dimensions.annulus_ok(201.0, 203.0, 3, element, vessel) == "ok"
    assert dimensions.annulus_ok(201.0, 203.0, 3, element, vessel - 0.001) == "stop"


def test_a_core_tube_has_a_wall_and_lies_inside_its_element() -> None:
    assert dimensions.core_ok(26.0, 26.001, 26.002) == "ok"
    assert dimensions.core_ok(29.0, 29.0, 201.0) == "stop"
    assert dimensions.core_ok(26.0, 201.0, 201.0) == "stop"


def test_a_spiral_that_nearly_fills_its_element_is_plausible() -> None:
    assert [dimensions.wound_ok(r) for r in (0.8, 0.95, 1.0)] == ["ok"] * 3
    # 1.14: a wrong area entry met in trials of this project
    wrong = (math.nextafter(0.8, 0), math.nextafter(1.0, 2), 1.14)
    assert [dimensions.wound_ok(r) for r in wrong] == ["look"] * 3
