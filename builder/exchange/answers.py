"""Answers for a reader, topic by topic: which they are and how they are grouped is in the specs."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date, timedelta

from builder.calculation import Value
from builder.exchange.machine import Machine
from builder.exchange.results import Calculation
from builder.spec.conversion import from_canonical
from builder.spec.pages import Block
from builder.spec.records import Check, Choice, Input, Quantity, Result
from builder.spec.specification import Spec

BLANK = "-"
DAY_0 = date(1899, 12, 30)
ANSWERS = ("answers", "headline", "figures", "details")  # kinds of blocks
HOMES = ("results", "checks")
ALIGNED = (60, 24, 24, 24, 60)  # letters of a cell that its column is made wide for


@dataclass(frozen=True, slots=True)
class Topic:
    """A heading and the names below it."""

    heading: str
    names: list[str]


@dataclass(frozen=True, slots=True)
class Reader:
    """Who reads: in which language, and in which system of units."""

    lang: str
    units: str


def pick_system(machine: Machine, spec: Spec) -> str:
    """Return the system of units whose units most values of a machine file stand in."""
    stated = machine.given.get("reader_units")
    if stated:
        return stated.code
    counts: dict[str, int] = {}
    for name, typed in machine.given.items():
        quantity = spec.quantities[name]
        shown = spec.units[quantity.unit].reader if isinstance(quantity, Input) else {}
        for system, unit in shown.items():
            counts[system] = counts.get(system, 0) + (unit == typed.unit)
    systems = spec.units[next(iter(spec.units))].reader
    return max(systems, key=lambda system: counts.get(system, 0))


def list_answers(spec: Spec, lang: str) -> list[Topic]:
    """Return the answers by topic, as the first sheet that shows answers lists them."""
    for sheet in spec.sheets:
        blocks = [block for block in sheet.blocks if block.kind in ANSWERS]
        if blocks:
            return [Topic(b.heading.pick(lang) if b.heading else "", list_shown(b)) for b in blocks]
    return []


def list_shown(block: Block) -> list[str]:
    """Return what a block shows: in its rows, or beside its steps."""
    return block.rows or [step.show for step in block.steps]


def list_rest(spec: Spec, lang: str) -> list[Topic]:
    """Return results and checks that are no answers, by the blocks of sheets where they stand."""
    shown = {name for topic in list_answers(spec, lang) for name in topic.names}
    topics = []
    for sheet in spec.sheets:
        for block in sheet.blocks:
            names = [name for name in block.rows if name not in shown]
            if block.kind in HOMES and names:
                titles = [sheet.title, *([block.heading] if block.heading else [])]
                topics.append(Topic(" / ".join(title.pick(lang) for title in titles), names))
    return topics


def write_topics(
    topics: Iterable[Topic], calculation: Calculation, spec: Spec, reader: Reader
) -> str:
    """Return headings, and below each the lines of label, value, unit, verdict and name.

    Columns are as wide as their cells; what is longer than usual moves its own line only.
    """
    found = [
        (t.heading, [write_row(n, calculation, spec, reader) for n in t.names]) for t in topics
    ]
    rows = [row for _, listed in found for row in listed]
    wide = [
        max((len(cell) for cell in column if len(cell) <= most), default=0)
        for column, most in zip(zip(*rows, strict=True), ALIGNED, strict=True)
    ]
    return "\n\n".join("\n".join([heading, *align(listed, wide)]) for heading, listed in found)


def align(rows: Iterable[tuple[str, ...]], wide: list[int]) -> Iterator[str]:
    """Yield rows with their columns under each other, the values to the right."""
    for label, value, unit, verdict, name in rows:
        line = f"  {label:<{wide[0]}}  {value:>{wide[1]}} {unit:<{wide[2]}}  "
        yield f"{line}{verdict:<{wide[3]}}  {name}"


def write_row(
    name: str, calculation: Calculation, spec: Spec, reader: Reader
) -> tuple[str, str, str, str, str]:
    """Return label, value, unit, verdict and name of one quantity."""
    quantity, value = spec.quantities[name], calculation.values[name]
    judged = quantity.check if isinstance(quantity, Result) else ""
    verdict = calculation.values.get(judged)
    shown, unit = write_value(quantity, value, spec, reader)
    if isinstance(quantity, Check):
        shown, verdict = "", value
    word = spec.words[verdict].pick(reader.lang) if isinstance(verdict, str) else ""
    return quantity.label.pick(reader.lang), shown, unit, word, name


def write_value(quantity: Quantity, value: Value, spec: Spec, reader: Reader) -> tuple[str, str]:
    """Return a value and its unit as the reader wants them."""
    if value is None:
        return BLANK, ""
    if isinstance(quantity, Choice | Result) and quantity.options:
        return quantity.options[str(value)].pick(reader.lang), ""
    if not isinstance(value, int | float):
        return value, ""
    if isinstance(quantity, Result) and quantity.words:
        return quantity.words[int(value) - 1].pick(reader.lang), ""
    if isinstance(quantity, Result) and quantity.date:
        return (DAY_0 + timedelta(days=value)).isoformat(), ""
    canonical = spec.units[quantity.unit]
    unit = spec.units[canonical.reader[reader.units]]
    number = from_canonical(value, unit, canonical)
    text = f"{number:.{quantity.digits}f}"
    symbol = "" if unit.key == "n" else unit.symbol.pick(reader.lang)
    return text.replace(".", spec.languages[reader.lang].decimal), symbol
