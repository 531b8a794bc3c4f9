"""Coverage: every formula cell has an independent say; every branch, verdict and limit is met."""

import tomllib
from pathlib import Path

from workbook.conftest import shorten
from workbook.files import Cell, show

from builder.exchange.machine import Machine
from builder.spec.load import find_specs, load_spec
from builder.spec.specification import Spec
from proof.coverage_bench import Bench
from proof.coverage_branches import Forks
from proof.coverage_cells import Cover, compare, find_covers, find_differences, group_covers
from proof.coverage_graph import read_graph
from proof.coverage_provoked import LANG, judge_limits, judge_verdicts, list_live, provoke
from proof.coverage_scene import make_file, make_ground
from proof.coverage_selftest import want_selftest
from proof.coverage_sets import list_few, list_trials
from proof.figures import Better, Figure, Section

IDLE = Path(__file__).with_name("equivalents.toml")


def measure() -> Section:
    """Measure coverage of the delivered book's cells, and of what inputs can provoke."""
    spec = load_spec(find_specs())
    covers, cells, faults = measure_cells(spec)
    met, missing = measure_provoked(shorten(spec))
    idle = read_idle(IDLE)
    faults += judge_idle(missing, idle)
    share = 100 * len(covers) / cells
    figures = [
        Figure("formula cells of the delivered book", cells, Better.ANY),
        Figure("formula cells with an independent say, per cent", share, Better.HIGHER),
        *met,
        Figure("ways, verdicts and limits that nothing can provoke", len(idle), Better.ANY),
    ]
    reasons = [f"idle: {item} ({reason})" for item, reason in idle.items()]
    return Section("Coverage", figures, [*group_covers(covers), *reasons], faults)


def measure_cells(spec: Spec) -> tuple[dict[Cell, Cover], int, list[str]]:
    """Return covers of the delivered book, its formula cells, and where a cover says otherwise."""
    bench = Bench(make_file(spec, Machine()))
    ground = make_ground(spec, bench.file, LANG)
    trials = list(list_few(spec))
    faults = list(find_differences(bench, trials, ground))
    fixed = dict(want_selftest(spec, bench.file, LANG))
    faults += compare(bench, "self-test", fixed)
    wanted = trials[0].want(ground) | fixed
    covers = find_covers(bench.file, wanted, read_graph(bench.file))
    lost = [show(cell) for cell in bench.file.formulas if cell not in covers]
    faults += [f"nothing says independently what {cell} should show" for cell in lost]
    return covers, len(bench.file.formulas), faults


def measure_provoked(spec: Spec) -> tuple[list[Figure], list[str]]:
    """Return how much the sets of input provoke in a book with short grids, and what not."""
    bench = Bench(make_file(spec, Machine()))
    forks = Forks(bench, list_live(bench.file))
    tally = provoke(bench, forks, list_trials(spec), spec)
    found = {
        "ways of conditions": (*forks.count(), forks.list_missing()),
        "verdicts of checks": judge_verdicts(tally, spec),
        "sides of limits": judge_limits(tally, spec),
    }
    figures = []
    for name, (met, total, _) in found.items():
        figures.append(Figure(name, total, Better.ANY))
        figures.append(Figure(f"{name} provoked, per cent", 100 * met / total, Better.HIGHER))
    return figures, [item for _, _, missing in found.values() for item in missing]


def judge_idle(missing: list[str], idle: dict[str, str]) -> list[str]:
    """Return what was not provoked without a reason, and reasons for what was provoked."""
    lacking = [f"not provoked, and not listed as idle: {i}" for i in missing if i not in idle]
    return lacking + [
        f"listed as idle, but provoked or gone: {i}" for i in idle if i not in missing
    ]


def read_idle(path: Path) -> dict[str, str]:
    """Return what cannot be provoked, with the reason."""
    entries = tomllib.loads(path.read_text(encoding="utf-8")).get("idle", [])
    return {item: entry["reason"] for entry in entries for item in entry["items"]}
