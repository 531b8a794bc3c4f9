"""What plays a season: the reference, an engine on a planned workbook, or the office program."""

import tempfile
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path
from typing import Protocol, cast

from builder.calculation import Calculator, Value
from builder.formula.grids import split_grid_name
from builder.plan.selftest import LIST_ROWS
from builder.replay.answers import Shown
from builder.replay.engine import Engine
from builder.replay.office import OfficeProgram, demand_office
from builder.replay.story import demand_words
from builder.spec.records import Grid, Record
from builder.spec.specification import Spec
from builder.trial.bench import ERROR, Bench, Sheets, as_value
from builder.trial.cases import Case
from builder.trial.comparison import as_number, as_place
from builder.write.workbook import write_book


class Player(Protocol):
    """Plays any number of seasons; nothing stays of the last."""

    def play(self, case: Case) -> Shown:
        """Return what each result and list shows, a word of a column as its place."""


@contextmanager
def open_player(engine: Engine, spec: Spec, lang: str) -> Iterator[Player]:
    """Yield what plays by an engine; what it has started ends with it."""
    if engine == Engine.REFERENCE:
        yield ReferencePlayer(spec)
    elif engine == Engine.IRONCALC:
        yield BenchPlayer(spec, lang)
    else:
        demand_office()
        with (
            OfficeProgram(spec.languages[lang].locale) as program,
            tempfile.TemporaryDirectory() as folder,
        ):
            yield OfficePlayer(spec, lang, program, Path(folder))


class ReferencePlayer:
    """The reference calculations, without any workbook."""

    def __init__(self, spec: Spec) -> None:
        """Sort what is calculated."""
        self.calculator = Calculator(spec)

    def play(self, case: Case) -> Shown:
        """Return what the references say."""
        found = self.calculator.work_out(case.given, case.rows)
        lists = {name: list(map(as_number, column)) for name, column in found.columns.items()}
        return {**{name: [as_number(value)] for name, value in found.values.items()}, **lists}


class BenchPlayer:
    """An engine with a workbook, into which one case after the other is typed."""

    def __init__(self, spec: Spec, lang: str) -> None:
        """Plan the workbook."""
        self.bench, self.names = Bench(spec, lang), list_names(spec)

    def play(self, case: Case) -> Shown:
        """Return what the workbook shows."""
        shown, bench = self.bench.type(case), self.bench
        return {
            name: list(read_places(name, [shown[spot] for spot in bench.names[name]], bench))
            for name in self.names
        }


class OfficePlayer:
    """The office program with a workbook open, into which one case after the other is typed."""

    def __init__(self, spec: Spec, lang: str, program: OfficeProgram, folder: Path) -> None:
        """Write the workbook without values, and open it."""
        self.sheets, self.program = Sheets(spec, lang), program
        self.names = list_names(spec)
        path = folder / "book.xlsx"
        path.write_bytes(write_book(self.sheets.book, {}))
        program.open(path)
        program.ask("recalculate")  # the file holds no values

    def play(self, case: Case) -> Shown:
        """Return what the program shows after it has worked out what depends on the case."""
        typed = self.sheets.turn_to(case)
        cells = [[sheet, row + 1, col + 1, value] for (sheet, row, col), value in typed.items()]
        areas = [self.sheets.book.names[name] for name in self.names]
        columns = [[a.sheet, a.col + 1, a.row + 1, a.last_row + 1] for a in areas]
        answer = cast("list[list[object]]", self.program.ask("answer", cells, columns))
        return {
            name: list(read_places(name, map(as_shown, column), self.sheets))
            for name, column in zip(self.names, answer, strict=True)
        }


def as_shown(value: object) -> Value:
    """Return what the program shows in a cell; it has no value for an error."""
    return ERROR if value is None else as_value(value)


def list_names(spec: Spec) -> list[str]:
    """Return the names of all results and lists that answer."""
    words = demand_words(spec)
    answers = (*words.told.values(), *words.asked.values(), *words.record.values())
    return [answer.name for answer in answers]


def read_places(name: str, shown: Iterable[Value], sheets: Sheets) -> Iterator[Value]:
    """Yield what cells show, a word of a column as its place."""
    part = split_grid_name(name, sheets.spec.quantities)
    quantity = sheets.spec.quantities[part.column if part else name]
    for value in shown:
        yield as_place(value, quantity, sheets.lang) if isinstance(quantity, Record) else value


def stretch(spec: Spec, rows: int, *, short: bool) -> Spec:
    """Return the specs with a log of as many rows, or of more where they have more.

    Grids that are as long as the log, or longer, change with it; a short one cuts others too.
    """
    log = spec.quantities[demand_words(spec).rows.grid]
    held = log.rows if isinstance(log, Grid) else rows
    wanted = max(rows, LIST_ROWS) if short else max(rows, held)
    quantities = dict(spec.quantities)
    for name, grid in spec.quantities.items():
        if isinstance(grid, Grid) and grid.rows > LIST_ROWS:
            longer = grid.rows - held + wanted if grid.rows >= held else min(grid.rows, wanted)
            quantities[name] = replace(grid, rows=longer)
    return replace(spec, quantities=quantities)
