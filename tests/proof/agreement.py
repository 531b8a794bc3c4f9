"""Three engines and the reference on whole books, in every language and system of units."""

import tempfile
from collections.abc import Mapping
from concurrent.futures import ProcessPoolExecutor
from contextlib import ExitStack
from dataclasses import dataclass, field
from pathlib import Path

from workbook.engines import Engine, FormulasByForm, Ironcalc, Office
from workbook.files import Cell, File, Value, read_file, show
from workbook.tools import OFFICE, list_missing

from builder.calculation import Calculator
from builder.exchange.machine import Machine
from builder.production import build_workbook
from builder.spec.load import find_specs, load_spec
from builder.spec.rules_references import count_proofs
from builder.spec.specification import Spec
from builder.trial.cases import Case, draw_cases, list_fixed
from builder.trial.comparison import agree, list_differences
from builder.trial.placement import place_case
from proof.engines_office import ERROR, OfficeSheets
from proof.figures import Rate, Section

SEED, DRAWN = 20270, 14
RUNS = (
    ("en", "metric", "en-US"),
    ("en", "us", "en-US"),
    ("fr", "metric", "fr-CA"),
    ("fr", "imperial", "fr-CA"),
)
LISTED = 20
CORES = 2


@dataclass(slots=True)
class Tally:
    """How many comparisons were made and held, between engines and with the reference."""

    cells: int = 0
    compared: int = 0
    agreed: int = 0
    judged: int = 0
    right: int = 0
    faults: list[str] = field(default_factory=list)


def measure() -> Section:
    """Type the cases into all books."""
    with ProcessPoolExecutor(CORES) as pool:
        tallies = list(pool.map(run_book, range(len(RUNS))))
    faults = [fault for tally in tallies for fault in tally.faults[:LISTED]]
    faults += [f"LibreOffice left out: {text}" for text in list_missing(*OFFICE)]
    rates = [
        Rate(
            "cells on which ironcalc, formulas and LibreOffice agree to 1e-9",
            sum(tally.agreed for tally in tallies),
            sum(tally.compared for tally in tallies),
        ),
        Rate(
            "machines whose every result, verdict and judged column equals the reference",
            sum(tally.right for tally in tallies),
            sum(tally.judged for tally in tallies),
        ),
    ]
    cells = sum(tally.cells for tally in tallies)
    proofs = count_proofs(load_spec(find_specs()))
    lines = [
        "references by " + ", ".join(f"{proof}: {number}" for proof, number in proofs.items()),
        f"{len(RUNS)} books, {cells:,} formula cells; LibreOffice in the locales en-US and fr-CA",
        f"{DRAWN + 2} machines typed into each book: the specs' own, the worked case, drawn ones",
        "drawn are limits, ties, blanks and mixed units, with a log of random rows",
    ]
    return Section(
        "Engines and reference",
        "Every formula cell of the delivered books shows the same in three engines, "
        "and what has a reference equals it.",
        "what a program does that is none of the three; a wrong definition that formula and "
        "reference share (stories are for that).",
        rates,
        lines,
        faults,
    )


def run_book(number: int) -> Tally:
    """Build one book and type each case into every engine."""
    spec = load_spec(find_specs())
    lang, units, locale = RUNS[number]
    with tempfile.TemporaryDirectory() as folder, ExitStack() as stack:
        path = Path(folder) / f"book_{lang}_{units}.xlsx"
        path.write_bytes(build_workbook(spec, Machine(), lang, units))
        file = read_file(path)
        engines: dict[str, Engine] = {"ironcalc": Ironcalc(file), "formulas": FormulasByForm(file)}
        if not any(list_missing(*OFFICE)):
            engines["LibreOffice"] = OfficeSheets(stack.enter_context(Office(locale)), file)
        tally = Tally(cells=len(file.formulas))
        for case in [*list_fixed(spec), *draw_cases(spec, SEED + number, DRAWN)]:
            compare(case, engines, file, spec, lang, tally)
    return tally


def compare(
    case: Case, engines: Mapping[str, Engine], file: File, spec: Spec, lang: str, tally: Tally
) -> None:
    """Type one case into all engines, and count what they show alike."""
    typed = place_case(case, file.names, spec, lang)
    shown = {name: engine.solve(typed) for name, engine in engines.items()}
    first = shown["ironcalc"]
    for name, values in shown.items():
        if values is first:
            continue
        for cell in file.formulas:
            tally.compared += 1
            if cell in values and alike(first.get(cell), values[cell]):
                tally.agreed += 1
            else:
                tally.faults.append(describe(case, name, cell, first.get(cell), values))
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
