"""Cases that the tests add to those of every check: the demo machine but for one input."""

from collections.abc import Iterator

from builder.calculation import Value
from builder.exchange.demo import read_demo
from builder.exchange.machine import canonical
from builder.spec.records import Choice, Input
from builder.spec.specification import Spec
from builder.trial.cases import Case


def change_demo(spec: Spec, label: str, **given: Value) -> Case:
    """Return the demo machine with some inputs otherwise, those of None left blank."""
    changed = {**canonical(read_demo(spec), spec), **given}
    return Case(label, {name: value for name, value in changed.items() if value is not None})


def list_corners(spec: Spec) -> Iterator[Case]:
    """Yield each input alone at its smallest and at its largest."""
    for name, quantity in spec.quantities.items():
        if isinstance(quantity, Input):
            for limit in (quantity.limits.min, quantity.limits.max):
                yield change_demo(spec, f"{name} = {limit}", **{name: limit})


def list_blanks(spec: Spec) -> Iterator[Case]:
    """Yield each input alone left blank."""
    for name, quantity in spec.quantities.items():
        if isinstance(quantity, Input):
            yield change_demo(spec, f"{name} blank", **{name: None})


def list_choices(spec: Spec) -> Iterator[Case]:
    """Yield each option of each choice."""
    for name, quantity in spec.quantities.items():
        if isinstance(quantity, Choice):
            for code in quantity.options:
                yield change_demo(spec, f"{name} = {code}", **{name: code})
