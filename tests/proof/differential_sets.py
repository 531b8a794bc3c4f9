"""Sets of inputs for the differential run: limits, ties, blanks, nonsense, machines, logs."""

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from itertools import chain, zip_longest

from reference.season import TODAY, make_season
from workbook.cases import Case, draw_cases, list_choices, place_case, typed_grids
from workbook.files import Cell, File, Value

from builder.formula.grids import grid_columns
from builder.spec.conversion import from_canonical, list_units
from builder.spec.records import Choice, Input
from builder.spec.specification import Spec
from proof.differential_logs import list_logs

SEED = 51
FEW, MANY = 5, 10  # inputs changed together: where each weighs, and where each only drops out
MACHINES, LOGS = 30, 42
TEXTS = ("abc", " ", "8")
UNKNOWN = "cubit"
ODD_NUMBERS = (-3.0, 1e9)

Spoiled = dict[tuple[str, int], Value]


@dataclass(frozen=True, slots=True)
class Trial:
    """What the reference is given, and what is typed otherwise, by name and place in its cells."""

    case: Case
    spoiled: Spoiled = field(default_factory=dict)

    @property
    def label(self) -> str:
        """Return what the set is about."""
        return self.case.label


def list_trials(spec: Spec) -> list[Trial]:
    """Return all sets, the kinds mixed so that any share of them holds some of each."""
    kinds = (
        list_limits(spec),
        list_ties(spec),
        list_zeros(spec),
        list_odd(spec),
        list_blanks(spec),
        list_texts(spec),
        list_unknown_units(spec),
        map(Trial, list_choices(spec)),
        list_unknown_words(spec),
        map(Trial, draw_machines(spec)),
        map(Trial, draw_cases(spec, SEED, LOGS)),
        (Trial(case, spoiled) for case, spoiled in list_logs(spec)),
    )
    mixed = chain.from_iterable(zip_longest(*kinds))
    return [Trial(Case("defaults")), make_typed_season(spec), *(t for t in mixed if t is not None)]


def list_inputs(spec: Spec) -> dict[str, Input]:
    """Return the numbers that are typed."""
    return {name: q for name, q in spec.quantities.items() if isinstance(q, Input)}


