"""Names: they end in their unit, cannot be taken for a cell, and are unique in the workbook."""

import re
from collections.abc import Iterator

from builder.formula.grids import PARTS, name_column
from builder.problems import Problem
from builder.spec.records import Check, Choice, Grid, Input, Quantity, Record, Result
from builder.spec.rules_texts import find_fault
from builder.spec.specification import Spec

NAME = re.compile(r"[a-z][a-z0-9]*(_[a-z0-9]+)*_[A-Za-z0-9]+")
CHECK = re.compile(r"[a-z][a-z0-9]*(_[a-z0-9]+)*_ok")
CHOICE = re.compile(r"[a-z][a-z0-9]*(_[a-z0-9]+)*")
CODES = re.compile(r"[a-z][a-z0-9]*(_[a-z0-9]+)*_code")
ANY = re.compile(f"{NAME.pattern}|{CHOICE.pattern}")
GRID = re.compile(r"[a-z][a-z0-9]*")
CELL = re.compile(r"[a-z]{1,3}[0-9]+")


def check_names(spec: Spec) -> Iterator[Problem]:
    """Judge the shape of each name by the kind of its entry."""
    for quantity in spec.quantities.values():
        if fault := judge_shape(quantity):
            what, remedy = fault
            yield find_fault(quantity, "bad-name", quantity.name, what, remedy)


def judge_shape(quantity: Quantity) -> tuple[str, str] | None:
    """Return what is wrong with the shape of a name, and what to do."""
    name = quantity.name
    match quantity:
        case Check():
            fine, remedy = CHECK, "Write small words joined by _, and _ok at the end: tank_ok."
        case Record(codes=str(codes)) if codes:
            fine, remedy = CODES, "Write small words joined by _, and _code at the end: event_code."
        case Choice() | Record(entry="choice" | "text" | "date"):
            fine, remedy = CHOICE, "Write small words joined by _: rinse_rule."
        case Result(options=dict(options)) if options:
            fine, remedy = CHOICE, "Write small words joined by _: rinse_rule."
        case Record(text=True) | Record(worded=True):
            fine, remedy = ANY, "Write small words joined by _, the unit last if there is one."
        case Grid():
            fine, remedy = GRID, "Write one small word of letters and digits: start25."
        case _:
            fine, remedy = NAME, "Write small words joined by _, the unit last: pipe_1_length_m."
    if not fine.fullmatch(name):
        return f"no {type(quantity).__name__.lower()} may have the name {name!r}.", remedy
    if CELL.fullmatch(name):
        return f"{name!r} is the address of a cell.", "Put more than three letters first."
    return None


def check_suffixes(spec: Spec) -> Iterator[Problem]:
    """Demand that a name ends in the suffix of its unit, the longest one that fits."""
    for quantity in spec.quantities.values():
        unit = spec.units.get(quantity.unit)
        if unit is None or isinstance(quantity, Choice | Check | Grid):
            continue
        dated = isinstance(quantity, Record) and quantity.entry == "date"
        if dated or not NAME.fullmatch(quantity.name):
            continue
        whole = f"_{quantity.name}"
        fits = [u.suffix for u in spec.units.values() if whole.endswith(f"_{u.suffix}")]
        if max(fits, key=len, default="") != unit.suffix:
            text = f"the unit is {unit.key}, whose suffix _{unit.suffix} is not that of the name."
            remedy = "Rename the quantity, or correct its unit."
            yield find_fault(quantity, "bad-suffix", quantity.name, text, remedy, "unit")


def check_exports(spec: Spec) -> Iterator[Problem]:
    """No two defined names of the workbook are alike, whatever their case."""
    taken = {f"go_{sheet.key}": f"the link to {sheet.key}" for sheet in spec.sheets}
    for quantity in spec.quantities.values():
        taken.setdefault(quantity.name.lower(), quantity.name)
    for quantity in spec.quantities.values():
        for name in list_exports(quantity):
            owner = taken.setdefault(name.lower(), quantity.name)
            if owner != quantity.name:
                text = f"the workbook needs the name {name} for it, and {owner} has it."
                yield find_fault(quantity, "name-taken", quantity.name, text, "Rename one.")


def list_exports(quantity: Quantity) -> list[str]:
    """Return the further names that a quantity gives to cells."""
    if isinstance(quantity, Grid):
        stems = {name: name_column(quantity.name, name) for name in quantity.columns}
        shared = [name for name, stem in stems.items() if name == stem]  # no name of a last row
        last = [stem for name, stem in stems.items() if name not in shared]
        return [*last, *(stem + part for stem in stems.values() for part in PARTS)]
    if isinstance(quantity, Input | Choice):
        return [f"{quantity.name}_typed", f"{quantity.name}_typed_unit"]
    return []
