"""Inputs of an older workbook that this edition has no more: what they say in today's terms."""

from builder.audit.cases import TYPED
from builder.exchange.given import Typed, read_given
from builder.renewal.inputs import default_unit
from builder.renewal.source import Source, quote
from builder.spec.records import Input


def add_said(source: Source, given: dict[str, Typed]) -> None:
    """Put what a former input said besides its value among the inputs, and tell what became of it.

    Its value itself stands among them by the name of the input that takes it.
    """
    for former in source.list_former():
        place = source.find(former.to + TYPED)
        value = quote(source.content(place)) if source.content(place) is not None else "blank"
        source.tell("moved", place, former.name, f"{value}: now {former.to}")
        for key, said in former.also.items():
            if not source.find(key + TYPED):
                given[key] = typed = find_said(source, key, said, given)
                number = "blank" if typed.number is None else f"{typed.number:.12g} {typed.unit}"
                source.tell("moved", place, former.name, f"{key} is {typed.code or number}")


def find_said(source: Source, key: str, said: object, given: dict[str, Typed]) -> Typed:
    """Return what another input of the older workbook has, or the number or code itself."""
    other = source.spec.quantities.get(str(said))
    if not isinstance(other, Input):
        return read_given(key, said, source.spec)
    return given.get(other.name) or Typed(None, unit=default_unit(source, other).key)
