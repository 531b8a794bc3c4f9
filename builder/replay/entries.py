"""Turns a story into what is typed: inputs, lines in force and rows of the log."""

from collections.abc import Mapping
from datetime import date

from builder.calculation import Value
from builder.exchange.demo import read_demo
from builder.exchange.machine import canonical
from builder.replay.story import LINES, UNITS, Row, Story, demand_words
from builder.spec.conversion import from_canonical
from builder.spec.records import Unit
from builder.spec.specification import Spec
from builder.spec.stories import EVENT, Columns, Event, Target
from builder.trial.cases import Case

DAY_0 = date(1899, 12, 30)  # of the serial numbers of workbooks


def make_case(story: Story, spec: Spec) -> Case:
    """Return what is typed for a story: the demo machine, but for what the story says.

    Numbers of rows and lines are typed as they stand.
    """
    words = demand_words(spec)
    facts = {**words.facts, **story.given}
    usual = {key: measure.unit for key, measure in words.units.items()}
    units = {**usual, **as_row(facts.pop(UNITS, {}))}
    lines = facts.pop(LINES, [])
    if not isinstance(lines, list) or (not lines and units != usual):
        lines = [make_own_line(facts, units, spec)]
    rows = {
        words.rows.grid: [make_row(row, words.rows, words.events) for row in story.rows],
        words.lines.grid: [
            make_row(line, words.lines, {})
            | write_units({**units, **as_row(line.get(UNITS))}, spec)
            for line in lines
        ],
    }
    given = canonical(read_demo(spec), spec)
    for key, fact in facts.items():
        target = words.given.get(key, Target(name=key))
        value = as_value(target.words.get(str(fact), fact))
        if target.over:
            value = divide(value, as_value(facts[target.over]))
        place = rows.setdefault(target.grid, [{}])[0] if target.grid else given
        place[target.name] = value
    return Case(story.title, given, rows)


def as_row(value: object) -> Row:
    """Return a table, an empty one for nothing."""
    return value if isinstance(value, dict) else {}


def divide(value: Value, over: Value) -> Value:
    """Return a quotient, or nothing where one of both is no number."""
    if isinstance(value, float) and isinstance(over, float) and over:
        return value / over
    return None


def make_row(row: Row, columns: Columns, events: Mapping[str, Event]) -> dict[str, Value]:
    """Return the cells of a row by their columns; an event that is known by its code."""
    cells: dict[str, Value] = {}
    for key, value in row.items():
        event = events.get(str(value)) if key == EVENT else None
        if key in columns.columns:
            cells[columns.columns[key]] = event.code if event else as_value(value)
    return cells


def write_units(units: Row, spec: Spec) -> dict[str, Value]:
    """Return the cells of a line that say its units."""
    return {measure.column: str(units[key]) for key, measure in demand_words(spec).units.items()}


def make_own_line(facts: Row, units: Row, spec: Spec) -> Row:
    """Return the line in force of a story whose units are not the usual ones."""
    words = demand_words(spec)
    line: Row = {}
    for key, fact in words.own_line.items():
        value = as_value(facts[fact] if isinstance(fact, str) else fact)
        canonical = spec.units.get(spec.quantities[words.lines.columns[key]].unit)
        if canonical and isinstance(value, float):
            value = from_canonical(value, find_unit(canonical, units, spec), canonical)
        line[key] = value
    return line


def find_unit(canonical: Unit, units: Row, spec: Spec) -> Unit:
    """Return the one of a story's units that measures the same, or else the canonical one."""
    found = (spec.units[str(unit)] for unit in units.values())
    return next((unit for unit in found if unit.dimension == canonical.dimension), canonical)


def as_value(value: object) -> Value:
    """Return what stands in a cell: a number, a text, a date as its day; "" as nothing."""
    if isinstance(value, date):
        return float((value - DAY_0).days)
    if isinstance(value, int | float):
        return float(value)
    return str(value) if value else None
