"""Formulas by themselves go red on a wrong tie, a wrong blank, and a block that does not wait."""

from dataclasses import replace

import pytest

from proof.coverage_bench import Bench
from proof.coverage_scene import list_judged, make_ground
from proof.coverage_sets import make_worked
from proof.coverage_trial import Trial
from proof.mutants_alone import judge
from proof.mutants_alone_changes import list_changes, pack
from proof.mutants_alone_rig import Rig, try_alone
from proof.mutants_hunt import start
from proof.mutants_list import Mutant


def make_rig(spec, file, formulas=None, bench=None):
    """Return a rig of a workbook in which some formulas are others."""
    changed = replace(file, formulas={**file.formulas, **(formulas or {})})
    ground = make_ground(spec, changed, "en")
    return Rig(bench or Bench(file), ground, Trial(make_worked(spec)))


def keep(rig, *names):
    """Leave only some formulas in a rig, so that it is fast."""
    rig.formulas = [each for each in rig.formulas if each.quantity.name in names]
    return rig


def find_faults(rounds, rig):
    return [fault for change, wanted in rounds for fault in rig.list_faults(change, wanted)]


def test_formulas_show_by_themselves_what_their_references_say(spec, file):
    rig = keep(make_rig(spec, file), "solution_ok", "first_rinse_owed_L", "short_L", "tcf_n")
    assert {each.quantity.name for each in rig.formulas} >= {"solution_ok", "short_L"}
    assert find_faults(rig.vary(), rig) == []


@pytest.mark.parametrize(
    ("name", "right", "wrong"),
    [
        ("solution_ok", ">holdup_adopted_L", ">=holdup_adopted_L"),
        ("converged_ok", "<=step_largest_pH", "<step_largest_pH"),
        ("holdup_per_element_L", "COUNT(holdup_adopted_L,elements_n)<2", "COUNT(elements_n)<1"),
        ("chlorine_ok", "<=chlorine_limit", "<chlorine_limit"),
    ],
)
def test_a_wrong_tie_or_blank_is_named_although_no_input_provokes_it(
    spec, file, name, right, wrong
):
    cell = file.cell(name)
    assert right in file.formulas[cell]
    text = file.formulas[cell].replace(right, wrong)
    rig = keep(make_rig(spec, file, {cell: text}), name)
    faults = find_faults(rig.vary(), rig)
    assert faults
    assert all(fault.startswith(f"{name} ") for fault in faults)


def test_a_working_block_that_does_not_wait_for_a_name_is_named(spec, file):
    cell = file.names["low_trial_pH_list"][0]
    rig = make_rig(spec, file, {cell: "=floor_pH"})
    faults = find_faults(rig.empty(), rig)
    assert any("shows 11.1" in fault and "alkali_eqpL" in fault for fault in faults)


def test_the_last_step_is_the_larger_of_two(spec, file):
    rig = make_rig(spec, file, {file.cell("last_step_pH"): "=start_step_pH"})
    assert any("0.002" in fault for fault in find_faults(rig.pass_on(), rig))


def test_a_mutant_is_dropped_that_only_a_tie_gives_away(spec, file):
    cell = file.cell("solution_ok")
    text = file.formulas[cell].replace(">holdup", ">=holdup")
    mutant = Mutant("solution_ok", "comparison", "tie", {cell: text})
    trial = Trial(make_worked(spec))
    ground = make_ground(spec, file, "en")
    chase = start([mutant], list_judged(trial.want(ground)), [], ground)
    chase.run([trial])
    assert chase.list_survivors() == [mutant]
    assert try_alone(chase, keep(make_rig(spec, file, bench=chase.local), "solution_ok")) > 0
    assert chase.list_survivors() == []


def test_values_that_the_reference_refuses_say_nothing(spec, file):
    rig = keep(make_rig(spec, file), "cleaner_packs_n")
    scene = rig.show(rig.season)
    (formula,) = rig.formulas
    assert judge(formula, scene)
    scene.season.values["cleaner_pack_kg"] = -1.0
    assert judge(formula, scene) is None


def test_changes_share_a_round_unless_they_touch_the_same_formula(spec, file):
    rig = keep(make_rig(spec, file), "tank_ok", "cleaner_packs_n", "cleaner_dose_kg")
    packs, dose = (
        next(each for each in rig.formulas if each.quantity.name == name)
        for name in ("cleaner_packs_n", "cleaner_dose_kg")
    )
    apart = [(packs, {"cleaner_pack_kg": 1.0}), (dose, {"elements_n": 2.0})]
    assert len(pack(apart)) == 1
    assert len(pack([*apart, (packs, {"cleaner_dose_kg": 2.0})])) == 2


def test_what_is_set_includes_blanks_ties_and_other_options(spec, file):
    rig = keep(make_rig(spec, file), "solution_ok", "wash_solution_L")
    changes = [
        change for each in rig.formulas for change in list_changes(each, spec, rig.season, rig.live)
    ]
    held = rig.season.values["holdup_adopted_L"]
    assert {"holdup_adopted_L": None} in changes
    assert {"wash_solution_L": held} in changes
    assert {"recipe_water_means": "circulating"} in changes
