"""One sensible machine, by quantity name, shared by the reference tests."""

import importlib
import inspect
import pkgutil
import re
from collections.abc import Callable
from types import ModuleType

import builder.reference

from .season_topics import INSTEAD, TOPICS

HELPERS = ("ranges", "limits", "sensitivity")
# limits stand in the specs
PLAIN = ("comparison", "permeate", "saturation", "sugar", "supply")
PLAIN += ("log", "trend", "season", "offseason")
PART_NAMES = (
    "vessel_bore",
    "vessel_length",
    "element_diameter",
    "element_length",
    "element_area",
    "feed_spacer",
    "feed_porosity",
    "permeate_carrier",
    "permeate_porosity",
    "core_tube",
    "ends",
    "pipe_bore",
    "pipe_length",
    "elsewhere",
)

BASE: dict[str, float | str] = {
    "vessels_n": 2.0,
    "elements_per_vessel_n": 2.0,
    "elements_n": 4.0,
    "vessel_bore_mm": 203.0,
    "vessel_length_mm": 2200.0,
    "element_diameter_mm": 201.0,
    "element_length_mm": 1016.0,
    "diameter_mm": 100.0,
    "length_mm": 1000.0,
    "core_tube_inner_mm": 26.0,
    "core_tube_outer_mm": 29.0,
    "element_area_m2": 37.0,
    "feed_spacer_mm": 0.8636,
    "permeate_carrier_mm": 0.25,
    "membrane_thickness_mm": 0.15,
    "feed_spacer_porosity_frac": 0.89,
    "permeate_carrier_porosity_frac": 0.5,
    "feed_spacer_porosity_u_frac": 0.03,
    "permeate_carrier_porosity_u_frac": 0.1,
    "pipe_bore_mm": 52.48,
    "pipe_length_m": 3.0,
    "vessel_ends_L": 2.5,
    "vessel_ends_u_L": 0.5,
    "vessels_water_L": 142.0,
    "elements_envelope_L": 129.0,
    "annulus_L": 13.0,
    "feed_channel_L": 57.0,
    "permeate_channel_L": 9.0,
    "core_tubes_L": 2.1,
    "ends_L": 5.0,
    "pipes_L": 12.0,
    **{f"pipe_{run}_L": 1.5 * run for run in range(1, 9)},
    "filter_housings_L": 6.0,
    "pumps_L": 4.0,
    "other_holdup_L": 1.0,
    "holdup_geometry_L": 109.0,
    "holdup_adopted_L": 109.0,
    "part_L": 13.0,
    "whole_L": 109.0,
    "wound_diameter_mm": 195.0,
    "wound_ratio_n": 0.95,
    "vessel_bore_u_mm": 0.5,
    "vessel_length_u_mm": 5.0,
    "element_diameter_u_mm": 0.5,
    "element_length_u_mm": 2.0,
    "core_tube_inner_u_mm": 0.3,
    "element_area_u_pct": 3.0,
    "feed_spacer_u_pct": 2.0,
    "permeate_carrier_u_pct": 10.0,
    "pipe_bore_u_pct": 2.0,
    "pipe_length_u_pct": 5.0,
    "elsewhere_u_pct": 20.0,
    **{f"{part}_part_u_L": 1.0 for part in PART_NAMES},
    "holdup_geometry_u_L": 4.0,
    "recipe_water_L": 49.0,
    "recipe_cleaner_kg": 1.13,
    "recipe_volume_L": 196.0,
    "recipe_water_means": "circulating",
    "wash_solution_L": 196.0,
    "wash_volume_L": 196.0,
    "tank_fill_L": 87.0,
    "wash_tank_L": 400.0,
    "tank_short_L": 0.0,
    "cleaner_dose_kg": 4.52,
    "cleaner_strength_gpL": 23.0,
    "cleaner_pack_kg": 2.0,
    "cleaner_naoh_pct": 2.0,
    "cleaner_carbonate_pct": 10.0,
    "cleaner_silicate_pct": 5.0,
    "cleaner_edta_pct": 5.0,
    "naoh_molpL": 0.0115,
    "carbonate_molpL": 0.02,
    "silicate_molpL": 0.009,
    "edta_molpL": 0.003,
    "alkali_eqpL": 0.0815,
    "sodium_eqpL": 0.0815,
    "ionic_strength_molpL": 0.1,
    "floor_alkali_eqpL": 0.07,
    "end_alkali_eqpL": 0.075,
    "alkali_reserve_eqpL": 0.01,
    "alkali_used_eqpL": 0.006,
    "ceiling_pH": 12.0,
    "floor_pH": 10.5,
    "end_pH": 11.0,
    "wash_start_pH": 11.4,
    "ceiling_margin_pH": 0.6,
    "start_floor_margin_pH": 0.9,
    "end_floor_margin_pH": 0.6,
    "last_step_pH": 0.0,
    "wash_ionic_molpL": 0.1,
    "end_at_wash_pH": 11.1,
    "pH": 11.0,
    "wash_temp_degC": 40.0,
    "end_temp_degC": 35.0,
    "temp_degC": 25.0,
    "topup_share_frac": 0.2,
    "rinse_rule": "larger",
    "rinse_factor_n": 40.0,
    "rinse_first_element_L": 2000.0,
    "rinse_further_element_L": 300.0,
    "rinse_by_holdup_L": 4360.0,
    "rinse_by_elements_L": 2900.0,
    "rinse_owed_L": 4360.0,
    "rinse_tank_L": 1000.0,
    "rinse_flow_Lpmin": 40.0,
    "rinse_volumes_n": 40.0,
    "rated_flow_Lph": 2400.0,
    "first_rinse_hours_h": 1.0,
    "first_rinse_hourly_L": 2400.0,
    "first_rinse_owed_L": 2900.0,
    **TOPICS,
}


def modules() -> dict[str, ModuleType]:
    """Return every module of the reference package by its short name."""
    found = pkgutil.iter_modules(builder.reference.__path__)
    return {m.name: importlib.import_module(f"builder.reference.{m.name}") for m in found}


def functions(*, with_helpers: bool = False) -> dict[str, Callable[..., float]]:
    """Return every public function by "module.name", where it is defined."""
    result: dict[str, Callable[..., float]] = {}
    for short, module in modules().items():
        if short in PLAIN or (short in HELPERS and not with_helpers):
            continue
        for name, function in inspect.getmembers(module, inspect.isfunction):
            if not name.startswith("_") and function.__module__ == module.__name__:
                result[f"{short}.{name}"] = function
    return result


def arguments(function: Callable[..., float]) -> dict[str, float | str]:
    """Return the arguments of a function for the sensible machine."""
    values = {**BASE, **INSTEAD.get(function.__name__, {})}
    return {name: values[name] for name in inspect.signature(function).parameters}


def documented_ranges(function: Callable[..., float]) -> dict[str, tuple[str, str, str]]:
    """Return unit, lowest and highest text of every numeric parameter of a docstring."""
    pattern = r"^(\w+) : float\n +.*\[(\w+)\], (\S+) to (\S+)\.$"
    text = inspect.getdoc(function) or ""
    return {m[1]: (m[2], m[3], m[4]) for m in re.finditer(pattern, text, re.MULTILINE)}
