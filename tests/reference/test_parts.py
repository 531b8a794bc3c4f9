"""Sums and steps between the main quantities, against hand figures and another code."""

import itertools
import math
import re

import pytest
from phreeqc import Phreeqc

from builder.reference import equilibrium, holdup, parts, uncertainty, wash

from .machine import BASE

INSIDE = ("annulus_L", "feed_channel_L", "permeate_channel_L", "core_tubes_L")
OUTSIDE = ("filter_housings_L", "pumps_L", "other_holdup_L")
WASHES = [  # NaOH, Na2CO3, Na2SiO3 in mol/L
    (0.01, 0.0, 0.0),
    (0.0, 0.01, 0.0),
    (0.0, 0.1, 0.0),
    (0.012, 0.002, 0.001),
    (0.03, 0.01, 0.002),
    (0.1, 0.05, 0.02),
]


@pytest.fixture(scope="module")
def code() -> Phreeqc:
    """Return the geochemical code with the database that ships with it."""
    engine = Phreeqc()
    engine.LoadBuiltInDatabase("phreeqc.dat")
    return engine


def code_ionic(engine: Phreeqc, temp: float, carbonate: float, silicate: float, na: float) -> float:
    """Return the ionic strength of the code for totals in mol/kg."""
    lines = [f"SOLUTION 1\n pH 11 charge\n temp {temp}\n units mol/kgw\n Na {na!r}"]
    lines += [f" C(4) {carbonate!r}"] if carbonate else []
    lines += [f" Si {silicate!r}"] if silicate else []
    lines += ["SELECTED_OUTPUT\n -reset false\n -ionic_strength true\nEND\n"]
    assert engine.RunString("\n".join(lines)) == 0
    return float(engine.GetSelectedOutputValue(1, 0))


def test_membrane_side_pipes_and_elsewhere_make_the_whole_holdup() -> None:
    inside = [BASE[n] for n in INSIDE]
    outside = [BASE[n] for n in OUTSIDE]
    whole = holdup.holdup_geometry_L(*inside, BASE["ends_L"], BASE["pipes_L"], *outside)
    side = parts.membrane_side_L(*inside, BASE["ends_L"])
    elsewhere = parts.elsewhere_L(*outside)
    assert side + BASE["pipes_L"] + elsewhere == pytest.approx(whole, rel=1e-15)
    assert (side, elsewhere) == (86.1, 11.0)  # 13 + 57 + 9 + 2.1 + 5; 6 + 4 + 1


def test_dimensions_that_cannot_be_still_add_up() -> None:
    assert parts.membrane_side_L(-3.0, 2.0, 0.0, 0.0, 0.0) == -1.0  # annulus_ok says stop


def test_leaf_section_is_half_the_area_over_the_length_times_a_turn() -> None:
    # 37 m2 on 1 m: leaves 18.5 m long; a turn is 0.8 + 0.25 + 2 x 0.15 = 1.35 mm
    assert parts.leaf_section_mm2(37.0, 1000.0, 0.8, 0.25, 0.15) == pytest.approx(24975.0)


@pytest.mark.parametrize("area", [2.6, 7.9, 37.0])
@pytest.mark.parametrize("tube", [0.0, 29.0])
def test_leaf_section_is_the_ring_between_core_tube_and_wound_diameter(
    area: float, tube: float
) -> None:
    leaf = (area, 1016.0, 0.8636, 0.25, 0.15)
    wound = holdup.wound_diameter_mm(tube, *leaf)
    ring = math.pi / 4.0 * (wound - tube) * (wound + tube)
    assert parts.leaf_section_mm2(*leaf) == pytest.approx(ring, rel=1e-12)


def test_uncertain_parts_add_at_right_angles() -> None:
    assert parts.vessels_u_L(2.0, 3.0, 6.0) == 7.0  # 4 + 9 + 36 = 49
    assert parts.leaves_u_L(1.0, 2.0, 2.0, 4.0, 0.0) == 5.0
    assert parts.elements_u_L(1.0, 1.0, 1.0, 1.0, 1.0, 1.0, 1.0, 3.0) == 4.0  # 7 + 9 = 16
    assert parts.vessels_u_L(0.0, 0.0, 0.0) == 0.0


