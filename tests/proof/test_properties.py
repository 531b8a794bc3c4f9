"""Each property holds, and goes red at the first result that does not have it."""

from dataclasses import replace

import pytest

from builder.trial.cases import Case
from proof.properties import LANGUAGES, LAWS, refer, try_law
from proof.properties_sides import Workbook
from proof.properties_volumes import DOUBLED, HOLDUPS, KEPT, SIGNS
from proof.properties_words import MARGINS, Languages

FEW = 4
FOLLOW, DOUBLE, OWE, DOSE, MIRROR, UNITS = LAWS


@pytest.fixture(scope="module")
def languages(spec):
    return Languages(spec)


class Bent:
    """A side that tells a lie about one result."""

    def __init__(self, side, name, lie):
        self.side, self.name, self.lie = side, name, lie
        self.spec, self.locate = side.spec, side.locate

    def solve(self, case):
        values = dict(self.side.solve(case))
        return {**values, self.name: self.lie(values[self.name], case)}


def find_lie(law, spec, name, lie):
    """Return what a law says about a reference that lies about one result."""
    return try_law(law, Bent(refer(law, spec), name, lie), spec, FEW).faults


def misspell(spec, name, old, new):
    """Return the specs with another formula."""
    quantity = spec.quantities[name]
    assert old in quantity.formula
    wrong = replace(quantity, formula=quantity.formula.replace(old, new, 1))
    return replace(spec, quantities={**spec.quantities, name: wrong})


@pytest.mark.parametrize("law", LAWS, ids=lambda law: law.judge.__name__)
def test_the_reference_and_the_workbook_have_each_property(spec, languages, law):
    for side in (refer(law, spec), languages.english):
        trial = try_law(law, side, spec, FEW)
        assert (trial.tried, trial.faults) == (FEW, ())


def test_both_languages_agree(spec, languages):
    assert try_law(LANGUAGES, languages, spec, FEW).faults == ()


@pytest.mark.parametrize("holdup", HOLDUPS)
@pytest.mark.parametrize("dimension", SIGNS)
def test_a_hold_up_that_goes_the_wrong_way_with_a_dimension_is_found(spec, holdup, dimension):
    against = -1e7 * SIGNS[dimension] or 1.0
    found = find_lie(FOLLOW, spec, holdup, lambda v, case: v + against * case.given[dimension])
    assert [fault for fault in found if fault.startswith(holdup) and f" {dimension} " in fault]


@pytest.mark.parametrize("name", [*DOUBLED, *HOLDUPS, "rinse_by_elements_L"])
def test_what_does_not_double_with_the_vessels_is_found(spec, name):
    faults = find_lie(DOUBLE, spec, name, lambda v, case: v + case.given["vessels_n"] ** 2)
    assert [fault for fault in faults if fault.startswith(f"{name}, ")]


@pytest.mark.parametrize("name", KEPT)
def test_what_changes_with_the_vessels_and_should_not_is_found(spec, name):
    faults = find_lie(DOUBLE, spec, name, lambda v, case: v + case.given["vessels_n"])
    assert [fault for fault in faults if fault.startswith(f"{name}, ")]


@pytest.mark.parametrize("name", ["rinse_owed_L", "rinse_by_holdup_L", "rinse_by_elements_L"])
def test_a_rinse_below_its_rule_is_found(spec, name):
    faults = find_lie(OWE, spec, name, lambda v, _: 0.999 * v - 1)
    assert [fault.partition(",")[0] for fault in faults] == [name]


@pytest.mark.parametrize("name", ["cleaner_dose_kg", "cleaner_strength_gpL"])
def test_a_dose_that_is_not_the_recipe_for_each_element_is_found(spec, name):
    faults = find_lie(DOSE, spec, name, lambda v, _: 1.001 * v)
    assert {fault.partition(",")[0] for fault in faults} == {name}


@pytest.mark.parametrize("name", MARGINS)
def test_a_margin_that_does_not_move_with_its_limit_is_found(spec, name):
    limit = MARGINS[name][0]
    faults = find_lie(MIRROR, spec, name, lambda v, case: v - 0.01 * case.given[limit])
    assert f"{name}, " in faults[0]


def test_margins_of_one_limit_that_are_not_opposite_are_found(spec):
    faults = find_lie(MIRROR, spec, "start_floor_margin_pH", lambda v, _: v + 0.01)
    assert ["floor and ceiling the same" in fault for fault in faults] == [True]


def test_a_result_that_moves_with_the_typed_unit_is_found(spec):
    name = "holdup_geometry_L"
    faults = find_lie(UNITS, spec, name, lambda v, case: v * (1 + 1e-6) if case.units else v)
    assert [fault.partition(",")[0] for fault in faults] == [name]


def test_a_missing_number_is_found(spec):
    faults = find_lie(OWE, spec, "rinse_owed_L", lambda *_: None)
    assert faults == ("rinse_owed_L: found None, expected a number",)


@pytest.mark.parametrize(
    ("law", "name", "old", "new"),
    [
        (FOLLOW, "holdup_geometry_L", "+pipes_L", "-pipes_L"),
        (DOUBLE, "ends_L", "vessels_n*", ""),
        (OWE, "rinse_owed_L", "MAX", "MIN"),
        (DOSE, "cleaner_dose_kg", "elements_n*", "vessels_n*"),
        (MIRROR, "ceiling_margin_pH", "ceiling_pH-wash_start_pH", "wash_start_pH-ceiling_pH"),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)
def test_a_wrong_formula_in_the_workbook_is_found_with_its_cell(spec, law, name, old, new):
    workbook = Workbook(misspell(spec, name, old, new), "en")
    faults = try_law(law, workbook, spec, FEW).faults
    assert [fault for fault in faults if fault.startswith(f"{name}, {workbook.locate(name)}: ")]


def test_a_wrong_factor_of_a_unit_in_the_workbook_is_found(spec):
    inch = replace(spec.units["in"], factor=spec.units["in"].factor * 2)
    workbook = Workbook(replace(spec, units={**spec.units, "in": inch}), "en")
    workbook.spec = spec
    case = Case("inches", {"vessel_bore_mm": 203.2}, {}, {"vessel_bore_mm": "in"})
    faults = list(UNITS.judge(workbook, case))
    assert [fault for fault in faults if fault.startswith("vessels_water_L, Hold-up!")]


def test_a_french_formula_that_differs_is_found(spec, languages):
    wrong = misspell(spec, "ends_L", "vessels_n*", "2*")
    languages = replace_french(languages, Workbook(wrong, "fr"))
    faults = list(LANGUAGES.judge(languages, Case("three", {"vessels_n": 3.0})))
    assert [fault for fault in faults if fault.startswith("ends_L, Hold-up!")]


def test_a_french_word_that_is_not_that_of_the_english_one_is_found(spec, languages):
    swapped = replace(spec, words={**spec.words, "ok": spec.words["stop"]})
    languages = replace_french(languages, Workbook(swapped, "fr"))
    faults = list(LANGUAGES.judge(languages, Case("defaults")))
    assert [fault for fault in faults if fault.startswith("annulus_ok, Checks!")]


def replace_french(languages, french):
    """Return both languages with another French workbook."""
    changed = object.__new__(Languages)
    changed.__dict__ = {**languages.__dict__, "french": french}
    return changed
