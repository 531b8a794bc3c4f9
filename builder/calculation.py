"""Works out all results and verdicts with the reference functions, without any workbook."""

import importlib
import inspect
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cache
from graphlib import TopologicalSorter
from typing import cast

from builder.formula.graph import sort_quantities
from builder.formula.grids import LIST, ROW_NUMBER, grid_columns, name_column
from builder.spec.records import Check, Choice, Constant, Grid, Input, Limits, Record, Result
from builder.spec.specification import Spec

Value = float | str | None
Known = dict[str, Value | list[Value]]
Entries = dict[str, list[dict[str, Value]]]
Judged = Result | Check | Record | Grid
Function = Callable[..., float | str | bool]
Filling = Callable[..., dict[str, list[Value]]]
PATH = re.compile(r"([a-z_]+)\.(\w+?)(?:\[(\d+)\])?")


@dataclass(frozen=True, slots=True)
class Calculation:
    """All quantities by name, and the columns of grids by names such as `log_sap_L_list`."""

    values: dict[str, Value]
    columns: dict[str, list[Value]]


@cache
def find_reference(path: str) -> Function | float:
    """Return `module.name` or `module.NAME[2]` of builder.reference, or raise LookupError."""
    parts = PATH.fullmatch(path)
    if parts is None:
        raise LookupError(path)
    try:
        found = getattr(importlib.import_module(f"builder.reference.{parts[1]}"), parts[2])
        return cast("Function | float", found[int(parts[3])] if parts[3] else found)
    except (ImportError, AttributeError, IndexError, TypeError) as error:
        raise LookupError(path) from error


@cache
def list_parameters(function: Function) -> Mapping[str, inspect.Parameter]:
    """Return the parameters of a reference function, which are the same all day."""
    return inspect.signature(function).parameters


def find_arguments(quantity: Judged, function: Function) -> dict[str, str]:
    """Return the quantity behind each parameter of a reference function."""
    renamed = quantity.arguments if isinstance(quantity, Result | Record) else {}
    return {name: renamed.get(name, name) for name in list_parameters(function)}


def calculate(spec: Spec, given: dict[str, Value]) -> dict[str, Value]:
    """Return every input, result and verdict for the given inputs, in canonical units.

    A result is None where one of its quantities is missing or where its reference refuses them.
    A verdict is `ok`, `look`, `stop`, `missing`, or `none` where nothing was measured.
    """
    return calculate_season(spec, given, {}).values


def calculate_season(spec: Spec, given: dict[str, Value], entries: Entries) -> Calculation:
    """Return the same with the typed rows of grids, by grid and row, and their worked columns."""
    return Calculator(spec).work_out(given, entries)