@pytest.mark.parametrize("place", range(8))
def test_every_part_of_the_elements_counts_alone(place: int) -> None:
    alone = [0.0] * 8
    alone[place] = 2.5
    assert parts.elements_u_L(*alone) == 2.5


def test_vessels_and_elements_and_the_rest_make_the_whole_uncertainty() -> None:
    bore, length, ends, pipe_bore, pipe_length, elsewhere = 1.0, 0.7, 0.9, 0.3, 0.2, 2.2
    wound = (0.4, 0.1, 1.7, 1.1, 1.9, 0.5, 1.3, 0.05)
    whole = uncertainty.holdup_geometry_u_L(
        bore, length, *wound, ends, pipe_bore, pipe_length, elsewhere
    )
    vessels, elements = parts.vessels_u_L(bore, length, ends), parts.elements_u_L(*wound)
    assert math.hypot(vessels, elements, pipe_bore, pipe_length, elsewhere) == pytest.approx(whole)


def test_first_estimate_of_plain_salts_is_their_textbook_ionic_strength() -> None:
    # 1:1 salt c; 2:1 salt 3 c; 4:1 salt 10 c (definition of ionic strength)
    assert parts.guess_ionic_molpL(0.01, 0.0, 0.0) == pytest.approx(0.01)
    assert parts.guess_ionic_molpL(2 * 0.01, 0.01, 0.0) == pytest.approx(0.03)
    assert parts.guess_ionic_molpL(4 * 0.01, 0.0, 0.01) == pytest.approx(0.10)
    assert parts.guess_ionic_molpL(0.1, 0.02, 0.003) == pytest.approx(0.138)  # 0.1 + 0.02 + 0.018


def test_first_estimate_stops_at_half_a_mole() -> None:
    assert parts.guess_ionic_molpL(0.499, 0.0, 0.0) == pytest.approx(0.499)
    assert parts.guess_ionic_molpL(0.3, 0.1, 0.1) == 0.5
    assert parts.guess_ionic_molpL(300.0, 20.0, 20.0) == 0.5


def test_ionic_strength_of_caustic_is_its_sodium() -> None:
    # Na = OH - H, so half the sum is Na + H; H is below 1e-10
    for sodium in (0.001, 0.01, 0.1, 0.4):
        found = parts.wash_ionic_molpL(sodium, 0.0, 0.0, 0.0, 40.0)
        assert found == pytest.approx(sodium, abs=1e-10)


def test_ionic_strength_agrees_with_the_geochemical_code(code: Phreeqc) -> None:
    # the code's own activity formula and sodium silicate pairs differ: 0.2 % mixed, 0.8 % hot soda
    for temp, (naoh, carbonate, silicate) in itertools.product((5.0, 25.0, 45.0, 60.0), WASHES):
        sodium = wash.alkali_eqpL(naoh, carbonate, silicate, 0.0)
        found = parts.wash_ionic_molpL(sodium, carbonate, silicate, 0.0, temp)
        wanted = code_ionic(code, temp, carbonate, silicate, sodium)
        assert found == pytest.approx(wanted, rel=0.002 if naoh else 0.008)


@pytest.mark.parametrize("temp", [1.0, 40.0, 60.0])
@pytest.mark.parametrize(("naoh", "soda"), [(0.0, 0.01), (0.05, 0.02), (0.0, 0.1)])
def test_ionic_strength_of_soda_follows_from_its_mean_charge(
    naoh: float, soda: float, temp: float
) -> None:
    # caustic of the same ionic strength and pH has the same OH; what is left of the alkali is
    # the charge on HCO3 and CO3, which says how much is CO3 (CO2 is below 1e-4 of it)
    alkali = naoh + 2.0 * soda
    pH = equilibrium.solve_pH(alkali, soda, 0.0, 0.0, alkali, temp)
    strength = parts.wash_ionic_molpL(alkali, soda, 0.0, 0.0, temp)
    hydroxide = equilibrium.need_eqpL(pH, temp, 0.0, 0.0, 0.0, strength)
    double = (alkali - hydroxide) / soda - 1.0
    by_hand = 0.5 * (alkali + hydroxide + soda * (1.0 + 3.0 * double))
    assert strength == pytest.approx(by_hand, rel=1e-5)


