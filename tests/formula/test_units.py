"""A formula gives the unit that it declares, with no factor left over."""

from fractions import Fraction

import pytest

from builder.formula.syntax import parse
from builder.formula.units import Kind, UnitAlgebra
from builder.spec.load import find_specs, load_spec
from builder.spec.records import Place, Text, Unit

SPEC = load_spec(find_specs())
ALGEBRA = UnitAlgebra(SPEC.units)
UNITS = {
    "bore_mm": "mm",
    "length_m": "m",
    "area_m2": "m2",
    "fill_L": "L",
    "flow_Lph": "L/h",
    "time_h": "h",
    "dose_kg": "kg",
    "strength_gpL": "g/L",
    "share_pct": "pct",
    "part_frac": "frac",
    "count_n": "n",
    "wash_degC": "degC",
    "zero_K": "K",
    "mm3_per_L": "mm3/L",
    "mm2m_per_L": "mm2m/L",
    "g_per_kg": "g/kg",
    "pct_per_frac": "pct/1",
}


def lookup(name: str) -> str | Kind:
    return Kind.TEXT if name == "fill_rule" else UNITS[name]


@pytest.mark.parametrize(
    ("formula", "unit"),
    [
        ("PI()/4*bore_mm^2*bore_mm/mm3_per_L", "L"),
        ("PI()/4*bore_mm^2*length_m/mm2m_per_L", "L"),
        ("area_m2/2*bore_mm*part_frac", "L"),
        ("flow_Lph*time_h", "L"),
        ("fill_L/flow_Lph", "h"),
        ("dose_kg*g_per_kg/fill_L", "g/L"),
        ("pct_per_frac*(1-fill_L/fill_L)", "pct"),
        ("fill_L*share_pct/pct_per_frac", "L"),
        ("SQRT(SUMSQ(fill_L,fill_L)+fill_L^2)", "L"),
        ("MAX(0,fill_L-fill_L)", "L"),
        ('IF(fill_rule="more",fill_L,0)', "L"),
        ('IF(fill_L>0,fill_L,"")', "L"),
        ("ROUNDUP(ROUND(fill_L/fill_L,count_n),0)", "n"),
        ("wash_degC+zero_K", "K"),
        ("count_n*LOG10(EXP(1))", "n"),
        ("ABS(-bore_mm)", "mm"),
        ("bore_mm^-2*fill_L*mm3_per_L", "mm"),
        ("0", "L"),
    ],
)
def test_right_formula_has_its_unit(formula: str, unit: str) -> None:
    assert ALGEBRA.check(parse(formula), unit, lookup) == ""


@pytest.mark.parametrize(
    ("formula", "unit", "why"),
    [
        ("PI()/4*bore_mm^2*bore_mm", "L", "a factor 1e-06 is missing for L"),
        ("bore_mm*fill_L", "L", "formula gives L*mm, unit says L"),
        ("bore_mm+length_m", "mm", "+ brings mm and m together"),
        ("MAX(bore_mm,fill_L)", "mm", "MAX brings mm and L together"),
        ("1-share_pct", "pct", "- brings a plain number and pct together"),
        ("share_pct", "frac", "a factor 0.01 is missing for frac"),
        ("LOG10(bore_mm)", "n", "LOG10 needs a plain number, not mm"),
        ("bore_mm^count_n", "mm", "raises mm to a power that is not a fixed number"),
        ("bore_mm>length_m", "n", "> brings mm and m together"),
        ("bore_mm>1", "n", "> brings mm and a plain number together"),
        ("fill_L>fill_L", "n", "formula gives a comparison, unit says n"),
        ("fill_rule*2", "n", "* is given a text"),
        ('fill_rule="more"', "n", "formula gives a comparison, unit says n"),
        ("IF(fill_L,1,0)", "n", "IF needs a comparison, not L"),
        ("IF(fill_L>0,fill_L,bore_mm)", "L", "IF brings L and mm together"),
        ("(fill_L>0)*1", "n", "* is given a comparison"),
        ("fill_L/0", "L", "divides by 0"),
        ("INDEX(fill_L,1)", "L", "the unit of INDEX is not worked out"),
    ],
)
def test_wrong_formula_is_told_why(formula: str, unit: str, why: str) -> None:
    assert ALGEBRA.check(parse(formula), unit, lookup) == why


@pytest.mark.parametrize(
    ("formula", "why"),
    [
        ("AND(fill_L>0,bore_mm<=bore_mm)", ""),
        ('fill_rule="more"', ""),
        ("fill_L", "formula gives L, not a comparison"),
        ("AND(fill_L,bore_mm>0)", "AND needs a comparison, not L"),
        ("fill_L<bore_mm", "< brings L and mm together"),
    ],
)
def test_condition_compares_like_with_like(formula: str, why: str) -> None:
    assert ALGEBRA.check_truth(parse(formula), lookup) == why


def test_unit_that_the_library_does_not_know_is_named() -> None:
    place, words = Place("specs/units.toml", 1), Text({"en": "yd"})
    yard = Unit("yd", "length", Fraction(1), Fraction(0), "yd", "yarrd", words, {}, place)
    found = UnitAlgebra({"yd": yard}).check(parse("1"), "yd", lookup)
    assert found == "pint = 'yarrd' is no unit"
