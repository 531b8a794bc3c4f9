"""One set of input: what is typed into a workbook, and what the workbook should then show."""

from collections.abc import Iterator
from dataclasses import dataclass, field, replace

from workbook.cases import Case, list_entries, place_case, typed_grids
from workbook.comparison import STRONGEST_GPL
from workbook.files import Cell, File, Value

from builder.calculation import Calculation, calculate_season
from builder.spec.conversion import list_units
from builder.spec.records import Input, Result, Unit
from builder.spec.specification import Spec
from proof.coverage_oracles import want_all
from proof.coverage_scene import Ground, Scene, Wanted, convert


@dataclass(frozen=True, slots=True)
class Trial:
    """A case for the reference, and what is typed otherwise: `odd`, by the names of cells.

    The columns of grids are typed in the units of a `system` of units, or of none: in unusual ones.
    """

    case: Case
    odd: dict[str, Value] = field(default_factory=dict)
    system: str = "metric"

    def type(self, spec: Spec, file: File, lang: str) -> dict[Cell, Value]:
        """Return what has to be typed into which cells."""
        given = self.case.given
        known = {n: v for n, v in given.items() if v is not None or is_number(n, spec)}
        typed = place_case(replace(self.case, given=known), file, spec, lang)
        typed |= {file.cell(f"{name}_typed"): None for name in given.keys() - known.keys()}
        typed |= dict(express_rows(typed, self.system, spec, file, lang))
        return typed | {find_cell(name, file): value for name, value in self.odd.items()}

    def want(self, ground: Ground) -> dict[Cell, Wanted]:
        """Return what the cells should show, or nothing where the reference refuses the case."""
        spec, file = ground.spec, ground.file
        season = calculate_season(spec, self.case.given, self.case.rows)
        strength = season.values["cleaner_strength_gpL"]
        if isinstance(strength, float) and strength > STRONGEST_GPL:
            return {}
        held = {**file.constants, **self.type(spec, file, ground.lang)}
        known = Calculation(
            {**season.values, **dict.fromkeys(self.list_lost(spec))}, season.columns
        )
        return want_all(Scene(ground, held, known))

    def list_lost(self, spec: Spec) -> list[str]:
        """Return the sums of columns whose unit nobody knows: the reference is not told of it."""
        heads = [k.removesuffix("_typed_unit") for k in self.odd if k.endswith("_typed_unit")]
        return [
            name
            for name, quantity in spec.quantities.items()
            if isinstance(quantity, Result)
            and any(f"{head}_factor_n" in quantity.formula for head in heads)
        ]


def is_number(name: str, spec: Spec) -> bool:
    """Tell whether an input is a number: a word is left blank otherwise."""
    return isinstance(spec.quantities[name], Input)


def find_cell(name: str, file: File) -> Cell:
    """Return the cell of a name, or of a row of a list: `log_day_d_list 3`."""
    key, _, row = name.partition(" ")
    return file.names[key][int(row) - 1] if row else file.cell(key)


def pick_unit(own: Unit, system: str, spec: Spec) -> Unit:
    """Return the unit that a system prefers; of no system, the last one of the dimension."""
    name = own.reader.get(system)
    return spec.units[name] if name else list_units(own, spec.units)[-1]


def express_rows(
    typed: dict[Cell, Value], system: str, spec: Spec, file: File, lang: str
) -> Iterator[tuple[Cell, Value]]:
    """Yield the typed columns of grids in the units of a system, and these in their headings."""
    for name, grid in typed_grids(spec).items():
        for column in list_entries(spec, grid):
            heading = f"{name}_{column.name}_typed_unit"
            if heading not in file.names:
                continue
            own = spec.units[column.unit]
            unit = pick_unit(own, system, spec)
            yield file.cell(heading), unit.symbol.pick(lang)
            for cell in file.names[f"{name}_{column.name}_list"]:
                value = typed.get(cell)
                if isinstance(value, float) and unit is not own:
                    yield cell, convert(value, own, unit)
