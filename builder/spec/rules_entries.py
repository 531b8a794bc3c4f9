"""Entries one by one: unit, source, limits, value, options, level."""

import re
from collections.abc import Iterator
from datetime import date

from builder.problems import Problem, suggest
from builder.spec.records import Check, Choice, Citation, Constant, Grid, Input, Result
from builder.spec.rules_texts import Placed, find_fault, is_worded
from builder.spec.specification import Spec

SEEN = re.compile(r"second hand|memory|common practice|definition|yours")
READ = re.compile(r"read (\S+)")
UNSOURCED = frozenset({"reader_units"})
LEVELS = ("look", "stop")
CODE = re.compile(r"(?=.*[a-z])[a-z0-9][a-z0-9_.]*")  # a letter: no cell may read it as a number


def check_units(spec: Spec) -> Iterator[Problem]:
    """Numbers have a known unit; choices, checks, grids and results of codes have none."""
    for quantity in spec.quantities.values():
        name, unit = quantity.name, quantity.unit
        coded = isinstance(quantity, Result) and quantity.options
        if isinstance(quantity, Choice | Check | Grid) or coded:
            if unit:
                kind = "result with options" if coded else type(quantity).__name__.lower()
                text = f"a {kind} has no unit, found {unit!r}."
                yield find_fault(quantity, "unit-here", name, text, "Remove the unit.", "unit")
        elif not unit and not is_worded(quantity) and not getattr(quantity, "text", False):
            remedy = "Give a unit of specs/units.toml; n is a plain number."
            yield find_fault(quantity, "no-unit", name, "has no unit.", remedy)
        elif unit and unit not in spec.units:
            text = f"unit {unit!r} is not known.{suggest(unit, spec.units)}"
            remedy = "Take a unit of specs/units.toml, or add it there."
            yield find_fault(quantity, "unknown-unit", name, text, remedy, "unit")


def check_sources(spec: Spec) -> Iterator[Problem]:
    """Figures and formulas cite a known source, and every source is cited."""
    cited: set[str] = set()
    for name, entry, citation in list_citations(spec):
        cited.add(citation.id)
        if citation.id not in spec.sources:
            text = f"source {citation.id!r} is not known.{suggest(citation.id, spec.sources)}"
            remedy = "Cite an id of specs/sources.toml, or add it there."
            yield find_fault(entry, "unknown-source", name, text, remedy, "source", "id")
    for quantity in spec.quantities.values():
        needs = isinstance(quantity, Input | Constant | Result | Choice)
        if needs and quantity.source is None and quantity.name not in UNSOURCED:
            remedy = "Add source = { id = ... } from specs/sources.toml."
            yield find_fault(quantity, "no-source", quantity.name, "cites no source.", remedy)
    for source in spec.sources.values():
        if source.id not in cited:
            text = "no entry cites this source."
            yield find_fault(source, "unused-source", source.id, text, "Cite it or remove it.")


def list_citations(spec: Spec) -> Iterator[tuple[str, Placed, Citation]]:
    """Yield every citation with the entry that makes it."""
    for quantity in spec.quantities.values():
        if quantity.source:
            yield quantity.name, quantity, quantity.source
    for sheet in spec.sheets:
        for number, block in enumerate(sheet.blocks, start=1):
            if block.source:
                yield f"{sheet.key} block {number}", block, block.source


def check_seen(spec: Spec) -> Iterator[Problem]:
    """Demand of each source how it was seen, with the day where it was read."""
    for source in spec.sources.values():
        read = READ.match(source.seen)
        if not (is_day(read[1].rstrip(",;")) if read else SEEN.match(source.seen)):
            text = f"seen = {source.seen!r} does not say how the source was seen."
            remedy = (
                "Begin with read YYYY-MM-DD, second hand, memory, common practice, "
                "definition or yours."
            )
            yield find_fault(source, "bad-seen", source.id, text, remedy, "seen")


def is_day(text: str) -> bool:
    """Tell whether a text is a day as 2026-03-14."""
    try:
        return date.fromisoformat(text).isoformat() == text
    except ValueError:
        return False


def check_limits(spec: Spec) -> Iterator[Problem]:
    """Limits leave room, and what is usual lies inside them."""
    for quantity in spec.quantities.values():
        if isinstance(quantity, Input):
            yield from check_input(quantity)


def check_input(entry: Input) -> Iterator[Problem]:
    """Judge the numbers of one input."""
    name, unit = entry.name, entry.unit
    low, high, value = entry.limits.min, entry.limits.max, entry.usual
    if low >= high:
        text = f"min {low:g} is not below max {high:g} {unit}."
        yield find_fault(entry, "bad-limits", name, text, "Correct the limits.", "limits")
    elif value is not None and not low <= value <= high:
        text = f"usual {value:g} {unit} lies outside {low:g} to {high:g} {unit}."
        yield find_fault(entry, "value-outside", name, text, "Correct one of them.", "usual")
    if value is not None and entry.optional:
        text = "is optional and has something usual: a blank cannot be both."
        yield find_fault(entry, "usual-optional", name, text, "Remove one of them.", "usual")
    fractions = [number for number in (low, high, value or 0.0) if number != int(number)]
    if entry.whole and fractions:
        text = f"whole = true, but {fractions[0]:g} is not a whole number."
        yield find_fault(entry, "not-whole", name, text, "Correct one of them.", "whole")


def check_choices(spec: Spec) -> Iterator[Problem]:
    """Demand that the usual of a choice is an option, and that codes are plain words."""
    for choice in spec.quantities.values():
        if not isinstance(choice, Choice):
            continue
        if choice.usual not in choice.options:
            known = ", ".join(choice.options)
            hint = suggest(choice.usual, choice.options)
            text = f"usual {choice.usual!r} is not one of {known}.{hint}"
            yield find_fault(
                choice, "unknown-option", choice.name, text, "Take an option.", "usual"
            )
        for code in choice.options:
            if not CODE.fullmatch(code):
                text = f"option {code!r} is not a small word."
                remedy = "Use small letters, digits, dots and _, and a letter; the words say it."
                yield find_fault(choice, "bad-option", choice.name, text, remedy, "options", code)


def check_verdicts(spec: Spec) -> Iterator[Problem]:
    """Demand a level of each check, and that a result's check is one."""
    for quantity in spec.quantities.values():
        if isinstance(quantity, Check) and quantity.level not in LEVELS:
            text = f"level {quantity.level!r} is neither look nor stop."
            remedy = "Write look where it asks for care, stop where one must not go on."
            yield find_fault(quantity, "bad-level", quantity.name, text, remedy, "level")
        if isinstance(quantity, Result) and quantity.check:
            checks = [name for name, q in spec.quantities.items() if isinstance(q, Check)]
            if quantity.check not in checks:
                text = f"check {quantity.check!r} is no check.{suggest(quantity.check, checks)}"
                remedy = "Name an entry of kind check."
                yield find_fault(quantity, "unknown-check", quantity.name, text, remedy, "check")
