"""The figures worked out by hand in the examples against the reference calculation."""

import re
from decimal import Decimal
from pathlib import Path

import pytest

from builder.calculation import calculate
from builder.exchange.machine import canonical, read_machine
from builder.spec.records import Check

EXAMPLES = Path(__file__).parents[2] / "examples"
NAMES = ["demo", "one_vessel", "two_vessels", "eight_in_a_row"]
BY_HAND = re.compile(r"^# = (\w+) (\S+)$", re.MULTILINE)
ALWAYS = {
    *("vessels_water_L", "elements_envelope_L", "annulus_L", "feed_channel_L"),
    *("permeate_channel_L", "core_tubes_L", "ends_L", "pipe_1_L", "pipe_2_L", "pipes_L"),
    *("elsewhere_L", "holdup_geometry_L", "holdup_adopted_L", "wound_ratio_n"),
    *("wash_solution_L", "tank_fill_L", "cleaner_dose_kg", "cleaner_strength_gpL"),
    *("cleaner_packs_n", "rinse_by_holdup_L", "rinse_by_elements_L", "rinse_owed_L"),
    *("rinse_target_L", "rinse_time_min", "rinse_fills_n"),
    *("first_rinse_owed_L", "first_rinse_target_L"),
}


def read_figures(name):
    text = (EXAMPLES / f"{name}.toml").read_text(encoding="utf-8")
    return {quantity: Decimal(figure) for quantity, figure in BY_HAND.findall(text)}


def work_out(name, spec):
    return calculate(spec, canonical(read_machine(EXAMPLES / f"{name}.toml", spec), spec))


@pytest.mark.parametrize("name", NAMES)
def test_reference_gives_the_figures_worked_out_by_hand(name, spec):
    values = work_out(name, spec)
    figures = read_figures(name)
    found = {
        key: round(Decimal(values[key]), -figure.as_tuple().exponent)
        for key, figure in figures.items()
    }
    assert found == figures


@pytest.mark.parametrize("name", NAMES)
def test_every_example_works_out_holdup_dose_fill_and_rinse(name):
    assert ALWAYS - read_figures(name).keys() == set()


@pytest.mark.parametrize("name", NAMES)
def test_verdicts_of_the_examples_are_good(name, spec):
    values = work_out(name, spec)
    verdicts = {key: values[key] for key, q in spec.quantities.items() if isinstance(q, Check)}
    measured = {"end_floor_ok", "end_reading_ok"} if name == "two_vessels" else set()
    needed = {key for key in verdicts if spec.quantities[key].needed} | measured
    assert {verdicts[key] for key in needed} == {"ok"}
    assert {verdicts[key] for key in verdicts.keys() - needed} <= {"ok", "none"}


def test_no_example_is_forgotten():
    assert sorted(path.stem for path in EXAMPLES.glob("*.toml")) == sorted(NAMES)
