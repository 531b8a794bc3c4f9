"""Rules for what older editions call otherwise: new names exist, old ones do not."""

from collections.abc import Collection, Iterator

from builder.formula.grids import LIST, split_grid_name
from builder.problems import Problem, suggest
from builder.spec.records import Grid, Record
from builder.spec.renaming import Renaming
from builder.spec.specification import Spec

Use = tuple[str, Collection[str], tuple[str, ...]]


def check_renaming(spec: Spec) -> Iterator[Problem]:
    """Demand that what moves has a place to go, and that nothing is moved that is still there."""
    renaming = spec.renaming
    if renaming is None:
        return
    for name, known, keys in list_uses(renaming, spec):
        if name not in known:
            text = f"{name!r} is none that can stand here.{suggest(name, known)}"
            yield find_fault(renaming, text, *keys)
    for table in ("names", "kept"):
        for old in getattr(renaming, table):
            if is_known(old, spec):
                yield find_fault(renaming, f"{old!r} is a name of this edition.", table, old)


def list_uses(renaming: Renaming, spec: Spec) -> Iterator[Use]:
    """Yield each new name with the names that it may be."""
    grid = spec.quantities.get(renaming.grid)
    columns = grid.columns if isinstance(grid, Grid) else []
    typed = [name for name in columns if getattr(spec.quantities.get(name), "entry", "")]
    for key, new in renaming.names.items():
        yield new, [new] if is_known(new, spec) else [*spec.quantities], ("names", key)
    for key, kept in renaming.kept.items():
        yield kept.column, typed, ("kept", key)
    for name in (renaming.day, *renaming.needed, *renaming.first, *renaming.product):
        yield name, typed, ("needed",)
    for key, factors in renaming.product.items():
        for name in factors:
            yield name, typed, ("product", key)
    for name in (renaming.temp, *renaming.first.values()):
        yield name, spec.quantities, ("first",)


def is_known(name: str, spec: Spec) -> bool:
    """Tell whether a name is a quantity, or a column of a grid with the name of that before it."""
    found = spec.quantities.get(name)
    whole = found is not None and not isinstance(found, Record)
    return whole or split_grid_name(name + LIST, spec.quantities) is not None


def find_fault(renaming: Renaming, text: str, *keys: str) -> Problem:
    """Return a finding about an old name."""
    place = renaming.place
    return Problem(
        place.file, place.at(*keys), "bad-renaming", ".".join(keys), text, "Correct the name."
    )