def test_a_strong_wash_is_clamped_where_the_model_ends() -> None:
    assert parts.wash_ionic_molpL(0.6, 0.0, 0.0, 0.0, 40.0) == 0.5
    assert 0.49 < parts.wash_ionic_molpL(0.499, 0.0, 0.0, 0.0, 40.0) < 0.5


def test_first_estimate_is_near_where_little_is_protonated() -> None:
    alkali = wash.alkali_eqpL(0.05, 0.01, 0.004, 0.001)
    found = parts.wash_ionic_molpL(alkali, 0.01, 0.004, 0.001, 40.0)
    assert parts.guess_ionic_molpL(alkali, 0.01, 0.001) == pytest.approx(found, rel=0.05)


def test_the_reference_leaves_no_step() -> None:
    assert parts.last_step_pH(0.0815, 0.02, 0.009, 0.003, 40.0) == 0.0


def test_a_reading_without_temperature_counts_at_the_wash_temperature() -> None:
    assert parts.end_reading_degC(40.0, 20.0) == 20.0
    assert parts.end_reading_degC(40.0, None) == 40.0
    assert parts.end_reading_degC(40.0) == 40.0


@pytest.mark.parametrize("name", ["guess_ionic_molpL", "wash_ionic_molpL", "last_step_pH"])
@pytest.mark.parametrize("alkali", [0.0, -0.01])
def test_without_alkali_there_is_no_wash(name: str, alkali: float) -> None:
    rest = [0.02, 0.003] if name.startswith("guess") else [0.02, 0.009, 0.003, 40.0]
    text = f"alkali_eqpL = {alkali} eqpL lies outside 1e-05 to 300 eqpL"
    with pytest.raises(ValueError, match="^" + re.escape(text) + "$"):
        getattr(parts, name)(alkali, *rest)


CALLS = {
    "membrane_side_L": "annulus_L feed_channel_L permeate_channel_L core_tubes_L ends_L",
    "elsewhere_L": "filter_housings_L pumps_L other_holdup_L",
    "leaf_section_mm2": """element_area_m2 element_length_mm feed_spacer_mm permeate_carrier_mm
        membrane_thickness_mm""",
    "vessels_u_L": "vessel_bore_part_u_L vessel_length_part_u_L ends_part_u_L",
    "elements_u_L": """element_diameter_part_u_L element_length_part_u_L element_area_part_u_L
        feed_spacer_part_u_L feed_porosity_part_u_L permeate_carrier_part_u_L
        permeate_porosity_part_u_L core_tube_part_u_L""",
    "guess_ionic_molpL": "alkali_eqpL carbonate_molpL edta_molpL",
    "end_reading_degC": "wash_temp_degC end_temp_degC",
    "wash_ionic_molpL": """alkali_eqpL carbonate_molpL silicate_molpL edta_molpL
        wash_temp_degC""",
    "last_step_pH": "alkali_eqpL carbonate_molpL silicate_molpL edta_molpL wash_temp_degC",
}


@pytest.mark.parametrize("name", CALLS)
@pytest.mark.parametrize("wrong", [math.nan, math.inf, -1e12, True, "1"])
def test_what_is_no_sensible_number_is_refused_by_name(name: str, wrong: object) -> None:
    for parameter in CALLS[name].split():
        arguments = {key: BASE[key] for key in CALLS[name].split()} | {parameter: wrong}
        with pytest.raises(ValueError, match=re.escape(f"{parameter} = {wrong} ")):
            getattr(parts, name)(**arguments)
