"""Three engines and the reference on books in every language and system of units."""

import tempfile
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from concurrent.futures import ProcessPoolExecutor
from contextlib import ExitStack
from dataclasses import dataclass, field, replace
from pathlib import Path

from workbook.engines import Engine, FormulasByForm, Ironcalc, Office
from workbook.files import Cell, File, Value, read_file, show
from workbook.tools import OFFICE, list_missing

from builder.calculation import Calculator
from builder.exchange.machine import Machine
from builder.production import build_workbook, shorten
from builder.replay.entries import make_case
from builder.replay.story import read_stories
from builder.spec.load import find_specs, load_spec
from builder.spec.rules_references import count_proofs
from builder.spec.specification import Spec
from builder.trial.cases import Case, draw_cases, list_fixed
from builder.trial.comparison import agree, list_differences
from builder.trial.placement import place_case
from builder.trial.trial import KEPT, LONGEST
from proof.engines_office import ERROR, OfficeSheets
from proof.figures import Rate, Section

OTHER, OFFICE_ENGINE = "formulas", "LibreOffice"
SEED, DRAWN = 20270, 8
RUNS = (
    ("en", "metric", "en-US"),
    ("en", "us", "en-US"),
    ("fr", "metric", "fr-CA"),
    ("fr", "imperial", "fr-CA"),
)
FOLDER = Path(__file__).parents[1] / "stories"
STORIES = 5  # typed into the short book of each run
LEAST = 1.0
LISTED, SHOWN = 20, 5
CORES = 2


@dataclass(slots=True)
class Tally:
    """How many comparisons were made and held, between engines and with the reference."""

    whole: int = 0
    short: int = 0
    compared: Counter[str] = field(default_factory=Counter)
    agreed: Counter[str] = field(default_factory=Counter)
    judged: int = 0
    right: int = 0
    apart: list[str] = field(default_factory=list)
    faults: list[str] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class Bench:
    """One book in several engines, the first of which the others are compared with."""

    spec: Spec
    lang: str
    file: File
    engines: Mapping[str, Engine]


def measure() -> Section:
    """Type the cases into all books."""
    with ProcessPoolExecutor(CORES) as pool:
        tallies = list(pool.map(run_book, range(len(RUNS))))
    faults = [fault for tally in tallies for fault in tally.faults[:LISTED]]
    faults += [f"LibreOffice left out: {text}" for text in list_missing(*OFFICE)]
    rates = [
        Rate(
            f"cells on which ironcalc and {engine} agree to 1e-9",
            sum(tally.agreed[engine] for tally in tallies),
            sum(tally.compared[engine] for tally in tallies),
            LEAST,
        )
        for engine in (OTHER, OFFICE_ENGINE)
    ]
    rates.append(
        Rate(
            "machines whose every result, verdict and judged column equals the reference",
            sum(tally.right for tally in tallies),
            sum(tally.judged for tally in tallies),
        )
    )
    return Section(
        "Engines and reference",
        "Every formula cell of the delivered books shows the same in ironcalc and LibreOffice, "
        "those of books with long grids cut the same in formulas, "
        "and what has a reference equals it.",
        "what a program does that is none of the three; rows of the log beyond the short book in "
        "formulas, which is too slow for them; a wrong definition that formula and reference share "
        "(stories are for that, and the tests of the references: published values, PHREEQC over a "
        "grid of solutions, forecasts of simulated seasons).",
        rates,
        list(list_lines(tallies)),
        faults,
    )


def list_lines(tallies: list[Tally]) -> Iterator[str]:
    """Yield what was compared."""
    proofs = count_proofs(load_spec(find_specs()))
    whole, short = (sum(getattr(t, size) for t in tallies) for size in ("whole", "short"))
    yield "references by " + ", ".join(f"{proof}: {number}" for proof, number in proofs.items())
    yield (
        f"{len(RUNS)} whole books, {whole:,} formula cells, and as many with a log of {KEPT} rows, "
        f"{short:,} formula cells; LibreOffice in the locales en-US and fr-CA"
    )
    yield (
        f"{DRAWN + 2} machines typed into each book: a blank one, the worked case, drawn ones; "
        f"into each short one {STORIES} stories too"
    )
    yield "drawn are limits, ties, blanks and mixed units, with a log of random rows"
    yield from [f"apart: {cell}" for tally in tallies for cell in tally.apart][:SHOWN]