def group(names: list[str], size: int) -> Iterator[list[str]]:
    """Yield names some apart from each other, `size` together."""
    step = -(-len(names) // size)
    yield from (names[first::step] for first in range(step))


def list_limits(spec: Spec) -> Iterator[Trial]:
    """Yield a few inputs at their limits: all low, all high, and each the other way round."""
    inputs = list_inputs(spec)
    for names in group(list(inputs), FEW):
        for turn, ends in enumerate(("low", "high", "low and high")):
            limits = [inputs[name].limits for name in names]
            picks = [(place if turn == 2 else turn) % 2 for place in range(len(names))]
            values = [(x.min, x.max)[pick] for x, pick in zip(limits, picks, strict=True)]
            label = f"{ends}: {', '.join(names)}"
            yield Trial(Case(label, dict(zip(names, values, strict=True))))


def list_ties(spec: Spec) -> Iterator[Trial]:
    """Yield all inputs of a unit at one number: each number that one of them has as its example."""
    by_unit: dict[str, dict[str, Input]] = {}
    for name, quantity in list_inputs(spec).items():
        by_unit.setdefault(quantity.unit, {})[name] = quantity
    for unit, inputs in by_unit.items():
        examples = sorted({q.value for q in inputs.values() if q.value is not None})
        for value in examples[:: max(1, len(examples) // 2)]:
            tied = {n: value for n, q in inputs.items() if q.limits.min <= value <= q.limits.max}
            if len(tied) > 1:
                yield Trial(Case(f"all {unit or 'numbers'} = {value:g}", dict(tied)))


def list_zeros(spec: Spec) -> Iterator[Trial]:
    """Yield inputs at zero, within their limits or not."""
    for names in group(list(list_inputs(spec)), FEW):
        yield Trial(Case(f"zero: {', '.join(names)}", dict.fromkeys(names, 0.0)))


def list_odd(spec: Spec) -> Iterator[Trial]:
    """Yield inputs far outside their limits."""
    for place, names in enumerate(group(list(list_inputs(spec)), MANY)):
        number = ODD_NUMBERS[place % len(ODD_NUMBERS)]
        yield Trial(Case(f"{number:g}: {', '.join(names)}", dict.fromkeys(names, number)))


def list_blanks(spec: Spec) -> Iterator[Trial]:
    """Yield inputs left blank."""
    for names in group(list(list_inputs(spec)), FEW):
        yield Trial(Case(f"blank: {', '.join(names)}", dict.fromkeys(names)))


def list_texts(spec: Spec) -> Iterator[Trial]:
    """Yield texts in the cells of numbers, which count as blanks."""
    for place, names in enumerate(group(list(list_inputs(spec)), MANY)):
        text = TEXTS[place % len(TEXTS)]
        case = Case(f"text {text!r}: {', '.join(names)}", dict.fromkeys(names))
        yield Trial(case, {(f"{name}_typed", 0): text for name in names})


def list_unknown_units(spec: Spec) -> Iterator[Trial]:
    """Yield numbers in a unit that nobody knows, which count as blanks."""
    inputs = {name: q for name, q in list_inputs(spec).items() if has_unit_cell(q, spec)}
    for names in group(list(inputs), MANY):
        spoiled: Spoiled = {(f"{name}_typed", 0): inputs[name].limits.max for name in names}
        spoiled |= {(f"{name}_typed_unit", 0): UNKNOWN for name in names}
        yield Trial(Case(f"unknown unit: {', '.join(names)}", dict.fromkeys(names)), spoiled)


def has_unit_cell(quantity: Input, spec: Spec) -> bool:
    """Tell whether the unit of a number is typed: others measure the same."""
    return len(list_units(spec.units[quantity.unit], spec.units)) > 1


def list_unknown_words(spec: Spec) -> Iterator[Trial]:
    """Yield a word that is no option in the cell of each choice, which counts as a blank."""
    for name, quantity in spec.quantities.items():
        if isinstance(quantity, Choice):
            case = Case(f"unknown word: {name}", {name: None})
            yield Trial(case, {(f"{name}_typed", 0): UNKNOWN})


def draw_machines(spec: Spec) -> Iterator[Case]:
    """Yield random machines without rows."""
    for case in draw_cases(spec, SEED + 1, MACHINES):
        yield replace(case, rows={})


def make_typed_season(spec: Spec) -> Trial:
    """Return sixty days of a made-up season on the machine of its last day."""
    given = {n: v for n, v in TODAY.items() if isinstance(spec.quantities.get(n), Input | Choice)}
    return Trial(Case("season", dict(given), {"log": make_season()}))


def is_within_limits(case: Case, spec: Spec) -> bool:
    """Tell whether the reference answers for all that is given: numbers and days within limits."""
    columns = {
        column.name: column
        for grid in typed_grids(spec).values()
        for column in grid_columns(grid, spec.quantities)
        if column.entry == "date"
    }
    limited = {name: q.limits for name, q in (list_inputs(spec) | columns).items() if q.limits}
    items = chain(case.given.items(), *(row.items() for rows in case.rows.values() for row in rows))
    return all(
        limited[name].min <= value <= limited[name].max
        for name, value in items
        if name in limited and isinstance(value, float)
    )


def place_trial(trial: Trial, file: File, spec: Spec, lang: str, units: str) -> dict[Cell, Value]:
    """Return what has to be typed into which cells of a book of a system of units."""
    given = {n: v for n, v in trial.case.given.items() if (f"{n}_typed", 0) not in trial.spoiled}
    typed = place_case(replace(trial.case, given=given), file, spec, lang)
    if units != "metric":
        express_columns(typed, file, spec, units)
    return typed | {file.names[name][place]: v for (name, place), v in trial.spoiled.items()}


def express_columns(typed: dict[Cell, Value], file: File, spec: Spec, units: str) -> None:
    """Convert typed columns to the units that the book's headings show, as its owner types."""
    for grid in typed_grids(spec).values():
        for column in grid_columns(grid, spec.quantities):
            heading = file.names.get(f"{grid.name}_{column.name}_typed_unit")
            if heading and typed.pop(heading[0], None):
                own = spec.units[column.unit]
                shown = spec.units[own.reader[units]]
                for cell in file.names[f"{grid.name}_{column.name}_list"]:
                    value = typed.get(cell)
                    if isinstance(value, float):
                        typed[cell] = from_canonical(value, shown, own)
