"""The differential run as a whole: many sets, every kind for each book, and honest figures."""

import pytest
from workbook.cases import Case

from builder.spec.load import find_specs, load_spec
from builder.spec.records import Input
from proof.differential import RUNS, Outcome, deal, list_figures, round_up
from proof.differential_compare import Tally
from proof.differential_sets import is_within_limits, list_trials


@pytest.fixture(scope="module")
def spec():
    return load_spec(find_specs())


@pytest.fixture(scope="module")
def trials(spec):
    return list_trials(spec)


def test_every_book_meets_two_hundred_sets_and_no_set_is_left_out(trials):
    shares = [[trial.label for trial in deal(trials, place)] for place in range(len(RUNS))]
    assert all(len(set(share)) == len(share) >= 200 for share in shares)
    assert all({"defaults", "season"} <= set(share) for share in shares)
    assert set().union(*shares) == {trial.label for trial in trials}
    assert len({trial.label for trial in trials}) == len(trials)
    assert {(run.lang, run.units) for run in RUNS} == {
        (lang, units) for lang in ("en", "fr") for units in ("metric", "us", "imperial")
    }


KINDS = ("low", "high", "zero", "blank", "text", "unknown unit", "all ", "random", "log: ")


@pytest.mark.parametrize("place", range(len(RUNS)))
def test_each_share_holds_each_kind_of_set(trials, place):
    labels = [trial.label for trial in deal(trials, place)]
    assert [kind for kind in KINDS if not any(x.startswith(kind) for x in labels)] == []


def test_each_input_is_once_at_both_limits_zero_blank_and_a_text(spec, trials):
    cases = [trial.case for trial in trials]
    for name, quantity in spec.quantities.items():
        if isinstance(quantity, Input):
            values = {case.given[name] for case in cases if name in case.given}
            assert {quantity.limits.min, quantity.limits.max, 0.0, None} <= values


@pytest.mark.parametrize(
    ("given", "rows", "inside"),
    [
        ({"vessel_bore_mm": 40.0}, [], True),
        ({"vessel_bore_mm": None}, [], True),
        ({"vessel_bore_mm": 39.9}, [], False),
        ({}, [{"day_d": 46500.0, "sap_L": -3.0}], True),
        ({}, [{"day_d": -3.0}], False),
    ],
)
def test_the_reference_answers_for_inputs_and_days_within_limits(spec, given, rows, inside):
    assert is_within_limits(Case("a set", given, {"log": rows}), spec) == inside


def test_the_worst_disagreement_is_told_as_the_next_power_of_ten():
    assert [round_up(worst) for worst in (0.0, 3e-13, 1e-9)] == [0.0, 1e-12, 1e-9]


def test_figures_count_each_book_once_and_keep_the_worst():
    worse = Tally(comparisons=5, worst={False: 2e-12, True: 0.0}, errors=1, missing=2, judged=1)
    outcomes = [
        Outcome(RUNS[0], 3, 10, ["defaults", "a"], worse, []),
        Outcome(RUNS[0], 2, 10, ["defaults", "b", "c"], Tally(comparisons=7), []),
    ]
    figures = {figure.name: figure.value for figure in list_figures(outcomes)}
    assert figures["formula cells in all books"] == 10
    assert (figures["engines"], figures["input sets"]) == (2, 4)
    assert figures["input sets of the book with the fewest"] == 2
    assert figures["comparisons made"] == 12
    assert figures["worst relative disagreement of two engines, below"] == pytest.approx(1e-11)
    assert (figures["cells with an error code"], figures["cells missing in an engine"]) == (1, 2)
