"""Saturation index of calcite against a geochemical code and worked waters."""

import itertools
import statistics

import pytest
from phreeqc import Phreeqc  # type: ignore[import-untyped]

from builder.reference import supply

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
Row = tuple[float, float, float, float, float]


@pytest.fixture(scope="module")
def code() -> Phreeqc:
    """Return the geochemical code with the database that ships with it."""
    engine = Phreeqc()
    engine.LoadBuiltInDatabase("phreeqc.dat")
    return engine


def ask(engine: Phreeqc, temp: float, pH: float, molpL: dict[str, float], output: str) -> float:
    """Return one output of the code for a water of the given totals, in mol/kg."""
    totals = "\n".join(f" {ion} {amount!r}" for ion, amount in molpL.items())
    head = f"SOLUTION 1\n units mol/kgw\n temp {temp}\n pH {pH}\n{totals}\n"
    assert engine.RunString(f"{head}SELECTED_OUTPUT\n -reset false\n {output}\nEND\n") == 0
    return float(engine.GetSelectedOutputValue(1, 0))


def code_index(engine: Phreeqc, row: Row) -> float:
    """Return the calcite index of the code; sodium and chloride make up the rest of the TDS."""
    temp, pH, tds, calcium, alkalinity = row
    ca, alk = calcium / EQUIVALENT_MGPEQ / 2, alkalinity / EQUIVALENT_MGPEQ
    salt = (2 * 2.5e-5 * tds - 4 * ca - alk - abs(2 * ca - alk)) / 2
    assert salt >= 0.0
    sodium, chloride = salt + max(0.0, alk - 2 * ca), salt + max(0.0, 2 * ca - alk)
    totals = {"Ca": ca, "Na": sodium, "Cl": chloride, "Alkalinity": alk}
    return ask(engine, temp, pH, totals, "-saturation_indices Calcite")


def index(row: Row) -> float:
    """Return our index; the grid has the temperature first."""
    temp, pH, *rest = row
    return supply.saturation_index_n(pH, temp, *rest)


def test_index_agrees_with_the_geochemical_code_up_to_pH_8_5(code: Phreeqc) -> None:
    errors = [abs(index(row) - code_index(code, row)) for row in GRID]
    # found when written: max 0.046, median 0.008, 288 cases
    assert max(errors) <= 0.06
    assert statistics.median(errors) <= 0.01


def test_bicarbonate_agrees_with_the_geochemical_code(code: Phreeqc) -> None:
    # potassium, with which the code forms no pairs; found when written: 0.6 per cent at most
    for temp, pH, alkalinity in itertools.product((2.0, 25.0, 40.0), (6.5, 8.5), (20.0, 200.0)):
        alk, salt = alkalinity / EQUIVALENT_MGPEQ, 2.5e-5 * 500.0
        totals = {"K": salt, "Cl": salt - alk, "Alkalinity": alk}
        expected = ask(code, temp, pH, totals, "-molalities HCO3-")
        found = supply.water_bicarbonate_molpL(pH, temp, 500.0, alkalinity)
        assert found == pytest.approx(expected, rel=0.01)


@pytest.mark.parametrize(
    ("row", "value"),
    [  # an earlier spreadsheet of this project: degC, pH, TDS, calcium, alkalinity
        # found when written: 0.0002 to 0.0011 below, its Davies slope was not the one used here
        ((25.0, 7.5, 200.0, 100.0, 80.0), -0.3114),
        ((10.0, 7.8, 300.0, 150.0, 120.0), 0.0836),
        ((40.0, 9.5, 200.0, 100.0, 80.0), 1.6941),
    ],
)
def test_worked_rows_are_met(row: Row, value: float) -> None:
    assert index(row) == pytest.approx(value, abs=0.0012)


def test_a_millimole_of_calcium_bicarbonate_has_its_known_index() -> None:
    # worked for this project: 1 mmol/L, 25 degC, pH 8.13: +0.45; PHREEQC +0.42; tolerance 0.05
    found = index((25.0, 8.13, 120.0, 100.087, 100.087))
    assert found == pytest.approx(0.45, abs=0.01)
    assert found == pytest.approx(0.42, abs=0.05)


def test_index_is_how_far_the_pH_lies_above_saturation() -> None:
    for temp, pH, tds, calcium, alkalinity in GRID[::5]:
        bicarbonate = supply.water_bicarbonate_molpL(pH, temp, tds, alkalinity)
        ions = supply.water_calcium_molpL(calcium), bicarbonate
        above = pH - supply.saturation_pH(temp, tds, *ions)
        assert above == pytest.approx(index((temp, pH, tds, calcium, alkalinity)), abs=1e-12)


def test_index_rises_with_warmth_pH_calcium_and_alkalinity() -> None:
    base = (10.0, 7.5, 300.0, 100.0, 80.0)
    for place, more in ((0, 20.0), (1, 8.0), (3, 150.0), (4, 120.0)):
        assert index((*base[:place], more, *base[place + 1 :])) > index(base)


def test_water_without_calcium_or_bicarbonate_has_no_index() -> None:
    with pytest.raises(ValueError, match="without calcium"):
        index((10.0, 7.5, 100.0, 0.0, 80.0))
    with pytest.raises(ValueError, match="leaves no bicarbonate"):  # hydroxide alone explains it
        index((25.0, 9.5, 100.0, 100.0, 1.0))
    with pytest.raises(ValueError, match="leaves no bicarbonate"):
        supply.water_bicarbonate_molpL(7.5, 25.0, 100.0, 0.0)


def test_an_index_up_to_three_tenths_is_no_worry() -> None:
    verdicts = [supply.saturation_ok(value) for value in (-1.0, 0.1 + 0.2, 0.31)]
    assert verdicts == ["ok", "ok", "look"]


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
def test_the_index_holds_in_its_range_only(row: tuple[float, float, float], verdict: str) -> None:
    assert supply.water_range_ok(*row) == verdict
