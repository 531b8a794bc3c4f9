"""Where a workbook holds what people typed and what follows from it, one case at a time.

The machine's sheets are one case. A row of a log would be one more: its own typed cells, its own
outcomes, read and judged by the same functions.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from builder.audit.findings import Finding
from builder.spec.records import Check, Choice, Input, Result
from builder.spec.specification import Spec

TYPED = "_typed"
TYPED_UNIT = "_typed_unit"


@dataclass(frozen=True, slots=True)
class Entry:
    """An input, the cell that it is typed in, and the cell of its unit where it has one."""

    quantity: Input | Choice
    cell: str
    unit_cell: str


@dataclass(frozen=True, slots=True)
class Case:
    """Typed cells, and the cells of the results and verdicts that follow from them."""

    entries: list[Entry]
    outcomes: dict[str, str]


def find_machine(spec: Spec, names: dict[str, str]) -> Case:
    """Return the case of the machine itself, found by defined names."""
    entries = [
        Entry(quantity, names[name + TYPED], names.get(name + TYPED_UNIT, ""))
        for name, quantity in spec.quantities.items()
        if isinstance(quantity, Input | Choice) and name + TYPED in names
    ]
    outcomes = {
        name: names[name]
        for name, quantity in spec.quantities.items()
        if isinstance(quantity, Result | Check) and name in names
    }
    return Case(entries, outcomes)


def find_unnamed(spec: Spec, names: dict[str, str]) -> Iterator[Finding]:
    """Yield a fault for each quantity that no cell bears, so that it cannot be judged."""
    for name, quantity in spec.quantities.items():
        wanted = name
        if isinstance(quantity, Input | Choice):
            wanted = name + TYPED
        elif not isinstance(quantity, Result | Check):
            continue
        if wanted not in names:
            yield Finding("", wanted, "defined name, found none, expected one: not compared")
