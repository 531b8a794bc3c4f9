"""What `calc` shows: results by the references, and why some of them are blank."""

import inspect
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from builder.calculation import (
    Function,
    Known,
    Value,
    calculate_season,
    find_arguments,
    find_reference,
)
from builder.exchange.machine import Machine, canonical
from builder.spec.records import Check, Choice, Input, Result
from builder.spec.specification import Spec

NOT_GIVEN = "is not given"


@dataclass(frozen=True, slots=True)
class Calculation:
    """Values of all results and verdicts, columns of grids, and notes on what they rest on."""

    values: dict[str, Value]
    columns: dict[str, list[Value]]
    notes: list[str]


def work_out(machine: Machine, spec: Spec) -> Calculation:
    """Calculate a machine and note what is usual of it, what is missing and what stays blank."""
    found = calculate_season(spec, canonical(machine, spec), machine.entries)
    kept = list(note_kept(machine, spec))
    blanks = note_blanks({**found.columns, **found.values}, spec)
    return Calculation(found.values, found.columns, [*kept, *blanks])


def note_kept(machine: Machine, spec: Spec) -> Iterator[str]:
    """Yield a note for each input that the machine file left out."""
    for name, quantity in spec.quantities.items():
        if isinstance(quantity, Input | Choice) and name not in machine.given:
            if quantity.usual is None:
                yield f"{name} is not given."
            else:
                value = write_value(quantity.usual, quantity.unit)
                yield f"{name} is not given: usual is {value}."


def note_blanks(values: Known, spec: Spec) -> Iterator[str]:
    """Yield a note for each result that stays blank."""
    for name, quantity in spec.quantities.items():
        if isinstance(quantity, Result) and values[name] is None:
            causes = find_causes(name, values, spec)
            told = (f"{cause} {why}." if why == NOT_GIVEN else f"{why}." for cause, why in causes)
            yield f"{name} is blank: {' '.join(dict.fromkeys(told))}"


def list_missing(names: Iterable[str], calculation: Calculation, spec: Spec) -> list[str]:
    """Return the inputs that were not given and without which some of these names stay blank."""
    known = {**calculation.columns, **calculation.values}
    blank = [name for name in names if known[name] is None]
    causes = [cause for name in blank for cause in find_causes(name, known, spec)]
    return list(dict.fromkeys(name for name, why in causes if why == NOT_GIVEN))


def find_causes(name: str, values: Known, spec: Spec) -> Iterator[tuple[str, str]]:
    """Yield what is missing behind a blank quantity, or what refuses, each with the reason."""
    quantity = spec.quantities[name]
    if not isinstance(quantity, Result | Check):
        yield name, NOT_GIVEN
        return
    function = find_reference(quantity.reference)
    if not callable(function):
        return
    parameters = inspect.signature(function).parameters
    arguments = {p: values.get(inner) for p, inner in find_arguments(quantity, function).items()}
    blank = [
        inner
        for p, inner in find_arguments(quantity, function).items()
        if values.get(inner) is None and parameters[p].default is inspect.Parameter.empty
    ]
    for inner in blank:
        yield from find_causes(inner, values, spec)
    if not blank:
        yield from ((name, refusal) for refusal in find_refusal(function, arguments))


def find_refusal(function: Function, arguments: Known) -> Iterator[str]:
    """Yield the words with which a reference refuses its arguments."""
    try:
        function(**arguments)
    except ValueError as error:
        yield str(error)


def write_value(value: Value, unit: str) -> str:
    """Return a value with its unit, for a sentence."""
    if not isinstance(value, int | float):
        return value or "blank"
    return f"{value:.10g}" if unit in ("", "n") else f"{value:.10g} {unit}"


def list_ground(machine: Machine, calculation: Calculation, spec: Spec) -> dict[str, list[str]]:
    """Return which inputs that were not given are typical, usual or missing."""
    ground: dict[str, list[str]] = {"typical": [], "usual": [], "missing": []}
    for name, quantity in spec.quantities.items():
        if not isinstance(quantity, Input | Choice) or name in machine.given:
            continue
        if quantity.usual is not None:
            ground["usual"].append(name)
        elif isinstance(quantity, Input) and quantity.typical:
            known = calculation.values[quantity.typical] is not None
            ground["typical" if known else "missing"].append(name)
        elif isinstance(quantity, Input) and not quantity.optional:
            ground["missing"].append(name)
    return ground


def list_results(calculation: Calculation, spec: Spec) -> dict[str, Value]:
    """Return the results alone, in the order of the specs."""
    names = [name for name, quantity in spec.quantities.items() if isinstance(quantity, Result)]
    return {name: calculation.values[name] for name in names}


def list_checks(calculation: Calculation, spec: Spec) -> dict[str, Value]:
    """Return the verdicts alone; what nobody needs to fill in and nobody did is missing too."""
    names = [name for name, quantity in spec.quantities.items() if isinstance(quantity, Check)]
    told = {name: calculation.values[name] for name in names}
    return {name: "missing" if word == "none" else word for name, word in told.items()}
