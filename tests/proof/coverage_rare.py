"""Sets of input that hardly come by chance: ties, narrow bands, single entries."""

from collections.abc import Iterator

from workbook.cases import Case

from builder.spec.specification import Spec
from proof.coverage_aims import Aim, Like, Until, settle

BESIDE = (0.999, 1.0, 1.001)  # of a limit
# Numbers of tanks or packs a little beyond a whole one: what a rounding takes away, and what not.
NEARLY = (3 + 2e-10, 3 + 2e-9, 3 + 1e-6)
WATER: dict[str, Aim] = {
    "hardness_mgpLCaCO3": 137.0,
    "alkalinity_mgpLCaCO3": 94.0,
    "water_pH": 7.7,
    "water_temp_degC": 11.0,
    "water_tds_mgpL": 230.0,
    "calcium_mgpLCaCO3": 103.0,
}
SUGAR: dict[str, Aim] = {"sugar_reading_brix": 0.15, "sugar_since_h": 1.0}
TEST: dict[str, Aim] = {
    "test_flow_Lph": 1400.0,
    "test_feed_bar": 17.0,
    "test_concentrate_bar": 16.0,
    "test_permeate_bar": 0.3,
    "test_temp_degC": 9.0,
}
CHLORINE: dict[str, Aim] = {
    "chlorine_first_mgpL": 0.8,
    "chlorine_second_mgpL": 0.4,
    "chlorine_between_h": 19.0,
    "chlorine_contact_h": 5.0,
}
BUFFERED: dict[str, Aim] = {
    "cleaner_naoh_pct": 0.0,
    "cleaner_carbonate_pct": 60.0,
    "cleaner_silicate_pct": 0.0,
    "wash_temp_degC": 20.0,
}


COLD: dict[str, Aim] = {  # in which a top-up is about as large as it may be
    **BUFFERED,
    "cleaner_carbonate_pct": 0.0,
    "cleaner_edta_pct": 30.0,
    "wash_temp_degC": 1.0,
}
METHODS = ("two_branch", "percent", "viscosity")


def list_rare(spec: Spec) -> Iterator[Case]:
    """Yield all of them as cases."""
    groups = (list_machines, list_washes, list_rinses, list_waters, list_tests, list_stores)
    for group in groups:
        for number, aims in enumerate(group(), start=1):
            yield Case(f"{group.__name__.removeprefix('list_')} {number}", settle(spec, aims))


def vary(base: dict[str, Aim], name: str, *aims: Aim) -> Iterator[dict[str, Aim]]:
    """Yield the same inputs with one of them at several values."""
    yield from ({**base, name: aim} for aim in aims)


def beside(base: dict[str, Aim], name: str, limit: str) -> Iterator[dict[str, Aim]]:
    """Yield an input just below a limit, at it, and just above."""
    yield from vary(base, name, *(Like(limit, times) for times in BESIDE))


def list_machines() -> Iterator[dict[str, Aim]]:
    """Yield vessels that just hold their elements, and volumes round zero."""
    yield from beside({}, "element_diameter_mm", "vessel_bore_mm")
    yield from beside({"elements_per_vessel_n": 2.0}, "vessel_length_mm", "element_length_mm")
    yield {"elements_per_vessel_n": 2.0, "vessel_length_mm": Like("element_length_mm", 2.0)}
    yield from beside({}, "core_tube_inner_mm", "core_tube_outer_mm")
    yield from beside({"core_tube_outer_mm": 100.0}, "element_diameter_mm", "core_tube_outer_mm")
    yield from vary(
        {}, "element_area_m2", *(Until("wound_ratio_n", r, 1, 60) for r in (0.79, 1.01))
    )
    small: dict[str, Aim] = {"element_diameter_mm": 230.0, "rinse_rule": "holdup"}
    for volume in (-0.5, 0.5, 1.5, 3.0, 5.0):
        least: dict[str, Aim] = {**small, "rinse_factor_n": 1.0}
        yield {**least, "vessel_length_mm": Until("holdup_geometry_L", volume, 300, 9000)}
        yield {**small, "vessel_length_mm": Until("holdup_geometry_L", volume, 300, 9000)}


