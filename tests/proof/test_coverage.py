"""The coverage part goes red on a cell, a way, a verdict or a limit that nothing accounts for."""

from dataclasses import replace

import pytest
from workbook.cases import Case

from proof.coverage import judge_idle, read_idle
from proof.coverage_branches import Forks
from proof.coverage_cells import compare, find_covers, group_covers, list_covers
from proof.coverage_graph import read_graph
from proof.coverage_provoked import Tally, judge_limits, judge_verdicts, provoke
from proof.coverage_scene import convert, make_ground
from proof.coverage_selftest import want_selftest
from proof.coverage_trial import Trial

STRAY = ("Hold-up", 300, 2)


@pytest.fixture(scope="module")
def wanted(spec, bench):
    fixed = dict(want_selftest(spec, bench.file, "en"))
    return Trial(Case("defaults")).want(make_ground(spec, bench.file, "en")) | fixed


def compare_after(bench, changes, wanted):
    """Return the differences while some cells hold other formulas."""
    bench.change(changes)
    bench.type({})
    found = list(compare(bench, "changed", wanted))
    bench.change({cell: bench.file.formulas[cell] for cell in changes})
    bench.type({})
    return found


def test_a_fresh_book_shows_what_references_and_oracles_say(bench, wanted):
    bench.type({})
    assert list(compare(bench, "defaults", wanted)) == []


def test_each_kind_of_oracle_sees_a_wrong_cell(bench, wanted):
    kinds = {}
    for cell, want in wanted.items():
        kinds.setdefault(want.by, cell)
    assert len(kinds) > 15
    for by, cell in kinds.items():
        found = compare_after(bench, {cell: '="wrong"'}, {cell: wanted[cell]})
        assert len(found) == 1, by
        assert "shows 'wrong'" in found[0]


def test_a_wrong_formula_is_named_by_its_quantity(bench, wanted):
    cell = bench.file.cell("pipes_L")
    (found,) = compare_after(bench, {cell: "=pipe_1_L"}, {cell: wanted[cell]})
    assert found.startswith("changed: pipes_L Hold-up!B")


def test_an_oracle_of_a_cell_without_a_formula_is_a_fault(bench, wanted):
    (found,) = compare(bench, "x", {STRAY: next(iter(wanted.values()))})
    assert found.endswith("Hold-up!B300, which holds no formula")


def test_every_cell_is_covered_but_a_formula_that_leads_nowhere(bench, wanted):
    stray = replace(bench.file, formulas={**bench.file.formulas, STRAY: "=vessels_n+1"})
    covers = find_covers(stray, wanted, read_graph(stray))
    assert stray.formulas.keys() - covers.keys() == {STRAY}


def test_a_working_cell_is_covered_through_what_depends_on_it(bench, wanted):
    covers = find_covers(bench.file, wanted, read_graph(bench.file))
    cover = covers[bench.file.names["start_co3_n_list"][3]]
    assert cover.kind == "through"
    assert cover.by in ("start_slope_n_list", "start_next_pH_list")
    assert any(line.startswith("Working rows: ") for line in group_covers(covers))
    assert len(list_covers(bench.file, covers)) == len(bench.file.formulas)


def test_without_its_oracle_a_cell_is_not_covered(bench, wanted):
    less = {cell: want for cell, want in wanted.items() if want.by != "oracle: reader's value"}
    covers = find_covers(bench.file, less, read_graph(bench.file))
    assert len(bench.file.formulas) - len(covers) > 50


def test_a_name_that_is_none_stops_the_graph(bench):
    odd = replace(bench.file, formulas={STRAY: "=vessels_m+1"})
    with pytest.raises(LookupError, match="vessels_m in =vessels_m"):
        read_graph(odd)


def test_a_way_of_a_condition_is_missing_until_an_input_takes_it(spec, bench):
    forks = Forks(bench, [bench.file.cell("annulus_ok")])
    way = "annulus_ok AND 3 | argument 1"
    bench.type({})
    forks.watch()
    before = forks.list_missing()
    bench.type(Trial(Case("wide", {"element_diameter_mm": 250.0})).type(spec, bench.file, "en"))
    forks.watch()
    assert way in before
    assert way not in forks.list_missing()


def test_a_branch_inside_another_counts_only_where_it_is_reached(spec, bench):
    forks = Forks(bench, [bench.file.cell("ceiling_ok")])
    blank = Trial(Case("blank", {"ceiling_pH": None}))
    bench.type(blank.type(spec, bench.file, "en"))
    forks.watch()
    assert forks.count()[0] == 1


def test_verdicts_and_limits_that_no_input_provokes_are_listed(spec, bench):
    trials = [
        Trial(Case("least", {"pumps_L": 0.0})),
        Trial(Case("beyond", {"pumps_L": None}), {"pumps_L_typed": -1.0}),
    ]
    tally = provoke(bench, Forks(bench, []), trials, spec)
    limits = judge_limits(tally, spec)[2]
    assert "annulus_ok | stop" in judge_verdicts(tally, spec)[2]
    assert {"pumps_L | at the most", "pumps_L | above"} <= set(limits)
    assert not {"pumps_L | at the least", "pumps_L | below"} & set(limits)


def test_without_any_input_no_verdict_counts_as_provoked(spec):
    met, total, missing = judge_verdicts(Tally(), spec)
    assert (met, len(missing)) == (0, total)


def test_idle_ways_are_faults_unless_listed_and_listed_ones_unless_idle():
    idle = {"a_ok | stop": "why", "b_ok | stop": "why"}
    assert judge_idle(["a_ok | stop", "c_ok | look"], idle) == [
        "not provoked, and not listed as idle: c_ok | look",
        "listed as idle, but provoked or gone: b_ok | stop",
    ]


def test_an_idle_way_needs_a_reason(tmp_path):
    path = tmp_path / "idle.toml"
    path.write_text('[[idle]]\nitems = ["a_ok | stop"]\n', encoding="utf-8")
    with pytest.raises(KeyError, match="reason"):
        read_idle(path)


def test_conversions_of_the_oracle_equal_published_ones(spec):
    units = spec.units
    assert convert(68.0, units["degF"], units["degC"]) == pytest.approx(20.0, rel=1e-15)
    assert convert(1.0, units["in"], units["mm"]) == 25.4
