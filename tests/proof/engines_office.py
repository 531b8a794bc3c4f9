"""The office program for many sets of inputs: one workbook stays open, every cell worked out."""

from collections.abc import Mapping

from workbook.engines import Office
from workbook.files import Cell, File, Value, plain

ERROR = "Err:"  # the program tells an error and not which; only whether there is one is compared


class OfficeSheets:
    """One workbook that stays open in the office program; what was typed before is taken back."""

    def __init__(self, office: Office, file: File) -> None:
        self.office, self.file = office, file
        self.touched: set[Cell] = set()
        office.open(file.path)

    def solve(self, typed: Mapping[Cell, Value]) -> dict[Cell, Value]:
        """Type over what was typed before, work out everything, and read it."""
        back = {cell: self.file.constants.get(cell) for cell in self.touched - set(typed)}
        self.touched = set(typed)
        cells = [[*cell, value] for cell, value in (back | dict(typed)).items()]
        found = self.office.ask("solve", cells)
        if not isinstance(found, dict):
            raise TypeError(found)
        errors = {(title, row, col) for title, row, col in found["errors"]}
        shown = pick(found["values"], self.file)
        return {cell: ERROR if cell in errors else value for cell, value in shown.items()}


def pick(sheets: dict[str, list[list[object]]], file: File) -> dict[Cell, Value]:
    """Return the formula cells out of all cells; a cell outside the used area is left out."""
    return {
        (title, row, col): plain(sheets[title][row - 1][col - 1])
        for title, row, col in file.formulas
        if row <= len(sheets[title]) and col <= len(sheets[title][0])
    }
