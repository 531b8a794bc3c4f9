"""Which columns the tables of collected books have, and what each of them holds."""

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from builder.formula.grids import grid_columns
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
    """The columns of each table; `typed` and `worked` are those of a row of the log."""

    machines: Columns
    events: Columns
    findings: Columns
    values: tuple[str, ...]
    typed: tuple[str, ...]
    worked: tuple[str, ...]
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
    records = list(list_records(spec))
    log = {record.name: find_kind(record) for record in records}
    return Tables(
        machines={**BOOK, **values},
        events={**EVENT, **log},
        findings=FINDINGS,
        values=tuple(values),
        typed=tuple(record.name for record in records if record.entry),
        worked=tuple(record.name for record in records if not record.entry),
        causes=spec.causes,
    )


def list_records(spec: Spec) -> Iterator[Record]:
    """Yield the columns of the log that are typed or that the reference works out."""
    grid = spec.quantities.get(LOG)
    if isinstance(grid, Grid):
        for record in grid_columns(grid, spec.quantities):
            if record.entry or record.reference:
                yield record


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
