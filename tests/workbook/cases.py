"""Cases that the tests add to those of every check: each input alone at a limit, or blank."""

from collections.abc import Iterator

from builder.spec.records import Choice, Input
from builder.spec.specification import Spec
from builder.trial.cases import Case


def list_corners(spec: Spec) -> Iterator[Case]:
    """Yield each input alone at its smallest and at its largest."""
    for name, quantity in spec.quantities.items():
        if isinstance(quantity, Input):
            yield Case(f"{name} = {quantity.limits.min}", {name: quantity.limits.min})
            yield Case(f"{name} = {quantity.limits.max}", {name: quantity.limits.max})


def list_blanks(spec: Spec) -> Iterator[Case]:
    """Yield each input alone left blank."""
    for name, quantity in spec.quantities.items():
        if isinstance(quantity, Input):
            yield Case(f"{name} blank", {name: None})


def list_choices(spec: Spec) -> Iterator[Case]:
    """Yield each option of each choice."""
    for name, quantity in spec.quantities.items():
        if isinstance(quantity, Choice):
            for code in quantity.options:
                yield Case(f"{name} = {code}", {name: code})
