"""Keeps the rows of many books in a temporary file, so that memory does not grow with them."""

import json
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from dataclasses import asdict, astuple, dataclass, fields

import pandas as pd

from builder.collection.book import Noted, Returned
from builder.collection.fleet import Event, Reason, Urgency
from builder.collection.tables import Columns, Kind, Tables
from builder.problems import EXIT_FILE, UserError
from builder.spec.records import NOTHING

CHUNK = 200
TYPES = {Kind.TEXT: "TEXT", Kind.COUNT: "INTEGER", Kind.NUMBER: "REAL", Kind.DAY: "REAL"}
BOOKS = """CREATE TABLE books (book INTEGER PRIMARY KEY, file TEXT, producer TEXT, site TEXT,
machine TEXT, identity TEXT, content TEXT, state TEXT, faults INTEGER, modified TEXT,
entries INTEGER, last_day REAL, lines TEXT, figures TEXT, reasons TEXT,
rank INTEGER, weight REAL, aside TEXT DEFAULT '')"""
CURRENT = "book IN (SELECT book FROM books WHERE aside = '')"


@dataclass(frozen=True, slots=True)
class State:
    """One book of a machine, as far as books of one machine are compared.

    `lines` are the values in force, as they are typed.
    """

    book: int
    file: str
    content: str
    lines: list[Event]


@dataclass(frozen=True, slots=True)
class Call:
    """One line of the fleet: a machine, the reasons to call, the numbers to check."""

    book: int
    file: str
    producer: str
    site: str
    machine: str
    figures: dict[str, float | None]
    last_day: float | None
    entries: int
    reasons: list[Reason]


