"""A formula gives the unit that it declares, with no factor left over."""

from fractions import Fraction

import pytest

from builder.formula.measures import Kind, Measure
from builder.formula.syntax import parse
from builder.formula.units import UnitAlgebra
from builder.spec.conversion import from_canonical
from builder.spec.load import find_specs, load_spec
from builder.spec.records import Place, Text, Unit
from builder.spec.rules_units import count_opt_outs

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
    "cold_degC": "degC",
    "warm_degF": "degF",
    "rise_gap_degC": "degC_gap",
    "today_d": "date",
    "begin_d": "date",
    "week_d": "d",
    "zero_K": "K",
    "mm3_per_L": "mm3/L",
    "mm2m_per_L": "mm2m/L",
    "g_per_kg": "g/kg",
    "pct_per_frac": "pct/1",
}


def lookup(name: str) -> Measure:
    return Kind.TEXT if name == "fill_rule" else ALGEBRA.measure(UNITS[name])


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
        ("wash_degC-cold_degC", "degC_gap"),
        ("2*ABS(wash_degC-cold_degC)-rise_gap_degC", "degC_gap"),
        ("MAX(wash_degC,rise_gap_degC+cold_degC)-rise_gap_degC/2", "degC"),
        ("IF(wash_degC>cold_degC,wash_degC,0)", "degC"),
        ("wash_degC+zero_K", "K"),
        ("(wash_degC-cold_degC)/rise_gap_degC", "n"),
        ("today_d-begin_d", "d"),
        ("begin_d+2*week_d", "date"),
        ("MIN(begin_d,today_d)", "date"),
        ("INDEX(fill_L,MATCH(bore_mm,bore_mm,0))", "L"),
        ('COUNT(fill_L)+COUNTIF(bore_mm,">0")+ROWS(fill_L)', "n"),
        ('COUNTIFS(fill_L,fill_L,bore_mm,">0")', "n"),
        ("TINV(part_frac,count_n)^2*share_pct", "pct"),
        ("SUMPRODUCT((fill_L>fill_L)*(bore_mm>0)*fill_L)", "L"),
        ("SUMPRODUCT(fill_L,share_pct)/pct_per_frac", "L"),
        ("SUMIF(bore_mm,bore_mm,fill_L)+LARGE(fill_L,1)-SMALL(fill_L,count_n)", "L"),
        ("LOOKUP(bore_mm,bore_mm,fill_L)", "L"),
        ('IFERROR(CHOOSE(count_n,fill_L,fill_L),"")', "L"),
        ("MAX(0,fill_L-fill_L)", "L"),
        ('IF(fill_rule="more",fill_L,0)', "L"),
        ('IF(fill_L>0,fill_L,"")', "L"),
        ("ROUNDUP(ROUND(fill_L/fill_L,count_n),0)", "n"),
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
        ("STDEV(fill_L)", "L", "the unit of STDEV is not worked out"),
        ("wash_degC-cold_degC", "degC", "formula gives Δ°C, unit says degC"),
        ("wash_degC", "degC_gap", "formula gives degC_point, unit says degC_gap"),
        ("ABS(wash_degC-cold_degC)", "degF_gap", "a factor 1.8 is missing for degF_gap"),
        ("wash_degC-warm_degF", "degC_gap", "- brings degC_point and degF_point together"),
        ("wash_degC+cold_degC", "degC", "+ adds two points of a scale; only gaps can be added"),
        ("rise_gap_degC-wash_degC", "degC", "- takes a point of a scale from a gap"),
        ("wash_degC*2", "degC", "* is given a point of a scale, degC_point"),
        ("-wash_degC", "degC", "a sign is given a point of a scale, degC_point"),
        ("SUM(wash_degC,cold_degC)", "degC", "SUM is given a point of a scale, degC_point"),
        ("wash_degC>rise_gap_degC", "n", "> brings degC_point and Δ°C together"),
        ("today_d-begin_d", "date", "formula gives d, unit says date"),
        ("today_d+fill_L", "date", "+ brings d and L together"),
        ("INDEX(fill_L,bore_mm)", "L", "INDEX needs a plain number, not mm"),
        ("MATCH(bore_mm,fill_L,0)", "n", "MATCH brings mm and L together"),
        ("MATCH(bore_mm)", "n", "MATCH has too few arguments"),
        ("COUNTIF(fill_L,1)", "n", "COUNTIF brings L and a plain number together"),
        ("COUNTIFS(fill_L,fill_L,bore_mm,1)", "n", "COUNTIF brings mm and a plain number together"),
        ("COUNTIFS(fill_L)", "n", "COUNTIF has too few arguments"),
        ("TINV(part_frac,fill_L)", "n", "TINV needs a plain number, not L"),
        ("SUMPRODUCT(fill_L,bore_mm)", "L", "formula gives L*mm, unit says L"),
        ("SUMPRODUCT(fill_L>fill_L)", "n", "* is given a comparison"),
        ("SUMPRODUCT((fill_L>bore_mm)*fill_L)", "L", "> brings L and mm together"),
        ("CHOOSE(count_n,fill_L,bore_mm)", "L", "CHOOSE brings L and mm together"),
        ("CHOOSE(fill_L,bore_mm)", "mm", "CHOOSE needs a plain number, not L"),
        ("LOOKUP(fill_L,bore_mm,count_n)", "n", "LOOKUP brings L and mm together"),
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
    assert ALGEBRA.check_kind(parse(formula), Kind.TRUTH, lookup) == why


def test_unit_that_the_library_does_not_know_is_named() -> None:
    place, words = Place("specs/units.toml", 1), Text({"en": "yd"})
    yard = Unit("yd", "length", Fraction(1), Fraction(0), "yd", "yarrd", words, {}, place)
    found = UnitAlgebra({"yd": yard}).check(parse("1"), "yd", lookup)
    assert found == "pint = 'yarrd' is no unit"


def test_a_margin_of_7_degC_is_12_6_degF_and_not_44_6() -> None:
    gap, seen = SPEC.units["degC_gap"], SPEC.units["degF_gap"]
    assert from_canonical(7.0, seen, gap) == pytest.approx(12.6, rel=1e-15)
    gaps = {"temp_gap_degC", "frost_gap_degC", "sugar_gap_degC", "temp_most_gap_degC"}
    assert {SPEC.quantities[name].unit for name in gaps} == {"degC_gap"}


def test_at_most_a_tenth_of_the_formulas_opts_out_of_the_unit_check() -> None:
    out, judged = count_opt_outs(SPEC)
    assert 0 < out <= judged / 10
