"""Saturation index of calcite against a geochemical code and its own closed form."""

import itertools
import math
import statistics

import pytest
from phreeqc import Phreeqc  # type: ignore[import-untyped]

from builder.reference.season_water import (
    saturation_index_n,
    saturation_ok,
    saturation_pH,
    water_bicarbonate_molpL,
    water_calcium_molpL,
    water_range_ok,
)
from builder.reference.water import activity_coefficient_n, log_kw_n

GRID = list(
    itertools.product(
        (2.0, 10.0, 25.0, 40.0),  # degC
        (6.5, 7.5, 8.0, 8.5),  # pH
        (300.0, 1000.0),  # mg/L
        (25.0, 80.0, 200.0),  # calcium, mg/L as CaCO3
        (20.0, 80.0, 200.0),  # alkalinity, mg/L as CaCO3
    )
)
EQUIVALENT_MGPEQ = 50043.5  # half the molar mass of CaCO3


@pytest.fixture(scope="module")
def code() -> Phreeqc:
    """Return the geochemical code with the database that ships with it."""
    engine = Phreeqc()
    engine.LoadBuiltInDatabase("phreeqc.dat")
    return engine


def salt_molpL(tds: float, calcium: float, alkalinity: float) -> float:
    """Return the NaCl that brings calcium and bicarbonate to the ionic strength of the TDS."""
    ca, alk = calcium / EQUIVALENT_MGPEQ / 2, alkalinity / EQUIVALENT_MGPEQ
    return (2 * 2.5e-5 * tds - 4 * ca - alk - abs(2 * ca - alk)) / 2


def code_index(engine: Phreeqc, row: tuple[float, ...]) -> float:
    """Return the calcite index of the code; sodium and chloride make up the rest of the TDS."""
    temp, pH, tds, calcium, alkalinity = row
    ca, alk = calcium / EQUIVALENT_MGPEQ / 2, alkalinity / EQUIVALENT_MGPEQ
    salt = salt_molpL(tds, calcium, alkalinity)
    sodium, chloride = salt + max(0.0, alk - 2 * ca), salt + max(0.0, 2 * ca - alk)
    text = f"""SOLUTION 1
 units mol/kgw
 temp {temp}
 pH {pH}
 Ca {ca!r}
 Na {sodium!r}
 Cl {chloride!r}
 Alkalinity {alk!r}
SELECTED_OUTPUT
 -reset false
 -saturation_indices Calcite
END
"""
    assert engine.RunString(text) == 0
    return float(engine.GetSelectedOutputValue(1, 0))


def test_index_agrees_with_the_geochemical_code_up_to_pH_8_5(code: Phreeqc) -> None:
    rows = [row for row in GRID if salt_molpL(*row[2:]) >= 0.0]
    errors = []
    for row in rows:
        temp, pH, *rest = row
        errors.append(abs(saturation_index_n(pH, temp, *rest) - code_index(code, row)))
    # found when written: max 0.046, median 0.008, 288 cases
    assert len(rows) == len(GRID)
    assert max(errors) <= 0.06
    assert statistics.median(errors) <= 0.01


@pytest.mark.parametrize(
    ("row", "value"),
    [  # an earlier spreadsheet of this project: degC, pH, TDS, calcium, alkalinity
        # found when written: 0.0002 to 0.0011 below, its Davies slope was not the one used here
        ((25.0, 7.5, 200.0, 100.0, 80.0), -0.3114),
        ((10.0, 7.8, 300.0, 150.0, 120.0), 0.0836),
        ((40.0, 9.5, 200.0, 100.0, 80.0), 1.6941),
    ],
)
def test_worked_rows_are_met(row: tuple[float, ...], value: float) -> None:
    temp, pH, *rest = row
    assert saturation_index_n(pH, temp, *rest) == pytest.approx(value, abs=0.0012)


def test_a_millimole_of_calcium_bicarbonate_has_its_known_index() -> None:
    # worked for this project: 1 mmol/L, 25 degC, pH 8.13: +0.45; PHREEQC +0.42; tolerance 0.05
    found = saturation_index_n(8.13, 25.0, 120.0, 100.087, 100.087)
    assert found == pytest.approx(0.45, abs=0.01)
    assert found == pytest.approx(0.42, abs=0.05)