def list_washes() -> Iterator[dict[str, Aim]]:
    """Yield margins of pH within the model's uncertainty, and cleaners at the edge of the model."""
    for step in (-0.06, -0.04, -0.01, 0.01, 0.04, 0.06):
        yield {"floor_pH": Like("wash_start_pH", 1.0, step)}
        yield {"ceiling_pH": Like("wash_start_pH", 1.0, step)}
        for temperature in (38.0, 15.0):
            end: dict[str, Aim] = {"end_pH": 10.9, "end_temp_degC": temperature}
            yield {**end, "floor_pH": Like("end_at_wash_pH", 1.0, step)}
    yield from vary(BUFFERED, "end_pH", 10.5, 10.0, 9.5, 9.0, 8.5, 8.0)
    yield from vary({"end_temp_degC": 20.0}, "end_pH", 11.0, 10.0, 9.0, 8.0)
    yield from vary(COLD, "end_pH", 10.0, 9.7, 9.5, 9.4)
    yield from vary({}, "recipe_cleaner_kg", 3.8, 4.0, 4.2, 4.4, 4.6, 4.8)
    pure: dict[str, Aim] = {"cleaner_carbonate_pct": 0.0, "cleaner_edta_pct": 0.0}
    for temperature in (1.0, 30.0, 60.0):
        yield from vary({**pure, "wash_temp_degC": temperature}, "cleaner_naoh_pct", 90.0, 20.0)
    chelate: dict[str, Aim] = {"cleaner_naoh_pct": 0.0, "cleaner_carbonate_pct": 0.0}
    chelate |= {"cleaner_silicate_pct": 0.0, "cleaner_edta_pct": 70.0}
    yield from vary(chelate, "recipe_cleaner_kg", 1.6, 1.65, 1.7, 1.8, 1.9, 2.1)
    yield from beside({}, "cleaner_edta_pct", "cleaner_naoh_pct")
    yield {"cleaner_edta_pct": 79.0}
    yield from vary({}, "recipe_cleaner_kg", 1e-5, 1e-4, 1e-3, 0.01)
    for step in (-5.0, -3.0, -1.5, -0.5, 0.5):
        yield {"wash_tank_L": Like("tank_fill_L", 1.0, step)}
    for count in NEARLY:
        yield {"cleaner_pack_kg": Like("cleaner_dose_kg", 1 / count)}
    yield from vary(
        {}, "recipe_water_L", Like("holdup_adopted_L", 0.499), Like("holdup_adopted_L", 0.501)
    )


def list_rinses() -> Iterator[dict[str, Aim]]:
    """Yield tanks that are nearly emptied, and rules that ask for nothing."""
    for count in NEARLY:
        yield {"rinse_tank_L": Like("rinse_owed_L", 1 / count)}
        yield {"rinse_tank_L": Like("first_rinse_owed_L", 1 / count)}
    none: dict[str, Aim] = {"rinse_first_element_L": 0.0, "rinse_further_element_L": 0.0}
    yield from vary(none, "rinse_rule", "elements", "holdup", "larger")
    yield {"rinse_rule": "holdup", "rated_flow_Lph": 20.0, "first_rinse_hours_h": 0.1}
    yield from vary({"rinse_rule": "holdup"}, "rinse_factor_n", 9.99, 10.0, 10.01)
    yield from beside({}, "first_rinse_done_L", "first_rinse_owed_L")
    # A thousand millionth may be missing by rounding: half of it, and twice as much.
    lacking = (Like("first_rinse_owed_L", 1 - share) for share in (5e-10, 2e-9, 1e-3))
    yield from vary({}, "first_rinse_done_L", *lacking)
    yield from beside({}, "shaft_soak_min", "shaft_soak_least_min")
    yield from beside({}, "shaft_soak_min", "shaft_soak_most_min")
    yield from beside({"latch_time_s": 5.0}, "latch_reached_bar", "latch_pressure_bar")
    yield from beside({"latch_reached_bar": 2.0}, "latch_time_s", "latch_time_most_s")
    yield from beside({}, "wetting_run_min", "wetting_least_min")
    yield from beside({}, "wetting_run_min", "wetting_most_min")


