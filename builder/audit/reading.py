"""What a workbook tells once its formulas are left aside: who typed what, and what follows."""

from dataclasses import dataclass

from builder.calculation import Entries, Value


@dataclass(frozen=True, slots=True)
class Reading:
    """What was typed into a workbook, and what the Python reference makes of it.

    `given` holds each input and choice in its canonical unit or code, None where it is blank or
    cannot be used; `entries` the typed rows of grids; `values` all results and checks; `columns`
    the columns of grids by names such as `log_owed_L_list`.
    """

    title: str
    producer: str
    site: str
    given: dict[str, Value]
    entries: Entries
    values: dict[str, Value]
    columns: dict[str, list[Value]]
    language: str
    units: str
    version: str
