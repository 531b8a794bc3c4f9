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
        if key not in given:
            yield key, read_said(key, said, given, spec)


def read_said(key: str, said: object, given: Mapping[str, object], spec: Spec) -> Typed:
    """Return what another input has, or the number or code itself."""
    other = spec.quantities.get(str(said))
    if isinstance(other, Input | Choice):
        said = given.get(other.name, other.value)
    return read_given(key, said, spec)
