"""A workbook in which all that formulas read is set by hand, and the mutants that it shows."""

from collections.abc import Iterator

from workbook.comparison import agree
from workbook.files import Cell, Value, show

from builder.calculation import Calculation, calculate_season
from builder.formula.grids import LIST, grid_columns, outer_names, row_formula
from builder.formula.guard import guarded_names
from builder.formula.tokens import find_names
from builder.spec.records import Choice, Grid, Input, Result
from builder.spec.specification import Spec
from proof.coverage_bench import Bench
from proof.coverage_branches import name_places
from proof.coverage_graph import Graph, read_graph, spread
from proof.coverage_scene import Ground, Scene, Wanted
from proof.coverage_trial import Trial, find_cell
from proof.mutants_alone import is_apart, judge, list_alone, set_keys
from proof.mutants_alone_changes import Change, get, is_free, list_changes, pack
from proof.mutants_alone_ends import list_ends
from proof.mutants_hunt import Hunt

Sight = dict[Cell, Wanted]
REFUSED = "reference, which refuses the values"
BLANK = "oracle: a working block shows nothing without all that it reads"
PASSED = "oracle: passes on where a working block ends"


class Rig:
    """A workbook with numbers in place of its results; the formulas stand beside them."""

    def __init__(self, bench: Bench, ground: Ground, trial: Trial) -> None:
        """Type a set of input, and hold fast what the references make of it."""
        self.bench, self.ground = bench, ground
        spec, file = ground.spec, ground.file
        typed = trial.type(spec, file, ground.lang)
        self.season = calculate_season(spec, trial.case.given, trial.case.rows)
        self.held = {**file.constants, **typed}
        self.formulas, self.live = list_alone(self.show(self.season))
        self.blocks, self.places = dict(list_blocks(spec)), name_places(file)
        cells = {each.cell for each in self.formulas} | {file.cell(end.name) for end in list_ends()}
        cells |= {cell for block in self.blocks for cell in file.names[block]}
        self.slots = {cell: bench.add(cell[0], file.formulas[cell][1:]) for cell in sorted(cells)}
        bench.type(typed)
        for key in {name for names in self.blocks.values() for name in names}:
            bench.engine.put(file.cell(key), bench.show(file.cell(key)))
        for key in self.list_keys():
            self.put(key, get(self.season, key))
        self.clear(read_graph(file))

    def show(self, season: Calculation) -> Scene:
        """Return the workbook with other values of the references."""
        return Scene(self.ground, self.held, season)

    def list_keys(self) -> list[str]:
        """Return everything that can be set."""
        spec, names = self.ground.spec, self.ground.file.names
        kinds = Result | Input | Choice
        keys = [n for n, q in spec.quantities.items() if isinstance(q, kinds) and n in names]
        for name, column in self.season.columns.items():
            keys += [f"{name} {row}" for row in range(1, len(column) + 1)]
        return [key for key in keys if is_free(key, spec, self.live)]

    def put(self, key: str, value: Value) -> None:
        """Set one cell; a blank is what formulas show for nothing."""
        cell = find_cell(key, self.ground.file)
        if value is None:
            self.bench.change({cell: '=""'})
        else:
            self.bench.engine.put(cell, value)

    def clear(self, graph: Graph) -> None:
        """Take away the formulas that nothing reads here."""
        file = self.ground.file
        fixed = {find_cell(key, file) for key in self.list_keys()}
        fixed |= {file.cell(name) for names in self.blocks.values() for name in names}
        reads = {cell: () if cell in fixed else graph.reads[cell] for cell in graph.reads}
        kept = fixed | spread((cell for each in self.slots for cell in graph.reads[each]), reads)
        for cell in file.formulas.keys() - kept:
            self.bench.model.clear_cell_contents(self.bench.engine.sheets[cell[0]], *cell[1:])

    def run(self) -> Iterator[tuple[Change, Sight]]:
        """Yield each round of changes, with what the formulas that it concerns should show."""
        yield from self.vary()
        yield from self.empty()
        yield from self.pass_on()

    def vary(self) -> Iterator[tuple[Change, Sight]]:
        """Yield what formulas should show by their references for what is set."""
        changes = [
            (each, change)
            for each in self.formulas
            for change in list_changes(each, self.ground.spec, self.season, self.live)
        ]
        for change in pack(changes):
            for key, value in change.items():
                self.put(key, value)
            self.bench.model.evaluate()
            yield change, self.want(change)
            for key in change:
                self.put(key, get(self.season, key))

    def empty(self) -> Iterator[tuple[Change, Sight]]:
        """Yield, for each name that a working block reads, that it shows nothing without it."""
        names = self.ground.file.names
        for name in sorted({name for outer in self.blocks.values() for name in outer}):
            value = self.bench.show(self.ground.file.cell(name))
            self.put(name, None)
            self.bench.model.evaluate()
            blocks = [block for block, outer in self.blocks.items() if name in outer]
            cells = [cell for block in blocks for cell in names[block]]
            yield {name: None}, {cell: Wanted(None, BLANK) for cell in cells}
            self.put(name, value)

    def pass_on(self) -> Iterator[tuple[Change, Sight]]:
        """Yield what follows where working blocks end, and what results make of that."""
        for end in list_ends():
            for values in end.tries:
                change = dict(zip(end.keys, values, strict=True))
                for key, value in change.items():
                    self.put(key, value)
                self.bench.model.evaluate()
                found = None if None in values else end.find(*values)
                yield change, {self.ground.file.cell(end.name): Wanted(found, PASSED)}

    def want(self, change: Change) -> Sight:
        """Return what the formulas should show that read what was changed."""
        season = set_keys(self.season, change)
        for name in self.live & season.values.keys():
            season.values[name] = self.bench.show(self.ground.file.cell(name))
        scene = self.show(season)
        wanted: Sight = {}
        for each in self.formulas:
            if is_apart(each, change):
                continue
            found = judge(each, scene)
            # Where the reference refuses the values, the workbook shows nothing, if it knows them.
            if not found and self.bench.look(self.slots[each.cell]) is None:
                found = Wanted(None, REFUSED)
            wanted |= {each.cell: found} if found else {}
        return wanted

    def list_faults(self, change: Change, wanted: Sight) -> Iterator[str]:
        """Yield the formulas that do not show what they should."""
        for cell, want in wanted.items():
            found = self.bench.look(self.slots[cell])
            if not agree(found, want.value, want.tolerance):
                told = f"shows {found!r}, {want.by} says {want.value!r}"
                yield f"{self.places.get(cell, show(cell))} by itself {told} for {change}"