class Store:
    """Tables of books in a temporary database."""

    def __init__(self, database: sqlite3.Connection, tables: Tables) -> None:
        """Make the tables."""
        self.database, self.tables = database, tables
        self.urgency = Urgency(tables.causes)
        for pragma in ("journal_mode = OFF", "synchronous = OFF"):  # nobody needs this file later
            database.execute(f"PRAGMA {pragma}")
        database.execute(BOOKS)
        for name, columns in tables.list_columns().items():
            typed = "".join(f', "{key}" {TYPES[kind]}' for key, kind in columns.items())
            database.execute(f"CREATE TABLE {name} (book INTEGER{typed})")
            database.execute(f"CREATE INDEX {name}_book ON {name} (book)")

    def add(self, number: int, book: Returned) -> None:
        """Add one book with its machine, events and findings; tables go by its number."""
        self.add_book(number, book)
        owner = {key: getattr(book, key) for key in ("file", "producer", "site", "machine")}
        for finding in book.findings:
            self.add_row("findings", number, {**owner, **asdict(finding)})
        if book.values is None:
            return
        keys = ("sha256", "version", "language", "units", "state")
        counts = {"faults": book.count("fault"), "warnings": book.count("warning")}
        about = {key: getattr(book, key) for key in keys}
        self.add_row("machines", number, {**owner, **about, **counts, **book.values})
        for event in book.events:
            self.add_row("events", number, {**owner, **event})

    def add_book(self, number: int, book: Returned) -> None:
        """Add what tells books of one machine apart."""
        outlook = book.outlook
        row: dict[str, object] = {"book": number}
        row |= {key: getattr(book, key) for key in ("file", "producer", "site", "machine")}
        row |= {key: getattr(book, key) for key in ("identity", "content", "state", "modified")}
        row |= {"figures": json.dumps(outlook.figures), "lines": json.dumps(book.lines)}
        row |= {"last_day": outlook.last_day, "entries": len(book.events)}
        row |= {"faults": book.count("fault")}
        names, marks = ", ".join(row), ", ".join("?" * len(row))
        sql = f"INSERT INTO books ({names}) VALUES ({marks})"  # noqa: S608 names are our own
        self.database.execute(sql, list(row.values()))
        self.set_reasons(number, outlook.reasons)

    def add_row(self, table: str, number: int, row: dict[str, object]) -> None:
        """Add one row of a table; columns that it does not have stay blank."""
        values = [row.get(key) for key in self.tables.list_columns()[table]]
        marks = ", ".join("?" * (len(values) + 1))
        self.database.execute(f"INSERT INTO {table} VALUES ({marks})", [number, *values])  # noqa: S608

    def set_reasons(self, number: int, reasons: list[Reason]) -> None:
        """Keep the reasons of a book, and its place in the order of urgency."""
        told = json.dumps([asdict(reason) for reason in reasons])
        rank, weight = self.urgency.rank(reasons[0]), self.urgency.weigh(reasons[0])
        sql = "UPDATE books SET reasons = ?, rank = ?, weight = ? WHERE book = ?"
        self.database.execute(sql, (told, rank, weight, number))

    def add_reason(self, number: int, reason: Reason) -> None:
        """Add one reason to a book."""
        sql = "SELECT reasons FROM books WHERE book = ?"
        (told,) = self.database.execute(sql, (number,)).fetchone()
        kept = [known for known in read_reasons(told) if known.kind != NOTHING]
        self.set_reasons(number, self.urgency.sort([*kept, reason]))

    def add_finding(self, state: State, finding: Noted) -> None:
        """Add a finding about a book that is there already."""
        sql = "INSERT INTO findings SELECT book, file, producer, site, machine, ?, ?, ?, ? "
        sql += "FROM books WHERE book = ?"
        self.database.execute(sql, (*astuple(finding), state.book))

    def set_aside(self, state: State, why: str) -> None:
        """Let a book no longer count for its machine."""
        sql = "UPDATE books SET aside = ? WHERE book = ?"
        self.database.execute(sql, (why, state.book))

    def list_shared(self) -> list[str]:
        """Return the identities that more than one book has."""
        sql = "SELECT identity FROM books GROUP BY identity HAVING COUNT(*) > 1"
        return [identity for (identity,) in self.database.execute(sql)]

    def list_states(self, identity: str) -> list[State]:
        """Return the books of one machine, the newest first."""
        sql = "SELECT book, file, content, lines FROM books WHERE identity = ? "
        sql += "ORDER BY last_day DESC, entries DESC, modified DESC, book"
        rows = self.database.execute(sql, (identity,))
        return [State(book, file, told, json.loads(lines)) for book, file, told, lines in rows]

    def read_typed(self, state: State) -> list[Event]:
        """Return what was typed in each row of a book's log, without blanks."""
        names = ", ".join(f'"{name}"' for name in self.tables.typed)
        sql = f"SELECT {names} FROM events WHERE book = ?"  # noqa: S608 names are our own
        rows = self.database.execute(sql, (state.book,))
        pairs = (zip(self.tables.typed, row, strict=True) for row in rows)
        return [{key: value for key, value in row if value is not None} for row in pairs]

    def read_flows(self, book: int) -> list[tuple[float, float]]:
        """Return hours run and corrected flow of a book's events, where the flow is known."""
        column = f'"{self.tables.charted}"'
        sql = f"SELECT run_hours_h, {column} FROM events "  # noqa: S608 names are our own
        sql += f"WHERE book = ? AND {column} IS NOT NULL ORDER BY rowid"
        return list(self.database.execute(sql, (book,)))

    def count_flows(self) -> tuple[int, int]:
        """Return how many machines have two known flows or more, and the most that one has."""
        sql = "SELECT COUNT(*), MAX(known) FROM (SELECT COUNT(*) AS known FROM events "
        sql += f'WHERE "{self.tables.charted}" IS NOT NULL '
        sql += f"AND {CURRENT} GROUP BY book HAVING known > 1)"
        machines, most = self.database.execute(sql).fetchone()
        return int(machines), int(most or 0)

    def read_calls(self) -> Iterator[Call]:
        """Yield a line for each machine, the most urgent first."""
        names = [field.name for field in fields(Call)]
        sql = f"SELECT {', '.join(names)} FROM books WHERE aside = '' "  # noqa: S608
        sql += "ORDER BY rank, weight DESC, producer, site, machine, book"
        for row in self.database.execute(sql):
            call = dict(zip(names, row, strict=True))
            told = {
                "figures": json.loads(call["figures"]),
                "reasons": read_reasons(call["reasons"]),
            }
            yield Call(**{**call, **told})

    def read_frames(self, table: str) -> Iterator[tuple[Columns, pd.DataFrame]]:
        """Yield the rows of a table that count, some at a time; all findings count."""
        columns = self.tables.list_columns()[table]
        names = ", ".join(f'"{name}"' for name in ("book", *columns))
        which = "1" if table == "findings" else CURRENT
        sql = f"SELECT {names} FROM {table} WHERE {which} ORDER BY book, rowid"  # noqa: S608
        for frame in pd.read_sql(sql, self.database, chunksize=CHUNK):
            yield columns, frame

    def count(self, condition: str) -> int:
        """Return how many books meet a condition."""
        sql = f"SELECT COUNT(*) FROM books WHERE {condition}"  # noqa: S608 conditions are our own
        (number,) = self.database.execute(sql).fetchone()
        return int(number)


def read_reasons(told: str) -> list[Reason]:
    """Return reasons as they were kept."""
    return [Reason(**{**row, "names": tuple(row["names"])}) for row in json.loads(told)]


@contextmanager
def open_store(tables: Tables) -> Iterator[Store]:
    """Yield an empty store, and leave nothing of it behind."""
    # A database without a name has a file without one, which goes with the process, even a killed.
    with closing(sqlite3.connect("")) as database:
        try:
            yield Store(database, tables)
        except sqlite3.OperationalError as error:
            message = f"A temporary file cannot be written: {error}. Free some space."
            raise UserError(message, EXIT_FILE) from error
