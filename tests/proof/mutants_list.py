"""Every mutant of the specs' formulas, with the cells of a workbook that hold it."""

from collections.abc import Iterator
from dataclasses import dataclass

from workbook.files import Cell, File

from builder.spec.specification import Spec
from proof.mutants_guards import list_guard_changes
from proof.mutants_targets import Mutator, Printer, Target, list_targets

ALL = 10_000
SWAPS = 2  # names tried in place of each one in a working column, which is slow to judge


@dataclass(frozen=True, slots=True)
class Mutant:
    """One changed formula, and the cells of the workbook that hold it."""

    label: str
    kind: str
    text: str
    cells: dict[Cell, str]

    @property
    def title(self) -> str:
        """Return how the mutant is called in findings and in the list of equivalents."""
        return f"{self.label}: {self.text}"


def list_mutants(spec: Spec, file: File, lang: str, judged: set[Cell]) -> Iterator[Mutant]:
    """Yield every mutant; of working columns, which are not judged, some names only."""
    printer, mutator = Printer(spec, file, lang), Mutator(spec)
    for target in list_targets(spec):
        own = find_own(target, printer)
        swaps = ALL if set(own) <= judged else SWAPS
        for change in mutator.vary(target, swaps):
            printed = printer.print(target, change.text)
            cells = {cell: printed[cell] for cell in own if printed[cell] != own[cell]}
            if cells:
                yield Mutant(target.label, change.kind, change.text, cells)
        if target.key != "close":
            for change, cells in list_guard_changes(own, target.formula):
                yield Mutant(target.label, change.kind, change.text, cells)


def find_own(target: Target, printer: Printer) -> dict[Cell, str]:
    """Return the cells that hold a formula; a row of a grid with a formula of its own does not."""
    printed = printer.print(target, target.formula)
    probed = printer.print(target, f"{target.formula}+0")
    return {cell: text for cell, text in printed.items() if probed[cell] != text}
