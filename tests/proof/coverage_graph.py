"""Which cells of a workbook read which, and what a cell without a say of its own leads to."""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from openpyxl.utils.cell import range_boundaries
from workbook.files import Cell, File

QUOTED = re.compile(r'"[^"]*"')
WORD = re.compile(r"(?<![\w.])\$?[A-Za-z_][\w$]*(?::\$?[A-Z]+\$?\d+)?(?!\w|\()")
ADDRESS = re.compile(r"\$?[A-Z]{1,3}\$?\d+(?::\$?[A-Z]{1,3}\$?\d+)?")


@dataclass(frozen=True, slots=True)
class Graph:
    """The formula cells that each cell reads, and those that read it."""

    reads: dict[Cell, list[Cell]]
    readers: dict[Cell, list[Cell]]

    def follow(self, starts: Iterable[Cell]) -> set[Cell]:
        """Return all cells that depend on some cells, these included."""
        return spread(starts, self.readers)

    def trace(self, sources: Iterable[Cell]) -> dict[Cell, Cell]:
        """Return every cell that stands behind some cells, with one that depends on it."""
        found = {cell: cell for cell in sources}
        waiting = list(found)
        while waiting:
            cell = waiting.pop(0)
            for behind in self.reads.get(cell, ()):
                if behind not in found:
                    found[behind] = found[cell]
                    waiting.append(behind)
        return found


def spread(starts: Iterable[Cell], steps: dict[Cell, list[Cell]]) -> set[Cell]:
    """Return all cells that can be reached."""
    found = set(starts)
    waiting = list(found)
    while waiting:
        further = set(steps.get(waiting.pop(), ())) - found
        found |= further
        waiting += further
    return found


def read_graph(file: File) -> Graph:
    """Return the graph of a workbook's formulas."""
    reads = {
        cell: [other for other in find_cells(cell, text, file) if other in file.formulas]
        for cell, text in file.formulas.items()
    }
    readers: dict[Cell, list[Cell]] = {}
    for cell, others in reads.items():
        for other in others:
            readers.setdefault(other, []).append(cell)
    return Graph(reads, readers)


def find_cells(cell: Cell, text: str, file: File) -> Iterator[Cell]:
    """Yield the cells that a formula names, by name or by address."""
    for word in WORD.findall(QUOTED.sub('""', text)):
        if word in file.names:
            yield from file.names[word]
        elif ADDRESS.fullmatch(word):
            first_col, first, last_col, last = range_boundaries(word.replace("$", ""))
            for row in range(int(first or 1), int(last or 1) + 1):
                for col in range(int(first_col or 1), int(last_col or 1) + 1):
                    yield cell[0], row, col
        else:
            raise LookupError(f"{cell}: {word} in {text} is neither a name nor an address")
