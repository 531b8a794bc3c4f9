"""`check` works every formula out: a slip is named once, at its line, with both values."""

from dataclasses import replace

import pytest

from builder.calculation import Calculator
from builder.production import shorten
from builder.spec.load import find_specs, load_spec
from builder.trial.cases import draw_cases, list_edges, list_fixed
from builder.trial.comparison import agree
from builder.trial.trial import try_formulas


@pytest.fixture(scope="module")
def spec():
    return load_spec(find_specs())


def change(spec, name, **changes):
    changed = replace(spec.quantities[name], **changes)
    return replace(spec, quantities={**spec.quantities, name: changed})


def swap(spec, name, old, new):
    formula = spec.quantities[name].formula
    assert old in formula
    return change(spec, name, formula=formula.replace(old, new, 1))


def test_the_formulas_of_the_specs_equal_their_references(spec):
    assert try_formulas(spec) == []


@pytest.mark.parametrize(
    ("name", "old", "new"),
    [
        ("annulus_L", "-", "+"),
        ("rinse_owed_L", "MAX", "MIN"),
        ("volume_L", "used_rinse_L,flowed_L", "flowed_L,flowed_L"),
        ("begun_n", "typed_n+", "0+"),
        ("top_margin_pH", "line_top_pH-begin_top_pH", "begin_top_pH-line_top_pH"),
        ("first_to_fix_column_n", "bad_column_n", "open_n"),
        ("season_first_rinses_n", '"first"', '"rinse"'),
        ("latch_ok", "<=", "<"),
    ],
)
def test_one_slip_in_a_formula_is_named_alone_at_its_line(spec, name, old, new):
    (problem,) = try_formulas(swap(spec, name, old, new))
    place = spec.quantities[name].place
    assert (problem.file, problem.line) == (place.file, place.at("formula"))
    assert problem.code == "formula-differs"


def test_a_slip_is_told_with_both_values_and_the_machine(spec):
    (problem,) = try_formulas(swap(spec, "annulus_L", "-", "+"))
    assert "annulus_L: workbook " in problem.text
    assert ", reference " in problem.text
    assert " for the worked case, and in " in problem.text


def test_a_slip_in_a_step_without_a_reference_names_the_steps_on_the_way(spec):
    problems = try_formulas(swap(spec, "flowed_L", "*", "+"))
    assert any("flowed_L (specs/topics/log.toml:" in problem.text for problem in problems)


def test_a_wrong_figure_shows_in_what_is_worked_out_with_it(spec):
    value = spec.quantities["carbonate_gpmol"].value
    (problem,) = try_formulas(change(spec, "carbonate_gpmol", value=value * 1.001))
    assert problem.name == "carbonate_molpL"


def test_the_order_of_options_changes_no_result(spec):
    event = spec.quantities["event"]
    reordered = dict(reversed(event.options.items()))
    assert try_formulas(change(spec, "event", options=reordered)) == []


def test_a_formula_that_shows_an_error_code_is_named(spec):
    problems = try_formulas(change(spec, "flowed_L", formula="1/(counts_n-counts_n)"))
    assert any(problem.code in ("formula-error", "formula-differs") for problem in problems)


def test_every_option_of_every_typed_column_is_tried(spec):
    short = shorten(spec, 24, 8)
    cases = [*list_fixed(short), *list_edges(short), *draw_cases(short, 20263, 18)]
    tried = {
        (column, value)
        for case in cases
        for rows in case.rows.values()
        for row in rows
        for column, value in row.items()
        if isinstance(value, str)
    }
    choices = [q for q in spec.quantities.values() if getattr(q, "entry", "") == "choice"]
    assert {(q.name, code) for q in choices for code in q.options} <= tried


def test_what_a_formula_is_compared_with_is_tried(spec):
    given = [case.given for case in list_edges(spec)]
    most = spec.quantities["latch_time_most_s"].usual
    assert any(agree(values.get("latch_time_s"), most) for values in given)


def test_the_same_seed_draws_the_same_machine(spec):
    assert list(draw_cases(spec, 3, 2)) == list(draw_cases(spec, 3, 2))
    assert next(draw_cases(spec, 3, 1)) != next(draw_cases(spec, 4, 1))


def test_a_blank_that_a_result_needs_leaves_it_blank(spec):
    values = Calculator(spec).work_out({"vessel_bore_mm": None}, {}).values
    assert values["annulus_L"] is None