@pytest.mark.parametrize("row", GRID[::7])
def test_speciation_agrees_with_the_closed_form_of_the_standard_method(
    row: tuple[float, ...],
) -> None:
    # Standard Methods 2330 B (from memory): pHs = pK2 - pKs + p[Ca] + p[HCO3] + 5 pf
    temp, pH, tds, calcium, alkalinity = row
    kelvin, alk = temp + 273.15, alkalinity / 50043.5
    lk2 = -107.8871 - 0.03252849 * kelvin + 5151.79 / kelvin
    lk2 += 38.92561 * math.log10(kelvin) - 563713.9 / kelvin**2
    lks = -171.9065 - 0.077993 * kelvin + 2839.319 / kelvin + 71.595 * math.log10(kelvin)
    g = activity_coefficient_n(2.5e-5 * tds, temp)
    water = 10 ** (log_kw_n(temp) + pH) / g - 10**-pH / g
    bicarbonate = (alk - water) / (1 + 2 * 10 ** (pH + lk2) / g**3)
    pHs = -lk2 + lks - math.log10(calcium / 100087) - math.log10(bicarbonate) - 5 * math.log10(g)
    ions = water_calcium_molpL(calcium), water_bicarbonate_molpL(pH, temp, tds, alkalinity)
    assert ions == pytest.approx((calcium / 100087, bicarbonate), rel=1e-12)
    assert saturation_pH(temp, tds, *ions) == pytest.approx(pHs, abs=1e-12)
    assert saturation_index_n(pH, temp, tds, calcium, alkalinity) == pytest.approx(
        pH - pHs, abs=1e-12
    )


def test_index_rises_with_pH_warmth_calcium_and_alkalinity() -> None:
    base = (7.5, 10.0, 300.0, 100.0, 80.0)
    for place, more in ((0, 8.0), (1, 20.0), (3, 150.0), (4, 120.0)):
        changed = [*base[:place], more, *base[place + 1 :]]
        assert saturation_index_n(*changed) > saturation_index_n(*base)


def test_hydroxide_alone_leaves_no_bicarbonate() -> None:
    with pytest.raises(ValueError, match=r"leaves no bicarbonate at pH 9\.5"):
        saturation_index_n(9.5, 25.0, 100.0, 100.0, 1.0)


def test_an_index_up_to_three_tenths_is_no_worry() -> None:
    assert saturation_ok(-1.0) == "ok"
    assert saturation_ok(0.1 + 0.2) == "ok"
    assert saturation_ok(0.31) == "look"


@pytest.mark.parametrize(
    ("row", "verdict"),
    [
        ((6.5, 2.0, 1000.0), "ok"),
        ((8.5, 40.0, 0.0), "ok"),
        ((6.4, 10.0, 200.0), "look"),
        ((8.6, 10.0, 200.0), "look"),
        ((7.5, 1.9, 200.0), "look"),
        ((7.5, 40.1, 200.0), "look"),
        ((7.5, 10.0, 1001.0), "look"),
    ],
)
def test_the_index_holds_in_its_range_only(row: tuple[float, ...], verdict: str) -> None:
    assert water_range_ok(*row) == verdict


def test_index_is_how_far_the_pH_lies_above_saturation() -> None:
    for temp, pH, tds, calcium, alkalinity in GRID[::5]:
        bicarbonate = water_bicarbonate_molpL(pH, temp, tds, alkalinity)
        above = pH - saturation_pH(temp, tds, water_calcium_molpL(calcium), bicarbonate)
        index = saturation_index_n(pH, temp, tds, calcium, alkalinity)
        assert above == pytest.approx(index, abs=1e-12)


def test_bicarbonate_agrees_with_the_geochemical_code(code: Phreeqc) -> None:
    # potassium, with which the code forms no pairs; found when written: 0.6 per cent at most
    for temp, pH, alkalinity in itertools.product((2.0, 25.0, 40.0), (6.5, 8.5), (20.0, 200.0)):
        alk = alkalinity / EQUIVALENT_MGPEQ
        text = f"""SOLUTION 1
 units mol/kgw
 temp {temp}
 pH {pH}
 K {2.5e-5 * 500.0!r}
 Cl {2.5e-5 * 500.0 - alk!r}
 Alkalinity {alk!r}
SELECTED_OUTPUT
 -reset false
 -molalities HCO3-
END
"""
        assert code.RunString(text) == 0
        found = water_bicarbonate_molpL(pH, temp, 500.0, alkalinity)
        assert found == pytest.approx(float(code.GetSelectedOutputValue(1, 0)), rel=0.01)


def test_water_without_calcium_or_bicarbonate_has_none_to_tell() -> None:
    with pytest.raises(ValueError, match=r"calcium_mgpLCaCO3 = 0\.0 mgpLCaCO3 lies outside"):
        water_calcium_molpL(0.0)
    with pytest.raises(ValueError, match=r"leaves no bicarbonate at pH 9\.5"):
        water_bicarbonate_molpL(9.5, 25.0, 100.0, 1.0)
    with pytest.raises(ValueError, match=r"leaves no bicarbonate at pH 7\.5"):
        water_bicarbonate_molpL(7.5, 25.0, 100.0, 0.0)
