"""Every public function documents what it takes, gives back, refuses and rests on."""

import ast
import inspect
import re
from collections.abc import Callable

import pytest

from .machine import documented_ranges, functions, modules

ALL = functions(with_helpers=True)
QUANTITIES = functions()
LISTED = {
    "holdup": """elements_n vessels_water_L elements_envelope_L annulus_L feed_channel_L
        permeate_channel_L core_tubes_L ends_L pipe_L pipes_L holdup_geometry_L holdup_adopted_L
        holdup_per_element_L part_share_pct wound_diameter_mm wound_ratio_n""",
    "uncertainty": """vessel_bore_part_u_L vessel_length_part_u_L element_diameter_part_u_L
        element_length_part_u_L element_area_part_u_L feed_spacer_part_u_L feed_porosity_part_u_L
        permeate_carrier_part_u_L permeate_porosity_part_u_L core_tube_part_u_L ends_part_u_L
        pipe_bore_part_u_L pipe_length_part_u_L elsewhere_part_u_L holdup_geometry_u_L
        holdup_geometry_u_pct""",
    "wash": """recipe_volume_L wash_solution_L wash_volume_L tank_fill_L cleaner_dose_kg
        cleaner_strength_gpL cleaner_packs_n tank_short_L naoh_molpL carbonate_molpL
        silicate_molpL edta_molpL alkali_eqpL""",
    "equilibrium": "need_eqpL solve_pH",
    "ph": """wash_start_pH wash_start_at_25_pH ceiling_margin_pH start_floor_margin_pH
        floor_margin_pH floor_alkali_eqpL alkali_reserve_eqpL alkali_reserve_pct end_alkali_eqpL
        alkali_used_eqpL alkali_used_pct end_at_wash_pH end_floor_margin_pH topup_share_frac
        topup_cleaner_kg""",
    "rinse": """rinse_by_holdup_L rinse_by_elements_L rinse_owed_L rinse_time_min rinse_fills_n
        rinse_volumes_n rinse_ideal_decades_n first_rinse_hourly_L first_rinse_owed_L
        first_rinse_time_min first_rinse_fills_n""",
    "parts": """membrane_side_L elsewhere_L leaf_section_mm2 vessels_u_L elements_u_L
        guess_ionic_molpL end_reading_degC wash_ionic_molpL last_step_pH leaves_u_L""",
    "verdicts": """annulus_ok core_ok wound_ok tank_ok solution_ok rinse_ok composition_ok
        ceiling_ok start_floor_ok end_floor_ok reading_ok converged_ok model_ok""",
}


def section(function: Callable[..., float], title: str) -> str:
    """Return the text of one docstring section, empty where it is missing."""
    text = inspect.getdoc(function) or ""
    found = re.search(rf"^{title}\n-+\n(.*?)(?=\n\n|\Z)", text, re.DOTALL | re.MULTILINE)
    return found[1] if found else ""


@pytest.mark.parametrize("name", ALL)
def test_docstring_lists_exactly_its_parameters_in_order(name: str) -> None:
    documented = re.findall(r"^\**(\w+) : ", section(ALL[name], "Parameters"), re.MULTILINE)
    assert documented == list(inspect.signature(ALL[name]).parameters)


@pytest.mark.parametrize("name", ALL)
def test_every_parameter_and_result_has_a_unit(name: str) -> None:
    described = re.findall(r"^    (.*)$", section(ALL[name], "Parameters"), re.MULTILINE)
    assert len(described) == len(inspect.signature(ALL[name]).parameters)
    assert all(re.search(r"\[.+\]", line) for line in described)
    if inspect.signature(ALL[name]).return_annotation is not None:
        assert re.search(r"\[.+\]", section(ALL[name], "Returns"))


@pytest.mark.parametrize("name", QUANTITIES)
def test_unit_is_the_suffix_of_the_name_and_every_number_has_a_range(name: str) -> None:
    function = QUANTITIES[name]
    ranges = documented_ranges(function)
    hints = inspect.signature(function).parameters.values()
    assert list(ranges) == [p.name for p in hints if p.annotation is float]
    assert all(unit == key.rsplit("_", 1)[-1] for key, (unit, _, _) in ranges.items())
    assert f"[{name.rsplit('.', 1)[-1].rsplit('_', 1)[-1]}]" in section(function, "Returns")


@pytest.mark.parametrize("name", ALL)
def test_summary_is_one_sentence_and_a_definition_follows(name: str) -> None:
    parts = (inspect.getdoc(ALL[name]) or "").split("\n\n")
    assert "\n" not in parts[0]
    assert parts[0].endswith(".")
    assert len(parts[1]) > 5
    assert not parts[1].startswith("Parameters")


@pytest.mark.parametrize("name", ALL)
def test_raises_and_references_stand_where_they_should(name: str) -> None:
    source = inspect.getsource(ALL[name]).split('"""')[-1]
    assert bool(section(ALL[name], "Raises")) == ("require" in source or "raise " in source)
    references = section(ALL[name], "References")
    known = r"\((read|second hand|from memory|definition)|no source|^Definition"
    assert re.search(known, references)


@pytest.mark.parametrize("name", [f"{m}.{f}" for m, names in LISTED.items() for f in names.split()])
def test_every_listed_quantity_is_reached_through_its_module(name: str) -> None:
    module, function = name.split(".")
    assert callable(getattr(modules()[module], function))


@pytest.mark.parametrize("name", modules())
def test_modules_and_functions_stay_short(name: str) -> None:
    source = inspect.getsource(modules()[name])
    assert len(source.splitlines()) <= 250
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.FunctionDef):
            body = node.body[1:] if ast.get_docstring(node) else node.body
            assert (body[-1].end_lineno or 0) - body[0].lineno < 25


@pytest.mark.parametrize("name", modules())
def test_reference_imports_nothing_of_the_builder_outside_itself(name: str) -> None:
    for node in ast.walk(ast.parse(inspect.getsource(modules()[name]))):
        if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("builder"):
            assert (node.module or "").startswith("builder.reference")
        if isinstance(node, ast.Import):
            assert not any(alias.name.startswith("builder") for alias in node.names)
