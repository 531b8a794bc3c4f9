"""What the sets of input provoke: ways of formulas, verdicts of checks, both sides of limits."""

import sys
from collections.abc import Iterable
from dataclasses import dataclass, field

from workbook.files import Cell, File

from builder.spec.records import Check, Input
from builder.spec.specification import Spec
from proof.coverage_bench import Bench
from proof.coverage_branches import Forks
from proof.coverage_scene import STATE
from proof.coverage_trial import Trial

LANG = "en"
WORDS = ("ok", "look", "stop", "missing", "none")


@dataclass(slots=True)
class Tally:
    """What the sets of input provoked."""

    verdicts: set[tuple[str, str]] = field(default_factory=set)
    states: set[tuple[str, str]] = field(default_factory=set)


def list_live(file: File) -> list[Cell]:
    """Return the formula cells that follow what is typed: all but the self-test's."""
    fixed = file.cell("selftest_n")[0]
    return [cell for cell in file.formulas if cell[0] != fixed]


def provoke(bench: Bench, forks: Forks, trials: Iterable[Trial], spec: Spec) -> Tally:
    """Type one set of input after the other, and note what it provokes."""
    tally = Tally()
    checks = [q.name for q in spec.quantities.values() if isinstance(q, Check)]
    inputs = [q for q in spec.quantities.values() if isinstance(q, Input)]
    words = {spec.words[key].pick(LANG): key for key in (*WORDS, "range")}
    for number, trial in enumerate(trials):
        bench.type(trial.type(spec, bench.file, LANG))
        forks.watch()
        shown = ((name, str(bench.show(bench.file.cell(name)))) for name in checks)
        tally.verdicts |= {(name, words[word]) for name, word in shown}
        for quantity in inputs:
            title, row, _ = bench.file.cell(f"{quantity.name}_typed")
            state = words.get(str(bench.show((title, row, STATE))), "")
            side = find_side(quantity, trial, state)
            tally.states |= {(quantity.name, side)} if side else set()
        print(f"{number} {trial.case.label[:40]}: {len(forks.open)} forks open", file=sys.stderr)
    return tally


def find_side(quantity: Input, trial: Trial, state: str) -> str:
    """Return which side of which limit was typed and rightly judged, "" for none."""
    low, high = quantity.limits.min, quantity.limits.max
    given, odd = trial.case.given.get(quantity.name), trial.odd.get(f"{quantity.name}_typed")
    if state == "ok":
        return "at the least" if given == low else "at the most" if given == high else ""
    if state != "range" or not isinstance(odd, float):
        return ""
    return "below" if odd < low else "above" if odd > high else "not whole"


def judge_verdicts(tally: Tally, spec: Spec) -> tuple[int, int, list[str]]:
    """Return the same of the verdicts of checks."""
    wanted = set()
    for check in spec.quantities.values():
        if isinstance(check, Check):
            words = {"ok", check.level, "missing" if check.needed else "none"}
            wanted |= {(check.name, word) for word in words | ({"look"} if check.close else set())}
    missing = sorted(f"{name} | {word}" for name, word in wanted - tally.verdicts)
    return len(wanted) - len(missing), len(wanted), missing


def judge_limits(tally: Tally, spec: Spec) -> tuple[int, int, list[str]]:
    """Return the same of both sides of each limit of an input."""
    wanted = {
        (q.name, side)
        for q in spec.quantities.values()
        if isinstance(q, Input)
        for side in ("at the least", "at the most", "below", "above", *(["not whole"] * q.whole))
    }
    missing = sorted(f"{name} | {side}" for name, side in wanted - tally.states)
    return len(wanted) - len(missing), len(wanted), missing
