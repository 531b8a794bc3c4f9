"""What `calc` shows: results by the references, and why some of them are blank."""

import inspect
from collections.abc import Iterator
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


@dataclass(frozen=True, slots=True)
class Calculation:
    """Values of all results and verdicts, and notes on what they rest on."""

    values: dict[str, Value]
    notes: list[str]


def work_out(machine: Machine, spec: Spec) -> Calculation:
    """Calculate a machine and note which inputs kept the specs' value and what stays blank."""
    found = calculate_season(spec, canonical(machine, spec), machine.entries)
    kept = list(note_kept(machine, spec))
    blanks = note_blanks({**found.columns, **found.values}, spec)
    return Calculation(found.values, [*kept, *blanks])


def note_kept(machine: Machine, spec: Spec) -> Iterator[str]:
    """Yield a note for each input that the machine file left out."""
    for name, quantity in spec.quantities.items():
        if isinstance(quantity, Input | Choice) and name not in machine.given:
            if quantity.value is None:
                yield f"{name} is not given."
            else:
                value = write_value(quantity.value, quantity.unit)
                yield f"{name} keeps the specs' value, {value}."


def note_blanks(values: Known, spec: Spec) -> Iterator[str]:
    """Yield a note for each result that stays blank."""
    for name, quantity in spec.quantities.items():
        if isinstance(quantity, Result) and values[name] is None:
            yield f"{name} is blank: {' '.join(dict.fromkeys(find_causes(name, values, spec)))}"


def find_causes(name: str, values: Known, spec: Spec) -> Iterator[str]:
    """Yield the inputs that are missing behind a blank quantity, or the refusal behind it."""
    quantity = spec.quantities[name]
    if not isinstance(quantity, Result | Check):
        yield f"{name} is not given."
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
        yield from find_refusal(function, arguments)


def find_refusal(function: Function, arguments: Known) -> Iterator[str]:
    """Yield the words with which a reference refuses its arguments."""
    try:
        function(**arguments)
    except ValueError as error:
        yield f"{error}."


def write_value(value: Value, unit: str) -> str:
    """Return a value with its unit, for a sentence."""
    if not isinstance(value, int | float):
        return value or "blank"
    return f"{value:.10g}" if unit in ("", "n") else f"{value:.10g} {unit}"


def list_results(calculation: Calculation, spec: Spec) -> dict[str, Value]:
    """Return the results alone, in the order of the specs."""
    names = [name for name, quantity in spec.quantities.items() if isinstance(quantity, Result)]
    return {name: calculation.values[name] for name in names}


def write_table(calculation: Calculation, spec: Spec) -> str:
    """Return results and verdicts as lines of name, value, unit and label."""
    rows = []
    for name, quantity in spec.quantities.items():
        if isinstance(quantity, Result | Check):
            value = calculation.values[name]
            digits = quantity.digits
            shown = f"{value:.{digits}f}" if isinstance(value, int | float) else value or "-"
            unit = "" if quantity.unit == "n" else quantity.unit
            rows.append((name, shown, unit, quantity.label.pick(spec.main_language)))
    wide = [max(map(len, column)) for column in zip(*rows, strict=True)]
    return "\n".join(
        f"{name:<{wide[0]}}  {shown:>{wide[1]}}  {unit:<{wide[2]}}  {label}"
        for name, shown, unit, label in rows
    )
