"""What a name stands for: a quantity, a part of a grid, or what a mechanism makes of a quantity."""

from dataclasses import dataclass, field

from builder.formula.grids import LIST, ROW_NUMBER, GridName, bind_name, split_grid_name
from builder.spec.records import Grid, Place, Quantity
from builder.spec.specification import Spec

LAST, ROW, BOUND, CELL = "last", "row", "bound", "cell"
PARTS = {
    LIST: "list",
    "_factor_n": "factor",
    "_offset_n": "offset",
    "_factors": "factor",
    "_offsets": "offset",
    "_min": "limit",
    "_max": "limit",
}
# What the workbook makes of a quantity, the longest ending first.
MADE = {"_typed_unit": "typed_unit", "_typed": "typed", "_words": "words", "_codes": "codes"}


@dataclass(frozen=True, slots=True)
class Meaning:
    """What a name stands for; `bound` says what it becomes in each grid that binds it."""

    kind: str
    label: str
    unit: str = ""
    places: list[Place] = field(default_factory=list)
    quantity: Quantity | None = None
    part: GridName | None = None
    bound: dict[str, str] = field(default_factory=dict)


def find_meaning(name: str, spec: Spec, lang: str) -> Meaning | None:
    """Return what a name stands for by the specs alone, or None."""
    quantity = spec.quantities.get(name)
    if quantity is not None:
        kind, label = type(quantity).__name__.lower(), quantity.label.pick(lang)
        return Meaning(kind, label, quantity.unit, [quantity.place], quantity)
    if name == ROW_NUMBER:
        return Meaning(ROW, spec.words["row"].pick(lang), "n")
    return (
        find_part(name, spec, lang) or find_bound(name, spec, lang) or find_made(name, spec, lang)
    )


def find_part(name: str, spec: Spec, lang: str) -> Meaning | None:
    """Return the meaning of a name such as `start_next_pH` or `log_sap_L_list`."""
    part = split_grid_name(name, spec.quantities)
    if part is None:
        return None
    column = spec.quantities[part.column]
    kind = PARTS.get(part.part) or MADE.get(part.part, LAST)
    label = " / ".join(quantity.label.pick(lang) for quantity in (part.grid, column))
    unit = column.unit if kind in (LAST, "list") else ""
    return Meaning(kind, label, unit, [column.place, part.grid.place], column, part)


def find_bound(name: str, spec: Spec, lang: str) -> Meaning | None:
    """Return the meaning of a name that columns use and each grid binds to another one."""
    grids = [quantity for quantity in spec.quantities.values() if isinstance(quantity, Grid)]
    bound = {grid.name: bind_name(name, grid.bind) for grid in grids}
    bound = {grid: target for grid, target in bound.items() if target != name}
    meanings = {target: find_meaning(target, spec, lang) for target in bound.values()}
    known = [meaning for meaning in meanings.values() if meaning]
    if not known:
        return None
    label = " / ".join(dict.fromkeys(meaning.label for meaning in known))
    places = [place_bind(grid) for grid in grids if meanings.get(bound.get(grid.name, ""))]
    return Meaning(BOUND, label, known[0].unit, places, bound=bound)


def place_bind(grid: Grid) -> Place:
    """Return the line on which a grid binds names."""
    return Place(grid.place.file, grid.place.at("bind"))


def find_made(name: str, spec: Spec, lang: str) -> Meaning | None:
    """Return the meaning of a name such as `rinse_rule_words` or `vessels_n_typed`."""
    for ending, kind in MADE.items():
        quantity = spec.quantities.get(name.removesuffix(ending))
        if name.endswith(ending) and quantity is not None:
            return Meaning(kind, quantity.label.pick(lang), "", [quantity.place], quantity)
    return None
