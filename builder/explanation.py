"""Explains one quantity: what it is, its formula with names and with numbers, and its source."""

import inspect
from dataclasses import asdict, dataclass

from builder.calculation import Value, calculate, find_reference
from builder.exchange.machine import Machine, canonical
from builder.exchange.results import write_value
from builder.formula.graph import find_precedents
from builder.formula.tokens import Name, find_names, replace_names
from builder.problems import EXIT_USAGE, UserError, suggest
from builder.spec.records import Check, Choice, Grid, Input, Quantity, Record, Result
from builder.spec.specification import Spec


@dataclass(frozen=True, slots=True)
class Precedent:
    """A quantity that a formula uses."""

    name: str
    label: str
    value: Value
    unit: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Explanation:
    """Everything that is known about one quantity."""

    name: str
    kind: str
    label: dict[str, str]
    unit: str
    place: str
    value: Value
    formula: str
    close: str
    level: str
    numbers: str
    precedents: list[Precedent]
    limits: list[float]
    options: dict[str, str]
    columns: list[str]
    source: dict[str, str]
    reference: str
    summary: str

    def to_json(self) -> dict[str, object]:
        """Return plain data for `--json`."""
        return asdict(self)


def explain(name: str, machine: Machine, spec: Spec) -> Explanation:
    """Return the explanation of a quantity for one machine; raise UserError if it is unknown."""
    quantity = find_quantity(name, spec)
    values = calculate(spec, canonical(machine, spec))
    reference = getattr(quantity, "reference", "")
    return Explanation(
        name=name,
        kind=type(quantity).__name__.lower(),
        label=quantity.label.words,
        unit=quantity.unit,
        place=f"{quantity.place.file}:{quantity.place.line}",
        value=values.get(name),
        formula=getattr(quantity, "formula", ""),
        close=quantity.close if isinstance(quantity, Check) else "",
        level=quantity.level if isinstance(quantity, Check) else "",
        numbers=fill_formula(quantity, values),
        precedents=list_precedents(quantity, values, spec),
        limits=list_limits(quantity),
        options=list_options(quantity),
        columns=quantity.columns if isinstance(quantity, Grid) else [],
        source=describe_source(quantity, spec),
        reference=f"builder.reference.{reference}" if reference else "",
        summary=summarise(reference),
    )


def find_quantity(name: str, spec: Spec) -> Quantity:
    """Return the quantity of a name; raise UserError with the nearest name."""
    if name not in spec.quantities:
        near = suggest(name, spec.quantities) or " Names stand in the specs and in the workbook."
        raise UserError(f"no quantity is called {name!r}.{near}", EXIT_USAGE)
    return spec.quantities[name]


def fill_formula(quantity: Quantity, values: dict[str, Value]) -> str:
    """Return the formula of a result or check with numbers; working rows keep their names."""

    def fill(name: Name) -> str:
        if name.text not in values:
            return name.text
        value = values[name.text]
        if not isinstance(value, int | float):
            return f'"{value or ""}"'
        return f"({value:.10g})" if value < 0 else f"{value:.10g}"

    if isinstance(quantity, Result | Check):
        return replace_names(quantity.formula, fill)
    return ""


def list_precedents(quantity: Quantity, values: dict[str, Value], spec: Spec) -> list[Precedent]:
    """Return what a formula uses, in order of appearance, with values where there are any."""
    names = find_precedents(quantity, spec.quantities)
    if isinstance(quantity, Record) and quantity.formula:
        names = list(dict.fromkeys(name.text for name in find_names(quantity.formula)))
    return [
        Precedent(name, inner.label.pick(spec.main_language), values.get(name), inner.unit)
        for name in names
        if (inner := spec.quantities.get(name)) is not None
    ]


def list_limits(quantity: Quantity) -> list[float]:
    """Return the smallest and the largest value that an input may have."""
    return [quantity.limits.min, quantity.limits.max] if isinstance(quantity, Input) else []


def list_options(quantity: Quantity) -> dict[str, str]:
    """Return the codes of a choice with their words in every language."""
    if not isinstance(quantity, Choice):
        return {}
    return {code: " / ".join(words.words.values()) for code, words in quantity.options.items()}


def describe_source(quantity: Quantity, spec: Spec) -> dict[str, str]:
    """Return title and place of a quantity's source, and how it was seen."""
    if quantity.source is None or quantity.source.id not in spec.sources:
        return {}
    source, lang = spec.sources[quantity.source.id], spec.main_language
    at = quantity.source.at.pick(lang) if quantity.source.at else ""
    return {"title": source.title.pick(lang), "at": at, "seen": source.seen}


def summarise(reference: str) -> str:
    """Return the first line of a reference function's docstring; a constant has none."""
    try:
        found = find_reference(reference) if reference else None
    except LookupError:
        return ""
    return (inspect.getdoc(found) or "").partition("\n")[0] if callable(found) else ""


def write_explanation(about: Explanation) -> str:
    """Return the explanation as lines of text, those without content left out."""
    low_high = " to ".join(f"{limit:.10g}" for limit in about.limits)
    value = [] if about.kind in ("record", "grid") else [write_value(about.value, about.unit)]
    lines = [
        ("kind", [f"{about.kind}, {about.place}"]),
        ("value", value),
        ("limits", [f"{low_high} {about.unit}"] if low_high else []),
        ("options", [f"{code}: {words}" for code, words in about.options.items()]),
        ("columns", [", ".join(about.columns)]),
        ("formula", [about.formula]),
        ("in numbers", [about.numbers]),
        ("close if not", [about.close]),
        ("if not", [about.level]),
        ("uses", [write_precedent(inner) for inner in about.precedents]),
        ("source", [f"{key}: {words}" for key, words in about.source.items() if words]),
        ("reference", [about.reference, about.summary]),
    ]
    head = f"{about.name}: {' / '.join(about.label.values())}"
    body = [f"  {key:<13}{text}" for key, texts in lines for text in texts if text]
    return "\n".join([head, *body])


def write_precedent(precedent: Precedent) -> str:
    """Return one line about a quantity that a formula uses."""
    value = "" if precedent.value is None else f" = {write_value(precedent.value, precedent.unit)}"
    return f"{precedent.name}{value}: {precedent.label}"
