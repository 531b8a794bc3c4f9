"""Machines for the laws: any that can be built, from the limits of the specs."""

from collections.abc import Mapping
from functools import cache
from typing import Protocol

from hypothesis import strategies as st
from workbook.files import Value

from builder.exchange.demo import read_demo
from builder.exchange.machine import canonical
from builder.spec.load import find_specs, load_spec
from builder.spec.records import Input
from builder.spec.specification import Spec

Given = dict[str, Value]
PIPES = range(1, 9)
WATERS = ("vessel_ends_L", "filter_housings_L", "pumps_L", "other_holdup_L")
CHANNELS = (
    "element_area_m2",
    "feed_spacer_mm",
    "feed_spacer_porosity_frac",
    "permeate_carrier_mm",
    "permeate_carrier_porosity_frac",
    "membrane_thickness_mm",
    "element_extra_pct",
)
CLEANER = {  # a cleaner that the pH model takes: some alkali, and not more than all
    "cleaner_naoh_pct": (1.0, 20.0),
    "cleaner_carbonate_pct": (0.0, 30.0),
    "cleaner_silicate_pct": (0.0, 20.0),
    "cleaner_edta_pct": (0.0, 20.0),
    "recipe_cleaner_kg": (0.2, 3.0),
    "recipe_water_L": (30.0, 300.0),
    "wash_temp_degC": (5.0, 55.0),
}


class Side(Protocol):
    """Works out results for what is given."""

    spec: Spec

    def solve(self, given: Given) -> Mapping[str, Value]:
        """Return results by name."""


def limits(spec: Spec, name: str) -> tuple[float, float]:
    quantity = spec.quantities[name]
    if not isinstance(quantity, Input):
        raise TypeError(name)
    return quantity.limits.min, quantity.limits.max


def within(low: float, high: float) -> st.SearchStrategy[float]:
    """Return numbers of six digits: as people type them, and none that vanishes in rounding."""
    return st.integers(0, 10**6).map(lambda share: low + (high - low) * share / 10**6)


@cache
def read_values() -> Given:
    """Return what is given of the demo machine, for what a law does not vary."""
    spec = load_spec(find_specs())
    return canonical(read_demo(spec), spec)


@st.composite
def machines(draw: st.DrawFn, spec: Spec) -> Given:
    """Return the dimensions of a machine whose elements fit into its vessels."""
    given: Given = {**read_values(), "vessels_n": float(draw(st.integers(1, 30)))}
    for name in (*WATERS, *CHANNELS):
        given[name] = draw(within(*limits(spec, name)))
    bore = draw(within(60, 500))
    diameter = bore * draw(within(0.7, 0.95))
    elements = draw(st.integers(1, 4))
    length = draw(within(250, 1600))
    tube = diameter * draw(within(0.2, 0.24))
    given |= {
        "elements_per_vessel_n": float(elements),
        "vessel_bore_mm": bore,
        "vessel_length_mm": max(300.0, elements * length * draw(within(1.01, 1.4))),
        "element_diameter_mm": diameter,
        "element_length_mm": length,
        "core_tube_outer_mm": tube,
        "core_tube_inner_mm": tube * draw(within(0.65, 0.95)),
    }
    for number in PIPES:
        given[f"pipe_{number}_bore_mm"] = draw(within(3, 300))
        given[f"pipe_{number}_length_m"] = draw(st.just(0.0) | within(0.1, 100))
    return given


@st.composite
def washes(draw: st.DrawFn, spec: Spec) -> Given:
    """Return a machine with a cleaner and its limits of pH."""
    given = draw(machines(spec))
    given |= {name: draw(within(*ends)) for name, ends in CLEANER.items()}
    given["recipe_water_means"] = draw(st.sampled_from(["circulating", "tank"]))
    given["floor_pH"] = draw(within(9.5, 12.5))
    given |= {"limit_1_temp_degC": 60.0, "limit_1_pH": draw(within(9.5, 12.5))}
    given["limit_means"] = "at_wash"
    given["end_temp_degC"] = given["wash_temp_degC"]
    given["end_pH"] = draw(within(7.5, 13.5))
    return given


@st.composite
def rinses(draw: st.DrawFn, spec: Spec) -> Given:
    """Return a machine with its rules for rinsing."""
    given = draw(machines(spec))
    given["rinse_rule"] = draw(st.sampled_from(["holdup", "elements", "larger"]))
    for name in ("rinse_factor_n", "rinse_first_element_L", "rinse_further_element_L"):
        given[name] = draw(within(*limits(spec, name)))
    return given


class NoNumberError(ValueError):
    """Where a valid input gives no number."""


def number(values: Mapping[str, Value], name: str) -> float:
    """Return a number; what is none is a finding."""
    value = values[name]
    if not isinstance(value, float):
        raise NoNumberError(f"{name}: found {value!r}, expected a number")
    return value