def run_book(number: int) -> Tally:
    """Build one book, whole and short, and type each case into the engines."""
    spec, tally = load_spec(find_specs()), Tally()
    with tempfile.TemporaryDirectory() as folder, ExitStack() as stack:
        file = build(spec, number, Path(folder) / "whole.xlsx")
        engines: dict[str, Engine] = {"ironcalc": Ironcalc(file)}
        lang, _, locale = RUNS[number]
        if not any(list_missing(*OFFICE)):
            engines[OFFICE_ENGINE] = OfficeSheets(stack.enter_context(Office(locale)), file)
        tally.whole = len(file.formulas)
        compare_all(list_cases(spec, number), Bench(spec, lang, file, engines), tally)
        short = shorten(spec, LONGEST, KEPT)
        file = build(short, number, Path(folder) / "short.xlsx")
        engines = {"ironcalc": Ironcalc(file), OTHER: FormulasByForm(file)}
        tally.short = len(file.formulas)
        cases = [*list_cases(short, number), *list_stories(short, number)]
        compare_all(cases, Bench(short, lang, file, engines), tally)
    return tally


def build(spec: Spec, number: int, path: Path) -> File:
    """Return the book of a run."""
    lang, units, _ = RUNS[number]
    path.write_bytes(build_workbook(spec, Machine(), lang, units))
    return read_file(path)


def list_cases(spec: Spec, number: int) -> list[Case]:
    """Return the machines of a run, read in the units of its book unless they say otherwise."""
    usual: dict[str, Value] = {"reader_units": RUNS[number][1]}
    cases = [*list_fixed(spec), *draw_cases(spec, SEED + number, DRAWN)]
    return [replace(case, given={**usual, **case.given}) for case in cases]


def list_stories(spec: Spec, number: int) -> list[Case]:
    """Return stories from all over the collection, others in each run, as far as they fit."""
    stories = read_stories(sorted(FOLDER.glob("*.toml")), spec)
    few = [story for story in stories if len(story.rows) <= KEPT][number :: len(RUNS)]
    return [make_case(story, spec) for story in few[:: len(few) // STORIES][:STORIES]]


def compare_all(cases: Iterable[Case], bench: Bench, tally: Tally) -> None:
    """Type cases into all engines of a book, and count what they show alike."""
    for case in cases:
        compare(case, bench, tally)


def compare(case: Case, bench: Bench, tally: Tally) -> None:
    """Type one case into all engines, and count what they show alike."""
    file, spec, lang = bench.file, bench.spec, bench.lang
    typed = place_case(case, file.names, spec, lang)
    shown = {name: engine.solve(typed) for name, engine in bench.engines.items()}
    first = shown.pop("ironcalc")
    for name, values in shown.items():
        for cell in file.formulas:
            tally.compared[name] += 1
            if cell in values and alike(first.get(cell), values[cell]):
                tally.agreed[name] += 1
            else:
                tally.apart.append(describe(case, name, cell, first.get(cell), values))
    reference = Calculator(spec).work_out(case.given, case.rows)
    differences = list(list_differences(reference, first, file.names, spec, lang))
    tally.judged += 1
    tally.right += not differences
    tally.faults += [f"{case.label}: {difference}" for difference in differences]


def alike(one: Value, other: Value) -> bool:
    """Tell whether two cells show the same; of an error only that it is one."""
    return agree(one, other) or (str(one).startswith("#") and other == ERROR)


def describe(case: Case, engine: str, cell: Cell, value: Value, values: dict[Cell, Value]) -> str:
    """Return where two engines differ."""
    found = values.get(cell, "no cell")
    return f"{case.label}: {show(cell)}: ironcalc {value!r}, {engine} {found!r}"
