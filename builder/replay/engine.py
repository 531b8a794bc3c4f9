"""What can play a story."""

from enum import StrEnum


class Engine(StrEnum):
    """The reference calculations, or what recalculates a workbook."""

    REFERENCE = "reference"
    IRONCALC = "ironcalc"
    OFFICE = "office"