class Calculator:
    """The references of one set of specs, in the order in which they need each other."""

    def __init__(self, spec: Spec) -> None:
        """Sort quantities, and the columns of each grid that have a reference or are typed."""
        self.quantities = [spec.quantities[name] for name in sort_quantities(spec.quantities)]
        self.columns = {
            grid.name: sort_columns(
                [c for c in grid_columns(grid, spec.quantities) if c.entry or c.used or c.reference]
            )
            for grid in self.quantities
            if isinstance(grid, Grid)
        }
        records = (q for q in spec.quantities.values() if isinstance(q, Record))
        self.limits = {record.name: record.limits for record in records}

    def work_out(self, given: dict[str, Value], entries: Entries) -> Calculation:
        """Return everything for one machine and what was typed into its grids."""
        known: Known = {}
        columns: dict[str, list[Value]] = {}
        values: dict[str, Value] = dict(given)
        known.update(given)
        for quantity in self.quantities:
            name = quantity.name
            if isinstance(quantity, Grid):
                filled = self.fill_grid(quantity, known, entries.get(name, []))
                lists = {f"{name_column(name, key)}{LIST}": c for key, c in filled.items()}
                columns |= lists
                known |= lists
                known |= {f"{name}_{key}": column[-1] for key, column in filled.items()}
                continue
            if isinstance(quantity, Input | Choice):
                values.setdefault(name, quantity.usual)
            elif isinstance(quantity, Constant):
                values[name] = quantity.value
            elif isinstance(quantity, Result):
                values[name] = evaluate(quantity, known)
            elif isinstance(quantity, Check):
                blank = "missing" if quantity.needed else "none"
                values[name] = evaluate(quantity, known) or blank
            known[name] = values.get(name)
        return Calculation(values, columns)

    def fill_grid(
        self, grid: Grid, outside: Known, entries: list[dict[str, Value]]
    ) -> dict[str, list[Value]]:
        """Return the columns of a grid by name; blank rows follow the typed.

        Columns without a reference are a route to a result that has one, and are left out.
        """
        if grid.reference:
            return fill_whole(grid, outside)
        records = self.columns[grid.name]
        if not records:
            return {}
        filled: dict[str, list[Value]] = {r.name: [] for r in records if not r.used}
        prior: Known = {}
        lists = {f"ROW({key})": v for key, v in outside.items() if isinstance(v, list)}
        for number in range(grid.rows):
            typed = entries[number] if number < len(entries) else {}
            row: Known = {**outside, **prior, ROW_NUMBER: float(number + 1)}
            row |= find_beside(lists, number)
            row |= {name: row[bound] for name, bound in grid.bind.items() if bound in row}
            for record in records:
                if record.used:
                    row[record.name] = use(row.get(record.used), self.limits.get(record.used))
                    continue
                row[record.name] = typed.get(record.name) if record.entry else fill(record, row)
                filled[record.name].append(cast("Value", row[record.name]))
            prior = {f"PRIOR({record.name})": row[record.name] for record in records}
        return filled


def fill_whole(grid: Grid, known: Known) -> dict[str, list[Value]]:
    """Return the columns that the reference of a grid works out, each as long as the grid."""
    function = cast("Filling", find_reference(grid.reference))
    arguments = {name: known.get(name) for name in list_parameters(function)}
    padding: list[Value] = [None] * grid.rows
    found = function(**arguments)
    return {name: [*column, *padding][: grid.rows] for name, column in found.items()}


def use(typed: Value | list[Value], limits: Limits | None) -> Value:
    """Return a typed number inside its limits; nothing else can be used."""
    if isinstance(typed, float) and limits and limits.min <= typed <= limits.max:
        return typed
    return None


def sort_columns(records: list[Record]) -> list[Record]:
    """Return the columns of a row, what others need first."""
    known = {record.name: record for record in records}
    needs = {
        record.name: [name for name in list_needs(record) if name in known] for record in records
    }
    return [known[name] for name in TopologicalSorter(needs).static_order()]


def list_needs(record: Record) -> list[str]:
    """Return the names that the reference of a column asks for."""
    function = find_reference(record.reference) if record.reference else None
    return list(find_arguments(record, function).values()) if callable(function) else []


def find_beside(lists: dict[str, list[Value]], number: int) -> Known:
    """Return what other grids hold in the same row, by names such as `ROW(log_day_d_list)`."""
    return {key: column[number] for key, column in lists.items() if number < len(column)}


def fill(record: Record, row: Known) -> Value:
    """Return what a worked column shows in a row: its own blank, if that is a number, for None."""
    value = evaluate(record, row)
    return float(record.blank) if value is None and record.blank.isdecimal() else value


def evaluate(quantity: Judged, values: Known) -> Value:
    """Return what the reference says, or None."""
    if not quantity.reference:
        return None
    function = find_reference(quantity.reference)
    if not callable(function):
        raise LookupError(quantity.reference)  # noqa: TRY004 a wrong spec, not a wrong type
    arguments = {p: values.get(name) for p, name in find_arguments(quantity, function).items()}
    parameters = list_parameters(function)
    for parameter, value in arguments.items():
        if value is None and parameters[parameter].default is inspect.Parameter.empty:
            return None
    try:
        return function(**arguments)
    except ValueError:
        return None
