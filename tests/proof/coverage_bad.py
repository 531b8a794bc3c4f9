"""Bad entries, block by block: beyond limits, letters, unknown units and words."""

from collections.abc import Iterator

from workbook.cases import Case, Row
from workbook.files import Value

from builder.spec.conversion import list_units
from builder.spec.records import Choice, Input
from builder.spec.specification import Spec
from proof.coverage_copies import IDENTITY
from proof.coverage_logs import ACID, RUN, WASH
from proof.coverage_trial import Trial

BRINK = 4e-10  # less than what counts as beyond a limit
UNKNOWN = "cubit"


def list_bad(spec: Spec) -> Iterator[Trial]:
    """Yield all of them."""
    for block in list_blocks(spec):
        yield from list_beyond(block)
        yield from list_brink(block)
        yield from list_words(block, spec)
    yield from list_choices(spec)
    yield Trial(Case("named"), {f"{key}_typed": f"a {key}" for key in IDENTITY})


def list_blocks(spec: Spec) -> list[list[Input]]:
    """Return the inputs of each block of the sheets."""
    blocks = [block for sheet in spec.sheets for block in sheet.blocks if block.kind == "inputs"]
    rows = [[spec.quantities[name] for name in block.rows] for block in blocks]
    return [[q for q in row if isinstance(q, Input)] for row in rows]


def list_beyond(block: list[Input]) -> Iterator[Trial]:
    """Yield inputs a little beyond each limit, and fractions of what is counted."""
    steps = {q.name: 1.0 if q.whole else (q.limits.max - q.limits.min) / 1000 for q in block}
    yield from make_trials("below", {q.name: q.limits.min - steps[q.name] for q in block})
    yield from make_trials("above", {q.name: q.limits.max + steps[q.name] for q in block})
    yield from make_trials("not whole", {q.name: q.limits.min + 0.5 for q in block if q.whole})


def make_trials(label: str, odd: dict[str, float]) -> Iterator[Trial]:
    """Yield a trial in which each of these numbers is refused."""
    if odd:
        case = Case(f"{label}: {', '.join(odd)}", dict.fromkeys(odd))
        yield Trial(case, {f"{name}_typed": value for name, value in odd.items()})


def list_brink(block: list[Input]) -> Iterator[Trial]:
    """Yield inputs beyond a limit by what a conversion of units may leave: they count as it."""
    for end, step in (("min", -BRINK), ("max", BRINK)):
        limits = {q.name: float(getattr(q.limits, end)) for q in block if not q.whole}
        for name, limit in limits.items():
            yield Trial(
                Case(f"{name} at its {end}", {name: limit}), {f"{name}_typed": limit + step}
            )


def list_words(block: list[Input], spec: Spec) -> Iterator[Trial]:
    """Yield letters for numbers, and numbers in units that nobody knows."""
    names = [q.name for q in block]
    if names:
        letters: dict[str, Value] = {f"{name}_typed": "abc" for name in names}
        yield Trial(Case(f"letters: {', '.join(names)}", dict.fromkeys(names)), letters)
    units = [q.name for q in block if has_unit(q, spec)]
    if units:
        odd: dict[str, Value] = {f"{name}_typed_unit": UNKNOWN for name in units}
        odd |= {f"{name}_typed": 0.5 for name in units}
        yield Trial(Case(f"unknown units: {', '.join(units)}", dict.fromkeys(units)), odd)


def has_unit(quantity: Input, spec: Spec) -> bool:
    """Tell whether the unit of an input can be chosen."""
    unit = quantity.unit
    return bool(unit) and len(list_units(spec.units[unit], spec.units)) > 1


def list_choices(spec: Spec) -> Iterator[Trial]:
    """Yield codes for words, and words that are no option."""
    for name, choice in spec.quantities.items():
        if isinstance(choice, Choice):
            code = list(choice.options)[-1]
            yield Trial(Case(f"{name} as a code", {name: code}), {f"{name}_typed": code})
            yield Trial(Case(f"{name} unknown", {name: None}), {f"{name}_typed": UNKNOWN})


def list_rows() -> Iterator[Trial]:
    """Yield rows of the log with letters for days and masses, and events as codes or unknown."""
    runs: list[Row] = [{**RUN, "day_d": None}, {**RUN, "day_d": None}, {**RUN, "day_d": 46451.0}]
    washes: list[Row] = [{**WASH}, {**ACID}]
    nobody: list[Row] = [{**WASH, "event": None}, {"event": None}]
    for label, rows, column, words in (
        ("letters for days", runs, "day_d", ("abc", "abc")),
        ("letters for masses", washes, "product_kg", ("abc", "abc")),
        ("events as codes", washes, "event", ("alkaline", "acid")),
        ("events unknown", nobody, "event", (UNKNOWN, UNKNOWN)),
    ):
        odd: dict[str, Value] = {f"log_{column}_list {n}": w for n, w in enumerate(words, start=1)}
        yield Trial(Case(label, rows={"log": rows}), odd)
