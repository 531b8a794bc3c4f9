"""Every formula cell of a delivered workbook, and who says independently what it should show."""

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from workbook.comparison import agree
from workbook.files import Cell, File, show

from proof.coverage_bench import Bench
from proof.coverage_branches import name_places, relate_rows
from proof.coverage_graph import Graph
from proof.coverage_scene import Ground, Wanted, list_judged
from proof.coverage_trial import Trial


@dataclass(frozen=True, slots=True)
class Cover:
    """What covers a cell: a reference, an oracle, or the results that depend on it."""

    kind: str
    by: str


def find_covers(file: File, wanted: dict[Cell, Wanted], graph: Graph) -> dict[Cell, Cover]:
    """Return the cover of each formula cell that has one; a copied-down twin will do."""
    places = name_places(file)
    judged = list_judged(wanted) & file.formulas.keys()
    # References come first, so that a cell leads to a result rather than to a chart.
    behind = graph.trace(sorted(judged, key=lambda cell: (wanted[cell].by != "reference", cell)))
    covers: dict[Cell, Cover] = {}
    for cell in file.formulas:
        name = places.get(cell, show(cell))
        if cell in judged:
            covers[cell] = Cover(wanted[cell].by, name)
        elif cell in behind:
            covers[cell] = Cover("through", places.get(behind[cell], show(behind[cell])))
    alike = {relate_rows(file.formulas[cell], cell): cover.by for cell, cover in covers.items()}
    for cell in file.formulas.keys() - covers.keys():
        twin = alike.get(relate_rows(file.formulas[cell], cell))
        if twin:
            covers[cell] = Cover("same formula as", twin)
    return covers


def group_covers(covers: dict[Cell, Cover]) -> list[str]:
    """Return how many cells of each sheet are covered by what."""
    counts = Counter((cell[0], cover.kind) for cell, cover in covers.items())
    return [f"{sheet}: {count} by {kind}" for (sheet, kind), count in sorted(counts.items())]


def list_covers(file: File, covers: dict[Cell, Cover]) -> list[str]:
    """Return the whole list: each formula cell with what covers it."""
    return [
        f"{show(cell)}: {covers[cell].kind}, {covers[cell].by}"
        if cell in covers
        else f"{show(cell)}: NOTHING"
        for cell in file.formulas
    ]


def find_differences(bench: Bench, trials: Iterable[Trial], ground: Ground) -> Iterator[str]:
    """Yield the cells that show other values than reference or oracle say."""
    for trial in trials:
        bench.type(trial.type(ground.spec, bench.file, ground.lang))
        yield from compare(bench, trial.case.label, trial.want(ground))


def compare(bench: Bench, label: str, wanted: dict[Cell, Wanted]) -> Iterator[str]:
    """Yield the cells that differ from what is wanted, and what is wanted of no formula."""
    places = name_places(bench.file)
    for cell, want in wanted.items():
        name = f"{places.get(cell, '')} {show(cell)}".strip()
        if cell not in bench.file.formulas:
            yield f"{label}: {want.by} speaks of {name}, which holds no formula"
        elif not agree(shown := bench.show(cell), want.value, want.tolerance):
            yield f"{label}: {name} shows {shown!r}, {want.by} says {want.value!r}"
