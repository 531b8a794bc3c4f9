"""Values outside their range are refused by name, value, unit and range."""

import inspect
import math
import re

import numpy as np
import pytest

from builder.reference.ranges import require

from .machine import arguments, documented_ranges, functions

FUNCTIONS = functions()
NUMBERS = [(name, p) for name, f in FUNCTIONS.items() for p in documented_ranges(f)]
CHOICES = [
    (name, p.name)
    for name, f in FUNCTIONS.items()
    for p in inspect.signature(f).parameters.values()
    if p.annotation is str
]


@pytest.mark.parametrize("name", FUNCTIONS)
def test_a_sensible_machine_passes(name: str) -> None:
    value = FUNCTIONS[name](**arguments(FUNCTIONS[name]))
    if name.rsplit("_", 1)[-1] == "ok":
        assert value == "ok"
    else:
        assert isinstance(value, float)
        assert math.isfinite(value)


@pytest.mark.parametrize(("name", "parameter"), NUMBERS)
def test_out_of_range_is_refused_with_name_value_unit_and_range(name: str, parameter: str) -> None:
    function = FUNCTIONS[name]
    unit, low, high = documented_ranges(function)[parameter]
    above = float(high) + max(1e-9, abs(float(high)) * 1e-3)
    for value in (float(low) - max(1.0, abs(float(low))), above):
        text = f"{parameter} = {value} {unit} lies outside {low} to {high} {unit}"
        with pytest.raises(ValueError, match="^" + re.escape(text) + "$"):
            function(**{**arguments(function), parameter: value})


@pytest.mark.parametrize(("name", "parameter"), NUMBERS)
@pytest.mark.parametrize("value", [math.nan, math.inf, True, "1", None])
def test_what_is_no_finite_number_is_refused(name: str, parameter: str, value: object) -> None:
    function = FUNCTIONS[name]
    wrong = {**arguments(function), parameter: value}
    with pytest.raises(ValueError, match=re.escape(f"{parameter} = {value} ")):
        function(**wrong)


@pytest.mark.parametrize(("name", "parameter"), CHOICES)
@pytest.mark.parametrize("value", ["", "Larger", None, 1.0])
def test_an_unknown_choice_is_refused(name: str, parameter: str, value: object) -> None:
    wrong = {**arguments(FUNCTIONS[name]), parameter: value}
    with pytest.raises(ValueError, match=re.escape(f"{parameter} = {value} is none of")):
        FUNCTIONS[name](**wrong)


def test_both_ends_of_a_range_are_valid() -> None:
    for value in (1, 60, 1.0, 60.0, np.float64(60.0), np.int64(1)):
        require("wash_temp_degC", value, "degC", 1.0, 60.0)


def test_a_divisor_of_zero_is_refused() -> None:
    for name, parameter in (
        ("rinse_dilution.rinse_volumes_n", "holdup_adopted_L"),
        ("wash.cleaner_dose_kg", "wash_solution_L"),
        ("uncertainty.holdup_geometry_u_pct", "holdup_geometry_L"),
        ("ph_reserve.alkali_used_pct", "alkali_eqpL"),
    ):
        with pytest.raises(ValueError, match=rf"{parameter} = 0\.0 \w+ lies outside"):
            FUNCTIONS[name](**{**arguments(FUNCTIONS[name]), parameter: 0.0})
