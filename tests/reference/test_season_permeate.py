"""Clean-water test: temperature factors and flow, against tables and libraries."""

import math

import pytest
from chemicals.viscosity import mu_IAPWS  # type: ignore[import-untyped]
from iapws._iapws import _Liquid, _Viscosity  # type: ignore[import-untyped]

from builder.reference import season_permeate as permeate

TEMPS = [1.0, 5.0, 9.0, 12.78, 20.0, 25.0, 30.0, 45.0, 60.0]


@pytest.mark.parametrize(
    ("temp", "divisor"),
    [(10.0, 1.711), (15.0, 1.422), (20.0, 1.189)],  # trade chart, generic (second hand)
)
def test_two_branches_are_the_printed_divisors_of_one_chart(temp: float, divisor: float) -> None:
    # the chart took 298 and 273 for the kelvin: equal to 3 decimals then, 0.001 off with .15
    rounded = math.exp(3020.0 * (1.0 / 298.0 - 1.0 / (273.0 + temp)))
    assert 1.0 / rounded == pytest.approx(divisor, abs=5e-4)
    assert 1.0 / permeate.tcf_two_branch_n(temp) == pytest.approx(divisor, abs=1e-3)


@pytest.mark.parametrize(
    ("temp", "divisor", "excess"),
    [  # another trade chart, generic (second hand): it contradicts the first one
        (5.0, 2.58, 0.245),
        (10.0, 1.89, 0.105),
        (15.0, 1.47, 0.034),
        (20.0, 1.19, 0.001),
    ],
)
def test_another_chart_contradicts_it_by_a_quarter_at_5_degC(
    temp: float, divisor: float, excess: float
) -> None:
    assert divisor * permeate.tcf_two_branch_n(temp) - 1.0 == pytest.approx(excess, abs=0.005)


@pytest.mark.parametrize(
    ("temp", "value"),
    [  # derived from the two-branch form with 298 and 273 for the kelvin (no source)
        (2.0, 0.4284),
        (5.0, 0.4824),
        (7.0, 0.5213),
        (10.0, 0.5844),
        (12.78, 0.6483),
        (15.0, 0.7034),
        (20.0, 0.8412),
        (25.0, 1.0),
        (30.0, 1.1574),
        (40.0, 1.5289),
        (45.0, 1.7457),
    ],
)
def test_two_branches_meet_the_values_worked_with_rounded_kelvin(temp: float, value: float) -> None:
    assert permeate.tcf_two_branch_n(temp) == pytest.approx(value, rel=1e-3)


@pytest.mark.parametrize("temp", TEMPS)
def test_two_branches_agree_with_their_closed_form(temp: float) -> None:
    activation = 2640.0 if temp >= 25.0 else 3020.0
    closed = math.exp(activation * (1.0 / 298.15 - 1.0 / (273.15 + temp)))
    assert permeate.tcf_two_branch_n(temp) == pytest.approx(closed, rel=1e-13)


@pytest.mark.parametrize(("temp", "value"), [(5.0, 0.554), (10.0, 0.642), (20.0, 0.863)])
def test_three_per_cent_meets_its_worked_values(temp: float, value: float) -> None:
    # 1.03 to the power of t - 25: ASTM D4516 (from memory)
    assert permeate.tcf_percent_n(temp) == pytest.approx(value, abs=5e-4)
    assert permeate.tcf_percent_n(temp) == pytest.approx(1.03 ** (temp - 25.0), rel=1e-13)


@pytest.mark.parametrize("temp", TEMPS)
def test_viscosity_agrees_with_the_full_international_formulation(temp: float) -> None:
    # IAPWS 2008 through two libraries, saturated liquid near 1 bar; the short form is SR6-08
    kelvin, warm = temp + 273.15, 298.15
    density, density_25 = _Liquid(kelvin)["rho"], _Liquid(warm)["rho"]
    for viscosity in (
        _Viscosity(density_25, warm) / _Viscosity(density, kelvin),
        mu_IAPWS(warm, density_25) / mu_IAPWS(kelvin, density),
        _Liquid(warm)["mu"] / _Liquid(kelvin)["mu"],
    ):
        assert permeate.tcf_viscosity_n(temp) == pytest.approx(viscosity, rel=6e-5)


@pytest.mark.parametrize(
    ("temp", "mPas"),
    [(0, 1.7921), (5, 1.5188), (10, 1.3077), (15, 1.1404), (20, 1.0050), (30, 0.8007), (40, 0.656)],
)
def test_viscosity_agrees_with_an_old_printed_table(temp: int, mPas: float) -> None:
    # old table of a handbook of chemistry, 0.8937 at 25 degC (second hand): 0.4 per cent off
    assert permeate.tcf_viscosity_n(float(temp)) == pytest.approx(0.8937 / mPas, rel=0.005)