def list_waters() -> Iterator[dict[str, Aim]]:
    """Yield water at the edges of classes and ranges, and chlorine that is gone."""
    for edge in (60.0, 120.0, 180.0):
        yield from vary(WATER, "hardness_mgpLCaCO3", *(edge * times for times in BESIDE))
    for name, edge in (
        ("water_pH", 6.5),
        ("water_pH", 8.5),
        ("water_temp_degC", 2.0),
        ("water_temp_degC", 40.0),
        ("water_tds_mgpL", 1000.0),
    ):
        yield from vary(WATER, name, *(edge * times for times in BESIDE))
    for index in (0.28, 0.299, 0.301, 0.32):
        yield {**WATER, "water_pH": Until("saturation_index_n", index, 7.0, 10.0)}
    yield from vary(WATER, "calcium_mgpLCaCO3", 0.0)
    yield {**WATER, "water_pH": 11.0, "alkalinity_mgpLCaCO3": 5.0}
    yield from vary(CHLORINE, "chlorine_second_mgpL", 0.0, 0.8, 0.9)
    yield {**CHLORINE, "chlorine_first_mgpL": 0.04, "chlorine_second_mgpL": 0.02}
    for base in (CHLORINE, {}):
        yield from beside(base, "chlorine_standing_h", "standing_least_h")
    yield {"standing_most_h": 20.0, "chlorine_standing_h": 20.0}


def list_tests() -> Iterator[dict[str, Aim]]:
    """Yield flows and sugar at their limits, and pressures that drive nothing."""
    for limit in ("flow_stop_pct", "flow_wash_pct"):
        for step in (-0.05, 0.0, 0.05):
            yield {**TEST, "test_flow_Lph": Like(limit, 15.0, step)}
    for method in METHODS:
        warm: dict[str, Aim] = {**TEST, "test_temp_degC": 20.0, "flow_correction": method}
        for level in (70.0, 88.0):
            for step in (-0.3, 0.3):
                aim = Until("flow_pct", level + step, 1.0, 1e5)
                yield {**warm, "test_flow_Lph": aim}
    places = ("feed_bar", "concentrate_bar", "permeate_bar")
    for kind in ("test", "baseline"):
        yield {**TEST, **{f"{kind}_{name}": 10.0 for name in places}}
    yield from vary(TEST, "test_temp_degC", 11.9, 12.0, 12.1, 25.0)
    for reading in (0.08, 0.1, 0.12, 0.2, 0.22):
        yield from vary({**SUGAR, "sugar_reading_brix": reading}, "sugar_since_h", 1.0, 3.0, 5.0)
    for zero in (-0.06, 0.06):
        off: dict[str, Aim] = {**SUGAR, "sugar_zero_brix": zero}
        yield from vary(off, "sugar_reading_brix", 0.06, 0.12, 0.17, 0.22)
    yield {"sugar_zero_brix": -0.06, "sugar_reading_brix": 0.08, "sugar_since_h": 5.0}
    wide: dict[str, Aim] = {"sugar_resolution_brix": 0.3, "sugar_alarm_brix": 0.2}
    yield from vary(wide, "sugar_reading_brix", 0.1, 0.2, 0.25, 0.3, 0.4)
    plain: dict[str, Aim] = {"sugar_instrument": "plain", "sugar_temp_degC": 20.0}
    yield from vary(plain, "sugar_reading_brix", 0.0, 0.5)


def list_stores() -> Iterator[dict[str, Aim]]:
    """Yield solutions, temperatures and hours at their limits."""
    yield from beside({}, "storage_strength_gpL", "storage_least_gpL")
    yield from beside({}, "storage_strength_gpL", "storage_most_gpL")
    yield from beside({}, "storage_temp_degC", "storage_coldest_degC")
    yield from beside({}, "storage_temp_degC", "storage_warmest_degC")
    for tank in ("stainless", "other_metal"):
        yield from beside({"permeate_tank": tank}, "permeate_stored_h", "permeate_stored_most_h")
