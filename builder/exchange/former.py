"""Inputs of earlier editions in a machine file, in today's terms."""

from collections.abc import Iterator, Mapping

from builder.exchange.given import Typed, read_given
from builder.spec.records import Choice, Input
from builder.spec.specification import Spec


def read_today(
    name: str, value: object, given: Mapping[str, object], spec: Spec
) -> Iterator[tuple[str, Typed]]:
    """Yield today's inputs that an entry of a machine file gives; raise RefusalError if none.

    What a former input said besides its value counts where the file does not say it itself.
    """
    former = spec.former.get(name)
    if former is None:
        yield name, read_given(name, value, spec)
        return
    yield former.to, read_given(former.to, value, spec)
    for key, said in former.also.items():
        found = find_said(said, given, spec)
        if key not in given and found is not None:
            yield key, read_given(key, found, spec)


def find_said(said: object, given: Mapping[str, object], spec: Spec) -> object:
    """Return what another input has, if anything, or the number or code itself."""
    other = spec.quantities.get(str(said))
    return given.get(other.name) if isinstance(other, Input | Choice) else said
