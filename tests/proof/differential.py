"""The differential run: every formula cell of the six books in three engines, on many inputs.

Each book meets three fifths of the sets, another three for each book. The metric French book meets
them in the office program of somebody whose system speaks French as in Canada.
"""

import math
import tempfile
from collections.abc import Iterator, Mapping
from concurrent.futures import ProcessPoolExecutor
from contextlib import ExitStack
from dataclasses import dataclass
from pathlib import Path

from workbook.comparison import list_differences
from workbook.engines import Engine, Formulas, Ironcalc
from workbook.files import File, read_file
from workbook.tools import OFFICE, list_missing

from builder.exchange.machine import Machine
from builder.production import build_workbook
from builder.spec.load import find_specs, load_spec
from builder.spec.specification import Spec
from proof.differential_compare import Judge, Tally
from proof.differential_sets import Trial, is_within_limits, list_trials, place_trial
from proof.engines import FormulasByForm
from proof.engines_office import OfficeIn, OfficeSheets
from proof.figures import Better, Figure, Section

CORES = 2
SHARED = 2  # sets that every run begins with: the defaults and a typed season
LISTED = 20  # faults of one run that are listed
TRIED = "vessel_bore_mm_typed"  # a typed cell in which keys are struck


@dataclass(frozen=True, slots=True)
class Run:
    """One book in all engines, the office program in a locale."""

    lang: str
    units: str
    locale: str

    @property
    def title(self) -> str:
        """Return how faults name the run."""
        return f"{self.lang} {self.units} {self.locale}"


RUNS = (
    Run("fr", "metric", "fr-CA"),
    Run("fr", "us", "en-US"),
    Run("fr", "imperial", "en-US"),
    *(Run("en", units, "en-US") for units in ("metric", "us", "imperial")),
)


@dataclass(frozen=True, slots=True)
class Outcome:
    """What one run found."""

    run: Run
    engines: int
    cells: int
    sets: list[str]
    tally: Tally
    faults: list[str]


def measure() -> Section:
    """Return the figures and faults of all runs; two at a time."""
    with ProcessPoolExecutor(CORES) as pool:
        whole = pool.submit(check_forms)
        outcomes = list(pool.map(run_book, RUNS))
        faults = [fault for outcome in outcomes for fault in outcome.faults] + whole.result()
    faults += list_lacking()
    lines = [
        f"{outcome.run.title}: {len(outcome.sets)} sets, {outcome.tally.judged} of them with "
        f"the reference, {outcome.tally.comparisons} comparisons"
        for outcome in outcomes
    ]
    return Section("Differential run", list(list_figures(outcomes)), lines, faults)


def list_lacking() -> list[str]:
    """Return why an engine is left out."""
    return [f"differential run without LibreOffice: {text}" for text in list_missing(*OFFICE)]


def list_figures(outcomes: list[Outcome]) -> Iterator[Figure]:
    """Yield the figures of all runs together."""
    books = {(o.run.lang, o.run.units): o.cells for o in outcomes}
    tallies = [outcome.tally for outcome in outcomes]
    sets = {label for outcome in outcomes for label in outcome.sets}
    yield Figure("books", len(books), Better.HIGHER)
    yield Figure("formula cells in all books", sum(books.values()), Better.ANY)
    yield Figure("engines", min(o.engines for o in outcomes), Better.HIGHER)
    yield Figure("input sets", len(sets), Better.HIGHER)
    yield Figure(
        "input sets of the book with the fewest", min(len(o.sets) for o in outcomes), Better.HIGHER
    )
    yield Figure("comparisons made", sum(t.comparisons for t in tallies), Better.ANY)
    for told, name in ((False, "two engines"), (True, "engine and reference")):
        worst = round_up(max(t.worst[told] for t in tallies))
        yield Figure(f"worst relative disagreement of {name}, below", worst, Better.LOWER)
    yield Figure("cells with an error code", sum(t.errors for t in tallies), Better.LOWER)
    yield Figure("cells missing in an engine", sum(t.missing for t in tallies), Better.LOWER)


def round_up(worst: float) -> float:
    """Return the next power of ten: the last bits differ from one processor to the next."""
    return 10.0 ** math.ceil(math.log10(worst)) if worst else 0.0


def run_book(run: Run) -> Outcome:
    """Build a book and type its share of the sets into every engine."""
    spec = load_spec(find_specs())
    trials = deal(list_trials(spec), RUNS.index(run))
    with tempfile.TemporaryDirectory() as folder, ExitStack() as stack:
        file = build(spec, run, Path(folder))
        engines, faults = open_engines(run, file, stack)
        tally = type_sets(trials, engines, file, spec, run)
    faults += list_faults(run, tally)
    labels = [trial.label for trial in trials]
    return Outcome(run, len(engines), len(file.formulas), labels, tally, faults)


def open_engines(run: Run, file: File, stack: ExitStack) -> tuple[dict[str, Engine], list[str]]:
    """Return the engines with a book, the office program if it is there, and faults."""
    engines: dict[str, Engine] = {
        "ironcalc": Ironcalc(file),
        "formulas": FormulasByForm(file),
    }
    if any(list_missing(*OFFICE)):
        return engines, []
    sheets = OfficeSheets(stack.enter_context(OfficeIn(run.locale)), file)
    fine = sheets.reads_commas(file.cell(TRIED))
    return {**engines, "LibreOffice": sheets}, [] if fine else [f"{run.title}: not this locale"]


def deal(trials: list[Trial], place: int) -> list[Trial]:
    """Return the share of one run: what all have, and three of every five others."""
    rest = trials[SHARED:]
    return trials[:SHARED] + [t for number, t in enumerate(rest, start=place) if number % 5 < 3]


def build(spec: Spec, run: Run, folder: Path) -> File:
    """Build a book as it is delivered."""
    path = folder / f"book_{run.lang}_{run.units}.xlsx"
    path.write_bytes(build_workbook(spec, Machine(), run.lang, run.units))
    return read_file(path)


def type_sets(
    trials: list[Trial], engines: Mapping[str, Engine], file: File, spec: Spec, run: Run
) -> Tally:
    """Type each set into all engines and compare what they show."""
    judge, tally = Judge(file, spec, run.lang), Tally()
    for trial in trials:
        typed = place_trial(trial, file, spec, run.lang, run.units)
        shown = {name: engine.solve(typed) for name, engine in engines.items()}
        judge.compare_engines(trial.label, shown, tally)
        if is_within_limits(trial.case, spec):
            judge.compare_reference(trial.case, shown, tally)
    return tally


def list_faults(run: Run, tally: Tally) -> list[str]:
    """Return the first faults of a run, and how many more there are."""
    faults = [f"{run.title}: {text}" for text in list(tally.faults.values())[:LISTED]]
    more = len(tally.faults) - len(faults)
    return faults + ([f"{run.title}: {more} more cells differ"] if more else [])


def check_forms() -> list[str]:
    """Return where working out each form once differs from the engine's own model of a book."""
    spec, run = load_spec(find_specs()), RUNS[0]
    with tempfile.TemporaryDirectory() as folder:
        file = build(spec, run, Path(folder))
        differences = list_differences(Formulas(file).solve({}), FormulasByForm(file).solve({}))
    return [f"{run.title}: formulas by form: {text}" for text in differences[:LISTED]]