def test_the_three_forms_meet_at_25_degC_and_part_in_the_cold() -> None:
    forms = (permeate.tcf_two_branch_n, permeate.tcf_percent_n, permeate.tcf_viscosity_n)
    assert [form(25.0) for form in forms] == [1.0, 1.0, 1.0]
    # worked for this project, at 5 degC
    assert [round(form(5.0), 3) for form in forms] == [0.483, 0.554, 0.586]


def test_test_and_baseline_use_the_form_that_was_chosen() -> None:
    for name, choice in (("two_branch",) * 2, ("percent",) * 2, ("viscosity",) * 2):
        factor = getattr(permeate, f"tcf_{name}_n")
        three = [getattr(permeate, f"test_{n}_n")(7.0) for n in ("two_branch", "percent")]
        three.append(permeate.test_viscosity_n(7.0))
        assert permeate.test_tcf_n(choice, *three) == factor(7.0)
        assert permeate.baseline_tcf_n(choice, *three) == factor(7.0)
        assert getattr(permeate, f"baseline_{name}_n")(9.0) == factor(9.0)


def test_driving_pressure_of_a_worked_test_is_met() -> None:
    # worked for this project: 17, 16 and 0.3 bar, without the osmotic 0.05 bar: 16.15 + 0.05
    assert permeate.test_ndp_bar(17.0, 16.0, 0.3) == pytest.approx(16.2)
    assert permeate.baseline_ndp_bar(17.0, 16.0, 0.3) == pytest.approx(16.2)


@pytest.mark.parametrize("permeate_bar", [0.3, 0.30000000000000004, 5.0])
def test_without_driving_pressure_there_is_no_test(permeate_bar: float) -> None:
    with pytest.raises(ValueError, match=r"is not below the mean of 0\.3 bar"):
        permeate.test_ndp_bar(0.1, 0.5, permeate_bar)


def test_corrected_flow_of_a_worked_test_is_met() -> None:
    # worked for this project: 12 m3/h, 8 degC, 16.15 bar, brought to 12 degC and 15 bar by the cold
    # branch: factor 0.86012, flow 12.9580
    test, baseline = permeate.tcf_two_branch_n(8.0), permeate.tcf_two_branch_n(12.0)
    assert test / baseline == pytest.approx(0.86012, abs=6e-6)
    corrected = permeate.corrected_flow_Lph(12000.0, test, baseline, 16.15, 15.0)
    assert corrected == pytest.approx(12958.0, abs=0.06)


def test_a_test_at_baseline_conditions_needs_no_correction() -> None:
    factors = [permeate.tcf_two_branch_n(9.0), permeate.tcf_percent_n(9.0)]
    factors.append(permeate.tcf_viscosity_n(9.0))
    assert permeate.corrected_flow_Lph(1234.5, factors[0], factors[0], 16.2, 16.2) == 1234.5
    assert permeate.flow_spread_pct(1234.5, 16.2, 16.2, 1500.0, *factors, *factors) == 0.0
    assert permeate.flow_pct(1500.0, 1500.0) == 100.0


def test_a_membrane_with_the_permeability_of_the_baseline_shows_full_flow() -> None:
    # a flow made up from the viscosity and the pressure comes back as 100 per cent
    flow = 1500.0 * permeate.tcf_viscosity_n(4.0) / permeate.tcf_viscosity_n(9.0) * 14.0 / 16.2
    corrected = permeate.corrected_flow_Lph(
        flow, permeate.test_viscosity_n(4.0), permeate.baseline_viscosity_n(9.0), 14.0, 16.2
    )
    assert permeate.flow_pct(corrected, 1500.0) == pytest.approx(100.0, rel=1e-13)


def test_spread_is_a_few_per_cent_near_the_baseline_and_grows_with_the_gap() -> None:
    def spread(temp: float) -> float:
        test = [getattr(permeate, f"test_{n}_n")(temp) for n in ("two_branch", "percent")]
        base = [getattr(permeate, f"baseline_{n}_n")(13.0) for n in ("two_branch", "percent")]
        test.append(permeate.test_viscosity_n(temp))
        base.append(permeate.baseline_viscosity_n(13.0))
        return permeate.flow_spread_pct(1200.0, 16.2, 16.2, 1500.0, *test, *base)

    # worked for this project: at 5 degC against 13 degC the factors are 0.738 to 0.791
    assert spread(5.0) == pytest.approx(80.0 * (1 / 0.738 - 1 / 0.791), abs=0.2)
    assert spread(13.0) < spread(10.0) < spread(5.0)


