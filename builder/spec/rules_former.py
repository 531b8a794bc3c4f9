"""Inputs of earlier editions: what they became is an input today, and they are none."""

from collections.abc import Iterator

from builder.problems import Problem, suggest
from builder.spec.records import Choice, Input
from builder.spec.specification import Spec


def check_former(spec: Spec) -> Iterator[Problem]:
    """Judge each former input."""
    inputs = [name for name, q in spec.quantities.items() if isinstance(q, Input | Choice)]
    for former in spec.former.values():
        place = former.place
        if former.name in inputs:
            text = "is an input of today."
            yield Problem(place.file, place.line, "former", former.name, text, "Remove it here.")
        for name in (former.to, *former.also):
            if name not in inputs:
                text = f"{name!r} is no input.{suggest(name, inputs)}"
                line = place.at("also", name) if name in former.also else place.at("to")
                remedy = "Name an input or a choice."
                yield Problem(place.file, line, "former", former.name, text, remedy)
