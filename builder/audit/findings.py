"""What an audit says: findings about cells, and the report that collects them."""

from dataclasses import dataclass
from typing import TypedDict

from builder.audit.reading import Reading


@dataclass(frozen=True, slots=True)
class Finding:
    """One finding about one cell; cell or name is empty where there is none."""

    cell: str
    name: str
    text: str

    def __str__(self) -> str:
        """Return `Sheet!B5 name: what, found …, expected …`."""
        place = " ".join(part for part in (self.cell, self.name) if part)
        return f"{place}: {self.text}" if place else self.text


class CellCounts(TypedDict):
    """Formula cells of a workbook, and those about which there is no fault."""

    formulas: int
    agree: int


class ReportJson(TypedDict):
    """The report as scripts read it."""

    file: str
    version: str | None
    faults: list[str]
    warnings: list[str]
    cells: CellCounts


@dataclass(frozen=True, slots=True)
class Report:
    """Everything that an audit of one workbook found.

    `reading` is what was typed and what follows; None where the file does not say what it is.
    """

    file: str
    version: str | None
    faults: list[Finding]
    warnings: list[Finding]
    formulas: int
    agree: int
    reading: Reading | None = None

    def to_json(self) -> ReportJson:
        """Return the report in the shape of the contract."""
        return {
            "file": self.file,
            "version": self.version,
            "faults": [str(finding) for finding in self.faults],
            "warnings": [str(finding) for finding in self.warnings],
            "cells": {"formulas": self.formulas, "agree": self.agree},
        }
