"""Runs all mutants over the sets of input until each shows a wrong value, or none is left."""

import sys
from collections.abc import Iterable
from dataclasses import dataclass, field

from workbook.comparison import agree
from workbook.files import Cell, Value, show

from proof.coverage_bench import Bench, Slot
from proof.coverage_branches import is_error, name_places
from proof.coverage_graph import Graph, read_graph
from proof.coverage_scene import Ground, Wanted
from proof.coverage_trial import Trial
from proof.mutants_equivalents import Kind, find_kind
from proof.mutants_list import Mutant

PATIENCE = 20  # times that a listed equivalent is put into the workbook without effect
NEIGHBOURS = (-3, 3)  # so that every row of a short log is looked at
Expected = dict[Cell, Wanted]


@dataclass(slots=True)
class Hunt:
    """Mutants that are still alive, each with its formulas on the bench."""

    ground: Ground
    local: Bench
    deep: Bench
    graph: Graph
    kinds: list[Kind]
    places: dict[Cell, str]
    near: dict[int, tuple[Mutant, dict[Cell, Slot]]] = field(default_factory=dict)
    far: dict[int, tuple[Mutant, dict[Cell, Slot]]] = field(default_factory=dict)
    tries: dict[int, int] = field(default_factory=dict)
    aside: list[Mutant] = field(default_factory=list)
    kept: set[Cell] = field(default_factory=set)
    followers: dict[tuple[Cell, int], set[Cell]] = field(default_factory=dict)
    faults: list[str] = field(default_factory=list)

    def run(self, trials: Iterable[Trial]) -> None:
        """Go through the sets of input; what is seen wrong is dropped."""
        for number, trial in enumerate(trials):
            typed = trial.type(self.ground.spec, self.ground.file, self.ground.lang)
            wanted = trial.want(self.ground)
            self.local.type(typed)
            self.check_original(trial, wanted)
            self.kill_near(wanted)
            self.kill_shown(wanted)
            suspects = self.find_suspects() if number else list(self.far)
            self.kill_far(suspects, typed, wanted)
            if number == 0:
                self.place_far()
            alive = f"{number} {trial.case.label[:40]}: {len(self.near)} + {len(self.far)} alive"
            print(alive, file=sys.stderr)

    def check_original(self, trial: Trial, wanted: Expected) -> None:
        """Note where the workbook itself is not as wanted: its mutants prove nothing then."""
        for cell, want in wanted.items():
            found = self.local.show(cell)
            if not agree(found, want.value, want.tolerance):
                name = f"{self.places.get(cell, '')} {show(cell)}".strip()
                told = f"{name} shows {found!r}, {want.by} says {want.value!r}"
                self.faults.append(f"{trial.case.label}: {told}")

    def kill_near(self, wanted: Expected) -> None:
        """Drop the mutants of cells that have a say of their own, where it is not met."""
        for key, (_, slots) in list(self.near.items()):
            if any(self.is_wrong(slot, wanted.get(cell)) for cell, slot in slots.items()):
                self.drop(self.near, key)

    def is_wrong(self, slot: Slot, want: Wanted | None) -> bool:
        """Tell whether a mutant's cell shows another value than is wanted."""
        return want is not None and not agree(self.local.look(slot), want.value, want.tolerance)

    def kill_shown(self, wanted: Expected) -> None:
        """Drop the mutants of working cells that show an error code, or something for nothing."""
        for key, (_, slots) in list(self.far.items()):
            if any(self.is_bare(slot, wanted.get(cell)) for cell, slot in slots.items()):
                self.drop(self.far, key)

    def is_bare(self, slot: Slot, want: Wanted | None) -> bool:
        """Tell whether a mutant's cell shows an error code, or what it should not."""
        value = self.local.look(slot)
        return is_error(value) or self.is_wrong(slot, want)

    def find_suspects(self) -> list[int]:
        """Return the mutants of working cells that give another value there than the original."""
        look, shown = self.local.look, self.local.show
        return [
            key
            for key, (_, slots) in self.far.items()
            if any(look(slot) != shown(cell) for cell, slot in slots.items())
        ]

    def kill_far(self, suspects: list[int], typed: dict[Cell, Value], wanted: Expected) -> None:
        """Put each suspect into the workbook, and drop it if a cell that follows is wrong."""
        if not suspects or not wanted:
            return
        self.deep.type(typed)
        for key in suspects:
            mutant = self.far[key][0]
            self.deep.change(mutant.cells)
            self.deep.model.evaluate()
            wrong = any(
                not agree(self.deep.show(cell), wanted[cell].value, wanted[cell].tolerance)
                for cell in self.follow(mutant)
                if cell in wanted
            )
            self.deep.change({cell: self.ground.file.formulas[cell] for cell in mutant.cells})
            if wrong:
                self.drop(self.far, key)
            else:
                self.give_up(key)

    def follow(self, mutant: Mutant) -> set[Cell]:
        """Return the cells that depend on those of a mutant; the same for all of one formula."""
        key = (next(iter(mutant.cells)), len(mutant.cells))
        if key not in self.followers:
            self.followers[key] = self.graph.follow(mutant.cells) & self.kept
        return self.followers[key]

    def place_far(self) -> None:
        """Put the mutants of working cells on the bench too, to tell where they may matter."""
        for mutant, slots in self.far.values():
            slots.update(place(self.local, mutant, pick_rows(mutant.cells)))

    def give_up(self, key: int) -> None:
        """Set a mutant aside that was tried often enough and is listed: it takes most time."""
        mutant = self.far[key][0]
        self.tries[key] = self.tries.get(key, 0) + 1
        if self.tries[key] >= PATIENCE and find_kind(mutant, self.kinds):
            self.aside.append(mutant)
            self.drop(self.far, key)

    def list_survivors(self) -> list[Mutant]:
        """Return what no set of input gave away."""
        alive = [*self.near.values(), *self.far.values()]
        return [mutant for mutant, _ in alive] + self.aside

    def drop(self, alive: dict[int, tuple[Mutant, dict[Cell, Slot]]], key: int) -> None:
        """Take a mutant off the bench."""
        for slot in alive.pop(key)[1].values():
            self.local.drop(slot)


