"""Oracle of the self-test: what each copy should give for the worked case, by the references."""

from collections.abc import Iterator

from workbook.files import File, Value

from builder.calculation import Calculation, Entries, calculate_season
from builder.production import shorten
from builder.spec.records import Check, Grid, Result, Tolerance
from builder.spec.specification import Spec
from proof.coverage_scene import LABEL, Sight, Wanted

STORED, AGAIN, AGREES = 2, 3, 4
FIRST = 8
CLOSE = Tolerance(1e-12, 1e-9, "the sheet's own")
REFERENCE, STORE = "oracle: self-test by reference", "oracle: self-test by stored value"


def want_selftest(spec: Spec, file: File, lang: str) -> Sight:
    """Yield what the copies should give; those of working columns, the number stored beside."""
    title = file.cell("selftest_n")[0]
    named: dict[str, list[Wanted]] = {}
    for label, wanted in name_copies(shorten(spec), lang):
        named.setdefault(label, []).append(wanted)
    copies = [c for c in file.formulas if c[0] == title and c[2] == AGAIN and c[1] >= FIRST]
    for cell in copies:
        row = cell[1]
        stored = file.constants[title, row, STORED]
        label = str(file.constants[title, row, LABEL])
        known = [wanted for wanted in named.get(label, []) if is_near(wanted, stored)]
        yield cell, known[0] if known else Wanted(stored, STORE, CLOSE)
        yield (title, row, AGREES), Wanted(1.0, "oracle: self-test agrees")
    for name in ("selftest_agree_n", "selftest_n"):
        yield file.cell(name), Wanted(float(len(copies)), "oracle: self-test agrees")


def is_near(wanted: Wanted, stored: Value) -> bool:
    """Tell whether a reference means the copy of this stored number: labels are not unique."""
    if isinstance(wanted.value, float) and isinstance(stored, float):
        return abs(wanted.value - stored) <= abs(stored) * 1e-4 + 1e-5
    return wanted.value == stored


def name_copies(spec: Spec, lang: str) -> Iterator[tuple[str, Wanted]]:
    """Yield what the references say of the worked case, by the label of the copy."""
    season = work_case(spec)
    for name, quantity in spec.quantities.items():
        label = quantity.label.pick(lang)
        if isinstance(quantity, Result):
            yield label, Wanted(as_number(season.values[name]), REFERENCE, quantity.tolerance)
        elif isinstance(quantity, Check):
            verdict = season.values[name]
            held = verdict == "ok" or (bool(quantity.close) and verdict != quantity.level)
            yield label, Wanted(float(held), REFERENCE)
        elif isinstance(quantity, Grid):
            for column in quantity.columns:
                part = spec.quantities[column].label.pick(lang)
                for value in season.columns.get(f"{name}_{column}_list", [])[:1]:
                    yield f"{label} – {part}", Wanted(as_number(value), REFERENCE)


def work_case(spec: Spec) -> Calculation:
    """Return the worked case by the references."""
    given: dict[str, Value] = {"reader_units": "metric"}
    for name, value in spec.worked.given.items():
        given[name] = float(value) if isinstance(value, int | float) else str(value)
    entries: Entries = {
        grid: [{key: as_number(value) for key, value in row.items()} for row in rows]
        for grid, rows in spec.worked.entries.items()
    }
    return calculate_season(spec, given, entries)


def as_number(value: Value) -> Value:
    """Return whole numbers as the kind of number that workbooks hold."""
    return float(value) if isinstance(value, int | float) else value
