"""Mutants of the specs' formulas: each is seen in some cell, or is listed as equivalent."""

from collections import Counter

from workbook.conftest import shorten

from builder.exchange.machine import Machine
from builder.spec.load import find_specs, load_spec
from builder.spec.specification import Spec
from proof.coverage_scene import list_judged, make_file, make_ground
from proof.coverage_sets import list_telling, make_worked
from proof.coverage_trial import Trial
from proof.figures import Better, Figure, Section
from proof.mutants_alone_rig import Rig, try_alone
from proof.mutants_equivalents import Kind, find_kind, judge_survivors, read_kinds
from proof.mutants_hunt import start
from proof.mutants_list import Mutant, list_mutants

LANG = "en"
LEAST = 99.0  # per cent of the mutants that are no equivalents


def measure() -> Section:
    """Make every mutant of the specs, and see how many some set of input gives away."""
    return hunt(shorten(load_spec(find_specs())), read_kinds())


def hunt(spec: Spec, kinds: list[Kind]) -> Section:
    """Return what became of the mutants of some specs."""
    file = make_file(spec, Machine(), LANG)
    trials = list(list_telling(spec))
    ground = make_ground(spec, file, LANG)
    # The defaults lack a pH at the end, which the worked case has.
    judged = {cell for trial in trials[:2] for cell in list_judged(trial.want(ground))}
    mutants = list(list_mutants(spec, file, LANG, judged))
    chase = start(mutants, judged, kinds, ground)
    chase.run(trials)
    rig = Rig(chase.local, ground, Trial(make_worked(spec)))
    tried = try_alone(chase, rig)
    survivors = chase.list_survivors()
    listed, faults = judge_survivors(survivors, kinds)
    killed = 100 * (len(mutants) - len(survivors)) / (len(mutants) - listed)
    share = 100 * (len(mutants) - len(survivors)) / len(mutants)
    if killed < LEAST:
        faults.append(f"{killed:.2f} per cent of the mutants were killed, {LEAST} are wanted")
    figures = [
        Figure("mutants of the specs", len(mutants), Better.ANY),
        Figure("mutants killed, per cent of those not equivalent", killed, Better.HIGHER),
        Figure("mutants killed, per cent of all", share, Better.HIGHER),
        Figure("mutants listed as equivalent", listed, Better.LOWER),
        Figure("sets of input for mutants", len(trials), Better.HIGHER),
        Figure("formulas tried by themselves", len(rig.formulas), Better.HIGHER),
        Figure("values of formulas tried by themselves", tried, Better.HIGHER),
    ]
    lines = [*tell_kinds(mutants, survivors), *tell_equivalents(survivors, kinds)]
    return Section("Mutants of the specs", figures, lines, [*chase.faults, *faults])


def tell_kinds(mutants: list[Mutant], survivors: list[Mutant]) -> list[str]:
    """Return how many mutants of each kind were made, and how many were not seen."""
    made = Counter(mutant.kind for mutant in mutants)
    alive = Counter(mutant.kind for mutant in survivors)
    return [f"{kind}: {count} made, {alive[kind]} not seen" for kind, count in made.most_common()]


def tell_equivalents(survivors: list[Mutant], kinds: list[Kind]) -> list[str]:
    """Return how many survivors each class of equivalents explains, and how."""
    counts = Counter(find_kind(mutant, kinds) for mutant in survivors)
    return [f"equivalent, {counts[k]} of {k.of.pattern}: {k.reason}" for k in kinds if counts[k]]
