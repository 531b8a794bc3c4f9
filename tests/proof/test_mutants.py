"""The part of mutants goes red on a mutant that nothing sees, and on too generous a list."""

import re

import pytest
from workbook.cases import Case

from builder.formula.syntax import parse
from proof.coverage_scene import list_judged, make_ground
from proof.coverage_trial import Trial
from proof.mutants_equivalents import Kind, judge_survivors, read_kinds
from proof.mutants_guards import change_guard
from proof.mutants_hunt import start
from proof.mutants_list import Mutant, list_mutants
from proof.mutants_targets import Mutator, Printer, Target, list_targets
from proof.mutants_trees import list_changes


@pytest.fixture(scope="module")
def judged(spec, file):
    return list_judged(Trial(Case("defaults")).want(make_ground(spec, file, "en")))


def find_changes(formula, names=lambda _: (), options=lambda *_: ()):
    return {change.text for change in list_changes(parse(formula), names, options)}


def make_mutant(spec, file, name, formula):
    target = Target(name, "formula", spec.quantities[name].formula)
    return Mutant(name, "operator", formula, Printer(spec, file, "en").print(target, formula))


def hunt(mutants, spec, file, judged, *cases):
    chase = start(mutants, judged, [], make_ground(spec, file, "en"))
    chase.run([Trial(case) for case in cases or (Case("defaults"),)])
    return chase


@pytest.mark.parametrize(
    ("formula", "mutant"),
    [
        ("a_n+b_n", "(a_n-b_n)"),
        ("a_n^2", "(a_n*2)"),
        ("a_n*100", "a_n"),
        ("a_n*2", "(a_n*4)"),
        ("a_n-1", "((-a_n)-1)"),
        ("IF(a_n<1,b_n,0)", "IF((a_n<=1),b_n,0)"),
        ("IF(a_n<1,b_n,0)", "IF((a_n<1),0,b_n)"),
        ("MIN(a_n,b_n)", "MAX(a_n,b_n)"),
        ("MIN(a_n,b_n)", "MIN(b_n)"),
        ("SUM(log_a_n_list)", "MAX(log_a_n_list)"),
        ("AND(a_n>1,b_n>1)", "OR((a_n>1),(b_n>1))"),
        ("ROUNDUP(a_n,0)", "ROUNDDOWN(a_n,0)"),
        ("INT(a_n)", "a_n"),
        ("INDEX(log_a_n_list,row_n)", "INDEX(log_a_n_list,(row_n+1))"),
        ("PRIOR(a_n)+1", "(a_n+1)"),
    ],
)
def test_each_kind_of_change_is_made(formula, mutant):
    assert mutant in find_changes(formula)


def test_names_and_words_give_way_to_the_others_that_are_offered():
    names = find_changes("a_n+1", names=lambda _: ("b_n",))
    words = find_changes('IF(a="x",1,0)', options=lambda *_: ("y",))
    assert "(b_n+1)" in names
    assert 'IF((a="y"),1,0)' in words


def test_guards_lose_names_counts_and_themselves():
    found = dict(change_guard('=IF(COUNT(a_n,b_n)<2,"",a_n+b_n)'))
    assert found["dropped"] == "(a_n+b_n)"
    assert found["without a_n"] == 'IF((COUNT(b_n)<1),"",(a_n+b_n))'
    assert found["shows 0"] == "IF((COUNT(a_n,b_n)<2),0,(a_n+b_n))"


def test_a_swapped_name_has_the_same_unit_and_makes_no_circle(spec):
    changes = Mutator(spec).vary(Target("pipes_L", "formula", "pipe_1_L"), 10_000)
    swapped = {change.text for change in changes if change.kind == "reference"}
    assert "ends_L" in swapped
    assert {spec.quantities[name].unit for name in swapped} == {"L"}
    assert not swapped & {"pipes_L", "holdup_geometry_L"}


def test_every_formula_of_the_specs_is_printed_as_it_stands_in_the_workbook(spec, file):
    printer, found = Printer(spec, file, "en"), set()
    for target in list_targets(spec):
        printed = printer.print(target, target.formula)
        assert printed == {cell: file.formulas[cell] for cell in printed}
        found |= printed.keys()
    assert len(found) > 2000