def place(bench: Bench, mutant: Mutant, cells: Iterable[Cell]) -> dict[Cell, Slot]:
    """Put the formulas of a mutant beside some of its cells."""
    return {cell: bench.add(cell[0], mutant.cells[cell][1:]) for cell in cells}


def pick_rows(cells: Iterable[Cell]) -> list[Cell]:
    """Return the first and last rows of each run of cells: those between go the same way."""
    known = set(cells)
    return [
        (sheet, row, col)
        for sheet, row, col in cells
        if not {(sheet, row + step, col) for step in NEIGHBOURS} <= known
    ]


def start(mutants: Iterable[Mutant], judged: set[Cell], kinds: list[Kind], ground: Ground) -> Hunt:
    """Return a hunt in which all mutants are alive."""
    file = ground.file
    local, deep = Bench(file), Bench(file)
    hunt = Hunt(ground, local, deep, read_graph(file), kinds, name_places(file))
    for key, mutant in enumerate(mutants):
        if set(mutant.cells) <= judged:
            hunt.near[key] = (mutant, place(local, mutant, mutant.cells))
        else:
            hunt.far[key] = (mutant, {})
    changed = [cell for mutant, _ in hunt.far.values() for cell in mutant.cells]
    hunt.kept = clear_idle(deep, hunt.graph, judged, changed)
    return hunt


def clear_idle(bench: Bench, graph: Graph, judged: set[Cell], changed: list[Cell]) -> set[Cell]:
    """Take away the formulas that lead to no judged cell beside the changed ones; return those."""
    follow = graph.follow(changed)
    near = {cell for cell in follow & judged if not set(graph.reads[cell]) & follow <= judged}
    for cell in bench.file.formulas.keys() - graph.trace(near).keys():
        bench.model.clear_cell_contents(bench.engine.sheets[cell[0]], *cell[1:])
    return near
