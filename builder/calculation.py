"""Works out all results and verdicts with the reference functions, without any workbook."""

import importlib
import inspect
import re
from collections.abc import Callable
from typing import cast

from builder.formula.graph import sort_quantities
from builder.spec.records import Check, Choice, Constant, Input, Result, Spec

Value = float | str | None
Function = Callable[..., float | str | bool]
PATH = re.compile(r"([a-z_]+)\.(\w+?)(?:\[(\d+)\])?")


def find_reference(path: str) -> Function | float:
    """Return `module.name` or `module.NAME[2]` of builder.reference; raise LookupError if absent."""
    parts = PATH.fullmatch(path)
    if parts is None:
        raise LookupError(path)
    try:
        found = getattr(importlib.import_module(f"builder.reference.{parts[1]}"), parts[2])
        return cast("Function | float", found[int(parts[3])] if parts[3] else found)
    except (ImportError, AttributeError, IndexError, TypeError) as error:
        raise LookupError(path) from error


def find_arguments(quantity: Result | Check, function: Function) -> dict[str, str]:
    """Return the quantity behind each parameter of a reference function."""
    renamed = quantity.arguments if isinstance(quantity, Result) else {}
    return {name: renamed.get(name, name) for name in inspect.signature(function).parameters}


def calculate(spec: Spec, given: dict[str, Value]) -> dict[str, Value]:
    """Return every input, result and verdict for the given inputs, in canonical units.

    A result is None where one of its quantities is missing or where its reference refuses them.
    A verdict is `ok`, `look`, `stop`, `missing`, or `none` where nothing was measured.
    """
    values: dict[str, Value] = dict(given)
    for name in sort_quantities(spec.quantities):
        quantity = spec.quantities[name]
        if isinstance(quantity, Input | Choice):
            values.setdefault(name, quantity.value)
        elif isinstance(quantity, Constant):
            values[name] = quantity.value
        elif isinstance(quantity, Result):
            values[name] = evaluate(quantity, values)
        elif isinstance(quantity, Check):
            blank = "missing" if quantity.needed else "none"
            values[name] = evaluate(quantity, values) or blank
    return values


def evaluate(quantity: Result | Check, values: dict[str, Value]) -> Value:
    """Return what the reference says, or None."""
    function = find_reference(quantity.reference)
    if not callable(function):
        raise LookupError(quantity.reference)
    arguments = {p: values.get(name) for p, name in find_arguments(quantity, function).items()}
    needed = {
        p: value
        for p, value in arguments.items()
        if inspect.signature(function).parameters[p].default is inspect.Parameter.empty
    }
    if any(value is None for value in needed.values()):
        return None
    try:
        return function(**arguments)
    except ValueError:
        return None
