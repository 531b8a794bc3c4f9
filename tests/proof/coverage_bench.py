"""Extra cells beside a workbook: formulas worked out over its live values, without rebuilding."""

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import count

from workbook.engines import TOKEN, Ironcalc, write_area
from workbook.files import Cell, File, Value, plain

ASIDE = 300  # a column beyond every sheet's own


@dataclass(frozen=True, slots=True)
class Slot:
    """One extra cell, as the engine counts sheets, rows and columns."""

    sheet: int
    row: int


class Bench:
    """A workbook in the fast engine, with room for extra formulas on each of its sheets."""

    def __init__(self, file: File) -> None:
        """Load the workbook."""
        self.file = file
        self.engine = Ironcalc(file)
        self.model = self.engine.model
        self.areas = {name: write_area(cells) for name, cells in file.names.items()}
        self.rows = count(1)

    def spell(self, formula: str) -> str:
        """Return a formula with addresses for names."""
        return TOKEN.sub(lambda found: self.areas.get(found[0], found[0]), formula)

    def add(self, title: str, formula: str) -> Slot:
        """Put a formula, given without its equals sign, beside the cells of a sheet."""
        slot = Slot(self.engine.sheets[title], next(self.rows))
        self.model.update_cell_with_formula(slot.sheet, slot.row, ASIDE, f"={self.spell(formula)}")
        return slot

    def drop(self, slot: Slot) -> None:
        """Take an extra formula away."""
        self.model.clear_cell_contents(slot.sheet, slot.row, ASIDE)

    def look(self, slot: Slot) -> Value:
        """Return what an extra formula gives now."""
        return plain(self.model.get_cell_value(slot.sheet, slot.row, ASIDE))

    def show(self, cell: Cell) -> Value:
        """Return what a cell of the workbook shows now."""
        return plain(self.model.get_cell_value(self.engine.sheets[cell[0]], *cell[1:]))

    def type(self, typed: Mapping[Cell, Value]) -> None:
        """Type over what was typed before, and evaluate everything."""
        for cell in self.engine.touched - set(typed):
            self.engine.put(cell, self.file.constants.get(cell))
        for cell, value in typed.items():
            self.engine.put(cell, value)
        self.engine.touched = set(typed)
        self.model.evaluate()

    def change(self, formulas: Mapping[Cell, str]) -> None:
        """Put formulas, given with their equals sign, into cells of the workbook."""
        for (title, row, col), formula in formulas.items():
            self.model.update_cell_with_formula(
                self.engine.sheets[title], row, col, self.spell(formula)
            )
