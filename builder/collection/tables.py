"""Which columns the tables of collected books have, and what each of them holds."""

from dataclasses import dataclass
from enum import StrEnum

from builder.calculation import Calculator
from builder.formula.grids import LIST, grid_columns, list_group, name_column
from builder.spec.records import Cause, Check, Choice, Grid, Input, Quantity, Record, Result
from builder.spec.specification import Spec

LOG = "log"
DATE = "date"


class Kind(StrEnum):
    """What a column holds; a day is the serial number that spreadsheets count."""

    TEXT = "text"
    COUNT = "count"
    NUMBER = "number"
    DAY = "day"


Columns = dict[str, Kind]
OWNER: Columns = dict.fromkeys(("file", "producer", "site", "machine"), Kind.TEXT)
BOOK: Columns = {
    **OWNER,
    **dict.fromkeys(("sha256", "version", "language", "units", "state"), Kind.TEXT),
    **dict.fromkeys(("faults", "warnings"), Kind.COUNT),
}
EVENT: Columns = {**OWNER, "row": Kind.COUNT, "run_hours_h": Kind.NUMBER}
FINDINGS: Columns = {**OWNER, **dict.fromkeys(("severity", "cell", "name", "text"), Kind.TEXT)}


@dataclass(frozen=True, slots=True)
class Tables:
    """The columns of each table; `typed` and `worked` are those of a row of the log.

    Each has its list of the reference: for a typed column that of what can be used, if there is
    one.
    """

    machines: Columns
    events: Columns
    findings: Columns
    values: tuple[str, ...]
    typed: dict[str, str]
    worked: dict[str, str]
    causes: dict[str, Cause]

    @property
    def charted(self) -> str:
        """The column of the log that is drawn against hours run."""
        return next(cause.column for cause in self.causes.values() if cause.charted)

    def list_columns(self) -> dict[str, Columns]:
        """Return the columns of each table by its name, in the order of writing."""
        return {"machines": self.machines, "events": self.events, "findings": self.findings}


def make_tables(spec: Spec) -> Tables:
    """Return the tables that the specs ask for: a column for each quantity, by its name."""
    values = {
        name: find_kind(quantity)
        for name, quantity in spec.quantities.items()
        if isinstance(quantity, Input | Choice | Result | Check)
    }
    typed, worked = list_columns(spec)
    return Tables(
        machines={**BOOK, **values},
        events={
            **EVENT,
            **{record.name: find_kind(record) for record in (*typed, *worked.values())},
        },
        findings=FINDINGS,
        values=tuple(values),
        typed={record.name: find_usable(record, spec) for record in typed},
        worked={record.name: source for source, record in worked.items()},
        causes=spec.causes,
    )


def list_columns(spec: Spec) -> tuple[list[Record], dict[str, Record]]:
    """Return the typed columns of the log, and what the reference works out beside them, by list.

    What only reads a typed cell is no column of its own.
    """
    grid = spec.quantities.get(LOG)
    if not isinstance(grid, Grid):
        return [], {}
    known = Calculator(spec).work_out({}, {}).columns
    worked = {
        source: record
        for member in list_group(grid, spec.quantities)
        for record in grid_columns(member, spec.quantities)
        if (source := f"{name_column(member.name, record.name)}{LIST}") in known
        and not (record.entry or record.made_from)
    }
    return [column for column in grid_columns(grid, spec.quantities) if column.entry], worked


def find_usable(record: Record, spec: Spec) -> str:
    """Return the list that tells what of a typed column can be used, in its canonical unit."""
    grid = spec.quantities[LOG]
    members = list_group(grid, spec.quantities) if isinstance(grid, Grid) else []
    found = (
        f"{name_column(member.name, column.name)}{LIST}"
        for member in members
        for column in grid_columns(member, spec.quantities)
        if record.name in (column.used, column.codes)
    )
    return next(found, "")


def find_kind(quantity: Quantity) -> Kind:
    """Return what the column of a quantity holds."""
    match quantity:
        case Choice() | Check():
            return Kind.TEXT
        case Record(entry="choice" | "text"):
            return Kind.TEXT
        case Record(entry="date") | Record(date=True) | Result(date=True):
            return Kind.DAY
    return Kind.NUMBER