def test_gap_counts_in_both_directions_and_its_limit_is_within() -> None:
    assert permeate.temp_gap_degC(7.0, 9.0) == permeate.temp_gap_degC(9.0, 7.0) == 2.0
    assert permeate.temp_gap_ok(permeate.temp_gap_degC(12.1, 9.1), 3.0) == "ok"
    assert permeate.temp_gap_ok(permeate.temp_gap_degC(9.2, 12.2), 3.0) == "ok"
    assert permeate.temp_gap_ok(3.1, 3.0) == "look"


@pytest.mark.parametrize(
    ("share", "verdict"),
    [(100.0, "ok"), (88.0, "ok"), (87.9, "look"), (70.0, "look"), (69.9, "stop"), (0.0, "stop")],
)
def test_flow_calls_for_a_wash_and_then_for_a_stop(share: float, verdict: str) -> None:
    # 88 and 70 per cent: common practice, no source
    assert permeate.flow_ok(share, 88.0, 70.0) == verdict
    assert permeate.flow_ok(math.nextafter(88.0, 0.0), 88.0, 70.0) == "ok"


@pytest.mark.parametrize("temp", TEMPS)
def test_viscosity_agrees_with_two_libraries(temp: float) -> None:
    # IAPWS: at 0.1 MPa in one library, at the density of the liquid in the other
    for name in ("test", "baseline"):
        viscosity = getattr(permeate, f"{name}_water_uPas")(temp)
        reduced = getattr(permeate, f"{name}_tr_n")(temp)
        kelvin, liquid = reduced * 300.0, _Liquid(reduced * 300.0)
        assert kelvin == pytest.approx(temp + 273.15, rel=1e-15)
        assert viscosity == pytest.approx(liquid["mu"] * 1e6, rel=1e-9)
        assert viscosity == pytest.approx(mu_IAPWS(kelvin, liquid["rho"]) * 1e6, rel=1e-4)


def test_the_stored_viscosity_is_that_of_25_degC() -> None:
    # 890.02 uPa s: IAPWS R12-08, 298.15 K and 0.1 MPa (from memory)
    stored = permeate.WATER_25_UPAS
    assert stored == pytest.approx(permeate.test_water_uPas(25.0), rel=1e-14)
    assert stored == pytest.approx(890.02, abs=0.05)
    for temp in (4.0, 25.0, 40.0):
        factor = stored / permeate.baseline_water_uPas(temp)
        assert factor == pytest.approx(permeate.tcf_viscosity_n(temp), rel=1e-13)


@pytest.mark.parametrize("choice", ["two_branch", "percent", "viscosity"])
def test_flow_corrected_in_two_steps_is_the_flow_corrected_at_once(choice: str) -> None:
    test = getattr(permeate, f"test_{choice}_n")(5.0)
    base = getattr(permeate, f"baseline_{choice}_n")(13.0)
    pressure = permeate.flow_pressure_pct(1200.0, 1500.0, 16.2, 15.0)
    corrected = permeate.corrected_flow_Lph(1200.0, test, base, 15.0, 16.2)
    found = getattr(permeate, f"flow_{choice}_pct")(pressure, base, test)
    assert pressure == pytest.approx(80.0 * 16.2 / 15.0, rel=1e-14)
    assert found == pytest.approx(permeate.flow_pct(corrected, 1500.0), rel=1e-14)


def test_flow_for_each_bar_does_not_depend_on_the_pressure_of_the_test() -> None:
    for bar in (5.0, 16.2, 30.0):
        share = permeate.flow_pressure_pct(75.0 * bar, 1500.0, 16.2, bar)
        assert share == pytest.approx(100.0 * 75.0 * 16.2 / 1500.0, rel=1e-14)
    with pytest.raises(ValueError, match=r"test_ndp_bar = 0\.0 bar lies outside"):
        permeate.flow_pressure_pct(1200.0, 1500.0, 16.2, 0.0)


def test_the_spread_is_that_of_the_three_shares() -> None:
    names = ("two_branch", "percent", "viscosity")
    test = [getattr(permeate, f"test_{n}_n")(4.0) for n in names]
    base = [getattr(permeate, f"baseline_{n}_n")(12.0) for n in names]
    pressure = permeate.flow_pressure_pct(1200.0, 1500.0, 16.2, 15.0)
    shares = sorted(
        getattr(permeate, f"flow_{n}_pct")(pressure, b, t)
        for n, b, t in zip(names, base, test, strict=True)
    )
    spread = permeate.flow_spread_pct(1200.0, 15.0, 16.2, 1500.0, *test, *base)
    assert spread == pytest.approx(shares[-1] - shares[0], rel=1e-12)
