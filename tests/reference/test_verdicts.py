"""Verdicts turn exactly at their borders, and say nothing about what is no number."""

import math
import re
from collections.abc import Callable

import pytest

from builder.reference import verdicts
from builder.reference.verdicts import (
    annulus_ok,
    ceiling_ok,
    composition_ok,
    converged_ok,
    core_ok,
    end_floor_ok,
    model_ok,
    reading_ok,
    rinse_ok,
    solution_ok,
    start_floor_ok,
    tank_ok,
    wound_ok,
)

MM_PER_IN = 25.4  # NIST SP 811, exact
MARGINS = [ceiling_ok, start_floor_ok, end_floor_ok]


def above(value: float) -> float:
    """Return the next number above."""
    return math.nextafter(value, math.inf)


def below(value: float) -> float:
    """Return the next number below."""
    return math.nextafter(value, -math.inf)


def test_elements_that_fill_their_vessel_from_end_to_end_fit() -> None:
    assert annulus_ok(201.0, 203.0, 2, 1016.0, 2032.0) == "ok"
    assert annulus_ok(201.0, 203.0, 2, 1016.0, 2031.999) == "stop"
    assert annulus_ok(201.0, 203.0, 3, 1016.0, 2200.0) == "stop"


def test_an_element_needs_a_wider_vessel() -> None:
    assert annulus_ok(202.999, 203.0, 1, 1016.0, 1100.0) == "ok"
    assert annulus_ok(203.0, 203.0, 1, 1016.0, 1100.0) == "stop"
    assert annulus_ok(203.001, 203.0, 1, 1016.0, 1100.0) == "stop"


@pytest.mark.parametrize("tenths", range(380, 421))
def test_inches_that_just_fit_on_paper_fit_here(tenths: int) -> None:
    element, vessel = tenths / 10 * MM_PER_IN, tenths * 3 / 10 * MM_PER_IN
    assert annulus_ok(201.0, 203.0, 3, element, vessel) == "ok"
    assert annulus_ok(201.0, 203.0, 3, element, vessel - 0.001) == "stop"


def test_the_same_diameter_in_inches_and_in_millimetres_is_not_narrower() -> None:
    assert 8.1 * MM_PER_IN < 205.74  # the binary numbers differ, the lengths do not
    assert annulus_ok(8.1 * MM_PER_IN, 205.74, 1, 1016.0, 1100.0) == "stop"


def test_a_core_tube_has_a_wall_and_lies_inside_its_element() -> None:
    assert core_ok(26.0, 26.001, 26.002) == "ok"
    assert core_ok(0.0, 29.0, 201.0) == "ok"
    assert core_ok(29.0, 29.0, 201.0) == "stop"
    assert core_ok(29.1, 29.0, 201.0) == "stop"
    assert core_ok(26.0, 201.0, 201.0) == "stop"
    assert core_ok(26.0, 202.0, 201.0) == "stop"


@pytest.mark.parametrize("ratio", [0.8, above(0.8), 0.95, below(1.0), 1.0])
def test_a_spiral_that_nearly_fills_its_element_is_plausible(ratio: float) -> None:
    assert wound_ok(ratio) == "ok"


# 1.14: a wrong area entry met in trials of this project
@pytest.mark.parametrize("ratio", [0.0, below(0.8), above(1.0), 1.14])
def test_a_spiral_too_thin_or_too_thick_wants_a_look(ratio: float) -> None:
    assert wound_ok(ratio) == "look"


def test_a_tank_holds_the_wash_or_it_does_not() -> None:
    assert tank_ok(0.0) == "ok"
    assert tank_ok(above(0.0)) == "stop"
    assert tank_ok(50.0) == "stop"


def test_a_recipe_that_only_fills_the_machine_wants_a_look() -> None:
    assert solution_ok(above(109.0), 109.0) == "ok"
    assert solution_ok(109.0, 109.0) == "look"
    assert solution_ok(0.0, 109.0) == "look"


# 7 to 10 volumes for ideal mixing: Levenspiel (from memory); 40: common practice, no source
@pytest.mark.parametrize(
    ("volumes", "verdict"),
    [(0.0, "look"), (7.0, "look"), (below(10.0), "look"), (10.0, "ok"), (40.0, "ok")],
)
def test_a_rinse_of_ten_volumes_is_the_least_that_passes(volumes: float, verdict: str) -> None:
    assert rinse_ok(volumes) == verdict


def test_shares_make_up_a_hundred_per_cent_at_most() -> None:
    assert composition_ok(0.0, 0.0, 0.0, 0.0) == "ok"
    assert composition_ok(35.0, 10.0, 8.0, 5.0) == "ok"
    assert composition_ok(100.0, 0.0, 0.0, 0.0) == "ok"
    assert composition_ok(100.0, 0.0, 0.0, 0.001) == "stop"
    assert composition_ok(60.0, 60.0, 60.0, 60.0) == "stop"


@pytest.mark.parametrize("shares", [(2.2, 40.4, 52.2, 5.2), (51.1, 39.2, 9.3, 0.4)])
def test_shares_that_make_a_hundred_on_paper_make_it_here(shares: tuple[float, ...]) -> None:
    assert sum(shares) > 100.0  # what the binary numbers add up to
    assert composition_ok(*shares) == "ok"