def list_blocks(spec: Spec) -> Iterator[tuple[str, list[str]]]:
    """Yield the columns at the head of working blocks, each with the names that its block reads.

    Such a column reads no other one in its row; what follows waits for it.
    """
    for name, grid in spec.quantities.items():
        if isinstance(grid, Grid) and grid.guard:
            outer = "+".join(outer_names(grid, spec.quantities))
            names = guarded_names(outer, spec.quantities)[0]
            for column in grid_columns(grid, spec.quantities):
                formula = row_formula(grid, column, first=False)
                beside = {n.text for n in find_names(formula) if not n.prior} & {*grid.columns}
                if not column.blank and not beside:
                    yield f"{name}_{column.name}{LIST}", names


def try_alone(hunt: Hunt, rig: Rig) -> int:
    """Drop the mutants that show other values by themselves; return how many values were tried."""
    tried = 0
    for change, wanted in rig.run():
        hunt.faults += rig.list_faults(change, wanted)
        hunt.kill_near(wanted)
        kill_far(hunt, wanted)
        tried += len(wanted)
    return tried


def kill_far(hunt: Hunt, wanted: Sight) -> None:
    """Drop the mutants of working cells that show another value than is wanted of these cells."""
    for key, (_, slots) in list(hunt.far.items()):
        if any(hunt.is_wrong(slot, wanted.get(cell)) for cell, slot in slots.items()):
            hunt.drop(hunt.far, key)
