"""The oracle of the passes to the pH sees a wrong guess, slope, bound or ionic strength."""

import pytest
from workbook.cases import Case

from proof.coverage_cells import compare
from proof.coverage_passes import BY
from proof.coverage_scene import make_ground
from proof.coverage_trial import Trial

END = {"end_pH": 10.9, "end_temp_degC": 15.0}


@pytest.fixture(scope="module")
def wanted(spec, bench):
    found = Trial(Case("end", END)).want(make_ground(spec, bench.file, "en"))
    return {cell: want for cell, want in found.items() if want.by == BY}


def compare_after(bench, spec, change, wanted):
    """Return the differences in the passes while one cell holds another formula."""
    bench.change(change)
    bench.type(Trial(Case("end", END)).type(spec, bench.file, "en"))
    found = list(compare(bench, "changed", wanted))
    bench.change({cell: bench.file.formulas[cell] for cell in change})
    return found


def test_a_fresh_book_passes_as_the_species_say(bench, spec, wanted):
    assert len(wanted) > 200
    assert compare_after(bench, spec, {}, wanted) == []


@pytest.mark.parametrize(
    ("column", "row", "right", "wrong"),
    [
        ("start_trial_pH_list", 0, "MAX(", "MIN("),
        ("start25_carb_slope_n_list", 0, "+4*", "+3*"),
        ("start_step_pH_list", 1, "ABS(", "-ABS("),
        ("end_ionic_molpL_list", 0, "guess_ionic_molpL", "carbonate_molpL"),
        ("low_secant_n_list", 0, "-1", "-2"),
        ("final_ionic_molpL_list", 1, "MAX(0,", "MAX(1,"),
        ("refill_strength_n_list", 0, "1+MAX(", "2+MAX("),
    ],
)
def test_a_wrong_formula_is_seen_in_a_pass(bench, spec, wanted, column, row, right, wrong):
    cell = bench.file.names[column][row]
    text = bench.file.formulas[cell]
    assert right in text
    assert compare_after(bench, spec, {cell: text.replace(right, wrong)}, wanted)