@pytest.mark.parametrize("judge", MARGINS)
@pytest.mark.parametrize(
    ("margin", "verdict"),
    [
        (-1.0, "stop"),
        (below(0.0), "stop"),
        (-0.0, "look"),
        (0.0, "look"),
        (below(0.05), "look"),
        (0.05, "ok"),
        (1.0, "ok"),
    ],
)
def test_a_margin_counts_from_where_the_model_can_tell(
    judge: Callable[[float], str], margin: float, verdict: str
) -> None:
    # own comparison with PHREEQC: uncertain by 0.05 in a carbonate-rich wash
    assert judge(margin) == verdict


def test_a_reading_without_its_temperature_wants_a_look() -> None:
    assert reading_ok(11.0, 35.0) == "ok"
    assert reading_ok(11.0, 1.0) == "ok"
    assert reading_ok(11.0, None) == "look"
    assert reading_ok(11.0) == "look"


def test_a_solver_has_settled_at_half_a_thousandth() -> None:
    assert converged_ok(0.0) == "ok"
    assert converged_ok(0.0005) == "ok"
    assert converged_ok(above(0.0005)) == "look"


@pytest.mark.parametrize(
    ("start", "strength", "verdict"),
    [
        (7.5, 0.1, "ok"),
        (13.75, 0.1, "ok"),
        (below(7.5), 0.1, "look"),
        (above(13.75), 0.1, "look"),
        (11.4, 0.0, "ok"),
        (11.4, below(0.5), "ok"),
        (11.4, 0.5, "look"),
        (11.4, 0.7, "look"),
    ],
)
def test_the_model_holds_within_its_pH_and_below_its_clamp(
    start: float, strength: float, verdict: str
) -> None:
    assert model_ok(start, strength) == verdict


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("WOUND_RATIO_MIN_N", 0.8),
        ("RINSE_VOLUMES_LEAST_N", 10.0),
        ("MODEL_U_PH", 0.05),
        ("STEP_LARGEST_PH", 0.0005),
        ("MODEL_FLOOR_PH", 7.5),
        ("MODEL_CEILING_PH", 13.75),
        ("IONIC_MAX", 0.5),
    ],
)
def test_a_figure_behind_a_verdict_is_reached_by_name(name: str, value: float) -> None:
    assert getattr(verdicts, name) == value


GOOD = {
    "annulus_ok": {
        "element_diameter_mm": (201.0, 1, 5000),
        "vessel_bore_mm": (203.0, 1, 5000),
        "elements_per_vessel_n": (2.0, 1, 100),
        "element_length_mm": (1016.0, 1, 100000),
        "vessel_length_mm": (2200.0, 1, 100000),
    },
    "core_ok": {
        "core_tube_inner_mm": (26.0, 0, 5000),
        "core_tube_outer_mm": (29.0, 0, 5000),
        "element_diameter_mm": (201.0, 1, 5000),
    },
    "wound_ok": {"wound_ratio_n": (0.9, 0, 1e9)},
    "tank_ok": {"tank_short_L": (0.0, 0, 1e9)},
    "solution_ok": {"wash_solution_L": (196.0, 0, 1e9), "holdup_adopted_L": (109.0, 0, 1e9)},
    "rinse_ok": {"rinse_volumes_n": (40.0, 0, 1e12)},
    "composition_ok": {
        "cleaner_naoh_pct": (2.0, 0, 100),
        "cleaner_carbonate_pct": (10.0, 0, 100),
        "cleaner_silicate_pct": (5.0, 0, 100),
        "cleaner_edta_pct": (5.0, 0, 100),
    },
    "ceiling_ok": {"ceiling_margin_pH": (0.6, -20, 20)},
    "start_floor_ok": {"start_floor_margin_pH": (0.9, -20, 20)},
    "end_floor_ok": {"end_floor_margin_pH": (0.6, -20, 20)},
    "reading_ok": {"end_pH": (11.0, 0, 14), "end_temp_degC": (35.0, 1, 60)},
    "converged_ok": {"last_step_pH": (0.0, 0, 20)},
    "model_ok": {"wash_start_pH": (11.4, -2, 18), "wash_ionic_molpL": (0.1, 0, 1000)},
}
CASES = [(judge, name) for judge, needs in GOOD.items() for name in needs]


@pytest.mark.parametrize("judge", GOOD)
def test_a_sensible_machine_is_ok(judge: str) -> None:
    arguments = {name: value for name, (value, _, _) in GOOD[judge].items()}
    assert getattr(verdicts, judge)(**arguments) == "ok"


@pytest.mark.parametrize(("judge", "name"), CASES)
def test_what_lies_outside_its_range_gets_no_verdict(judge: str, name: str) -> None:
    arguments = {key: value for key, (value, _, _) in GOOD[judge].items()}
    _, low, high = GOOD[judge][name]
    unit = name.rsplit("_", 1)[-1]
    for wrong in (low - 0.5, high * 1.5, math.nan, True, "1"):
        text = f"{name} = {wrong} {unit} lies outside {low:g} to {high:g} {unit}"
        with pytest.raises(ValueError, match="^" + re.escape(text) + "$"):
            getattr(verdicts, judge)(**{**arguments, name: wrong})