def test_every_formula_of_the_specs_has_mutants(spec, file, judged):
    labels = {mutant.label for mutant in list_mutants(spec, file, "en", judged)}
    assert labels == {target.label for target in list_targets(spec)}


def test_a_wrong_result_is_seen_at_its_own_cell(spec, file, judged):
    mutant = make_mutant(spec, file, "annulus_L", "vessels_water_L+elements_envelope_L")
    assert hunt([mutant], spec, file, judged).list_survivors() == []


def test_a_wrong_working_column_is_seen_in_what_follows(spec, file, judged):
    mutant = make_mutant(spec, file, "co3_n", "10^(at_lk2_n+trial_pH)*gamma_n^3")
    assert not set(mutant.cells) <= judged
    assert hunt([mutant], spec, file, judged).list_survivors() == []


def test_a_mutant_that_gives_the_same_values_survives(spec, file, judged):
    near = make_mutant(spec, file, "annulus_L", "vessels_water_L-elements_envelope_L+0")
    far = make_mutant(spec, file, "co3_n", "10^(at_lk2_n+trial_pH)/gamma_n^3+0")
    cases = [Case("defaults"), Case("cold", {"wash_temp_degC": 5.0})]
    chase = hunt([near, far], spec, file, judged, *cases)
    assert chase.list_survivors() == [near, far]


def test_a_mutant_that_differs_in_the_last_digit_only_survives(spec, file, judged):
    formula = spec.quantities["slope_n"].formula
    mutant = make_mutant(spec, file, "slope_n", f"({formula})*(1+1/10^12)")
    cases = [Case("defaults"), Case("cold", {"wash_temp_degC": 5.0})]
    assert hunt([mutant], spec, file, judged, *cases).list_survivors() == [mutant]


def test_a_mutant_in_an_idle_branch_waits_for_the_input_that_reaches_it(spec, file, judged):
    text = "IF(holdup_geometry_L>=0,holdup_geometry_L,0)"
    mutant = make_mutant(spec, file, "holdup_adopted_L", text)
    wide = Case("wide", {"element_diameter_mm": 400.0})
    assert hunt([mutant], spec, file, judged).list_survivors() == [mutant]
    assert hunt([mutant], spec, file, judged, Case("defaults"), wide).list_survivors() == []


def test_a_workbook_that_is_wrong_itself_is_a_fault_with_the_name_of_the_quantity(
    spec, file, judged
):
    chase = start([], judged, [], make_ground(spec, file, "en"))
    chase.local.change({file.cell("annulus_L"): "=vessels_water_L"})
    chase.run([Trial(Case("defaults"))])
    assert any(fault.startswith("defaults: annulus_L Hold-up!B") for fault in chase.faults)


def make_kind(of, text, most):
    return Kind(re.compile(of), re.compile(text), "why", most)


def make_survivor(label):
    return Mutant(label, "sign", "(-a_n)^2", {})


def test_a_survivor_is_a_fault_unless_it_is_listed():
    mutants = [make_survivor("a_L"), make_survivor("b_L")]
    assert judge_survivors(mutants, [make_kind("a_L", r"\^2", 1)]) == (
        1,
        ["survived: b_L: (-a_n)^2 (sign)"],
    )


def test_an_entry_that_hides_more_than_it_says_is_a_fault():
    _, (fault,) = judge_survivors(
        [make_survivor("a_L"), make_survivor("a_L")], [make_kind("a_L", ".", 1)]
    )
    assert fault.endswith("2 survived, 1 at most are listed")


def test_an_entry_that_hides_nothing_is_a_fault():
    _, (fault,) = judge_survivors([], [make_kind("a_L", ".", 1)])
    assert fault.endswith("none survived, so the entry goes")


def test_every_listed_class_has_a_reason_and_a_bound():
    kinds = read_kinds()
    assert kinds
    assert all(len(kind.reason) > 20 and kind.most > 0 for kind in kinds)
