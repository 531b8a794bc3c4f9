"""What is in the cleaner: labels, ranges, the generic composition and the reading."""

import pytest
from periodictable import formula

from builder.reference import composition, doubt, ph
from tests.reference.washes import Wash

NAMES = ("naoh", "carbonate", "silicate", "edta")


@pytest.mark.parametrize(
    ("salt", "grams"),
    [
        ("NaOH", composition.NAOH_GPMOL),
        ("Na2CO3", composition.NA2CO3_GPMOL),
        ("Na2SiO3", composition.NA2SIO3_GPMOL),
        ("Na4C10H12N2O8", composition.NA4EDTA_GPMOL),
    ],
)
def test_molar_masses_agree_with_the_elements(salt: str, grams: float) -> None:
    assert grams == pytest.approx(formula(salt).mass, rel=3e-5)


def test_a_quarter_of_a_cleaner_of_four_molar_masses_is_a_mole() -> None:
    found = [
        getattr(composition, f"{name}_molpL")(2.0, 4.0 * grams, 25.0)
        for name, grams in zip(NAMES, composition.SALT_GPMOL, strict=True)
    ]
    assert found == pytest.approx([1.0] * 4, rel=1e-15)


def test_alkali_is_the_sodium_of_all_salts() -> None:
    found = composition.label_alkali_eqpL(0.1, 0.01, 0.002, 0.0003)
    assert found == pytest.approx(0.1252, rel=1e-15)


def test_what_is_known_of_a_cleaner_is_a_label_and_a_reading_with_its_temperature() -> None:
    none = (None, None, None, None)
    know = composition.composition_n
    assert [know(4.0, *none[1:], 12.3, 20.0), know(None, 0.0, None, None)] == [1.0, 2.0]
    assert [know(*none, 12.3, 20.0), know(*none, 12.3, None), know(*none)] == [3.0, 4.0, 4.0]
    assert know(4.0, *none[1:], None, 20.0) == 2.0


def test_a_range_counts_by_its_middle_and_no_label_by_the_generic_composition() -> None:
    use = composition.find_used_pct
    assert [use(1, 1.0, 10.0, 30.0), use(1, 2.0, 12.0, None), use(1, 2.0, None, 5.0)] == [20, 12, 5]
    assert use(1, 2.0, None, None) == 0.0
    assert [use(place, 3.0, None, None) for place in range(4)] == [4.0, 12.0, 5.0, 7.0]
    with pytest.raises(ValueError, match="has no composition"):
        use(0, 4.0, None, None)
    half = composition.find_half_pct
    assert [half(2.0, 10.0, 30.0), half(1.0, 30.0, 10.0), half(2.0, 10.0, None)] == [10, 10, 0]
    assert [half(3.0, 10.0, 30.0), half(2.0, None, 30.0)] == [0.0, 0.0]


def test_a_reading_of_the_wash_by_its_label_finds_the_label() -> None:
    # a label of 4/12/5/7 %, 16.38 g/L: the pH that the model gives it, read at another temperature
    case = dict(zip(NAMES, (4.0, 12.0, 5.0, 7.0), strict=True)) | {"strength": 16.38}
    made = Wash.by_label(case | {"wash_temp": 21.0})
    found = composition.fresh_alkali_eqpL(made.start, 21.0, *made.totals)
    assert found == pytest.approx(made.alkali, rel=1e-11)
    assert composition.acting_naoh_pct(found, *made.totals, 16.38) == pytest.approx(4.0, rel=1e-9)
    assert composition.label_share_pct(1.0, made.alkali, found) == pytest.approx(100.0)


def test_a_worked_reading_is_met() -> None:
    # worked for this project: 4/12/5/7 %, 16.38 g/L, 12.35 at 20 degC: A 0.076646, NaOH 3.44 %,
    # 97.1 % of the label; 11.78 at 38 degC
    case = dict(zip(NAMES, (4.0, 12.0, 5.0, 7.0), strict=True)) | {"strength": 16.38}
    read = Wash.by_reading(case | {"own_pH": 12.35, "own_temp": 20.0, "wash_temp": 38.0})
    label = Wash.by_label(case | {"wash_temp": 38.0}).alkali
    assert read.alkali == pytest.approx(0.076646, abs=6e-7)
    acting = composition.acting_naoh_pct(*read.stuff, 16.38)
    assert acting == pytest.approx(3.44, abs=0.005)
    share = composition.label_share_pct(1.0, label, read.alkali)
    assert share == pytest.approx(97.1, abs=0.05)
    assert read.start == pytest.approx(11.78, abs=0.005)


def test_bicarbonate_in_a_cleaner_acts_as_less_than_no_caustic() -> None:
    # 0.02 mol/L read as carbonate that holds 0.03 eq/L: half of it is bicarbonate
    pH = ph.wash_start_pH(0.03, 0.02, 0.0, 0.0, 25.0)
    alkali = composition.fresh_alkali_eqpL(pH, 25.0, 0.02, 0.0, 0.0)
    acting = composition.acting_naoh_pct(alkali, 0.02, 0.0, 0.0, 10.0)
    assert acting == pytest.approx(-100.0 * 39.997 * 0.01 / 10.0, rel=1e-9)


def test_a_reading_of_water_is_refused() -> None:
    with pytest.raises(ValueError, match="is water"):
        composition.fresh_alkali_eqpL(8.0, 20.0, 0.0, 0.0, 0.0)


def test_the_alkali_is_that_of_the_reading_and_never_of_a_label_instead() -> None:
    assert composition.alkali_eqpL(1.0, 0.08, 0.07) == 0.07
    assert composition.alkali_eqpL(2.0, 0.08) == 0.08
    for state in (1.0, 3.0, 4.0):
        with pytest.raises(ValueError, match="neither a reading nor a label"):
            composition.alkali_eqpL(state, 0.08)


def test_the_share_of_a_label_needs_a_label() -> None:
    for state, label in ((3.0, 0.08), (1.0, 0.0)):
        with pytest.raises(ValueError, match="needs a label"):
            composition.label_share_pct(state, label, 0.07)


@pytest.mark.parametrize(
    ("shares", "verdict"),
    [
        ((0.0, 0.0, 0.0, 0.0), "ok"),
        ((100.0, None, None, None), "ok"),
        ((100.0, 0.0, 0.0, 0.001), "stop"),
        ((2.2, 40.4, 52.2, 5.2), "ok"),  # more than 100 in binary, 100 on paper
        ((51.1, 39.2, 9.3, 0.4), "ok"),
    ],
)
def test_shares_make_up_a_hundred_per_cent_at_most(shares: tuple[float, ...], verdict: str) -> None:
    assert composition.composition_ok(2.0, *shares) == verdict


def test_a_reading_tells_its_temperature_and_fits_its_label() -> None:
    assert [composition.fresh_reading_ok(12.0, temp) for temp in (20.0, None)] == ["ok", "look"]
    found = [composition.fresh_share_ok(share) for share in (59.9, 60.0, 150.0, 150.1)]
    assert found == ["look", "ok", "ok", "look"]


def test_the_start_is_as_sure_as_its_reading_and_else_as_its_label() -> None:
    assert [doubt.wash_start_u_pH(0.07, 0.06), doubt.wash_start_u_pH(None, 0.06)] == [0.07, 0.06]
    with pytest.raises(ValueError, match="not read"):
        doubt.fresh_u_pH(2.0, 0.1, 2.0, -0.03, 20.0, 38.0)
