"""The manifest of a roster: what stands in a folder, row by row, and a journal while it grows."""

import csv
import io
from collections.abc import Iterable, Iterator
from dataclasses import asdict, dataclass, fields
from pathlib import Path
from typing import Any, TextIO

from builder.exchange.output import write_file
from builder.problems import EXIT_FILE, UserError

MANIFEST = "manifest.csv"
JOURNAL = ".manifest.part"
# A spreadsheet program may take a cell that begins so for a formula.
RISKY = "=+-@\t\r\n＝＋－＠"
SHIELD = "'"


@dataclass(frozen=True, slots=True)
class Record:
    """One row of the manifest; `file` is a book, `message_sha256` belongs to its message."""

    row: int
    producer: str
    site: str
    machine: str
    language: str
    units: str
    file: str
    sha256: str = ""
    size: int = 0
    version: str = ""
    specs_digest: str = ""
    input_hash: str = ""
    status: str = ""
    warnings: str = ""
    message_sha256: str = ""


HEADINGS = [field.name for field in fields(Record)]


class Manifest:
    """The manifest of one folder.

    A finished row goes into the journal at once, so that a run that was cut short is not lost;
    the manifest itself changes only when a run is complete.
    """

    def __init__(self, folder: Path) -> None:
        """Read what an earlier run has left, whole or cut short."""
        self.path, self.journal = folder / MANIFEST, folder / JOURNAL
        self.noted = list(read_records(self.journal))
        found = [*read_records(self.path), *self.noted]
        self.known = {record.file: record for record in found if record.file}
        self.rows: list[Record] = []

    def begin(self) -> TextIO:
        """Return the journal to write to; what a run that was cut short has noted stays in it."""
        write_records(self.journal, self.noted)
        return self.journal.open("a", encoding="utf-8", newline="")

    def add(self, record: Record, journal: TextIO) -> None:
        """Note a finished row."""
        self.rows.append(record)
        csv.writer(journal).writerow(list_cells(record))
        journal.flush()

    def finish(self) -> None:
        """Write the rows in the order of the roster, and drop the journal."""
        write_records(self.path, sorted(self.rows, key=lambda record: record.row))
        self.journal.unlink()


def read_records(path: Path) -> Iterator[Record]:
    """Yield the records of a file, none if there is no file; a line that was cut is left out."""
    if not path.exists():
        return
    try:
        with path.open(encoding="utf-8-sig", errors="replace", newline="") as file:
            reader = csv.reader(file)
            if next(reader, []) != HEADINGS:
                raise refuse(path)
            for cells in reader:
                if len(cells) == len(HEADINGS):
                    yield read_record(dict(zip(HEADINGS, cells, strict=True)))
    except (OSError, csv.Error, ValueError) as error:
        raise refuse(path) from error


def refuse(path: Path) -> UserError:
    """Return the error of a manifest that is none of ours."""
    text = f"{path} is no manifest of this program. Choose another folder with --out, or move it."
    return UserError(text, EXIT_FILE)


def read_record(cells: dict[str, str]) -> Record:
    """Return the record of a line."""
    values: dict[str, Any] = {key: remove_shield(text) for key, text in cells.items()}
    return Record(**{**values, "row": int(values["row"]), "size": int(values["size"])})


def write_records(path: Path, records: Iterable[Record]) -> None:
    """Write a manifest whole or not at all."""
    text = io.StringIO()
    writer = csv.writer(text)
    writer.writerow(HEADINGS)
    writer.writerows(list_cells(record) for record in records)
    write_file(path, text.getvalue().encode())


def list_cells(record: Record) -> list[str]:
    """Return the cells of a record, with nothing that can become a formula."""
    return [add_shield(str(value)) for value in asdict(record).values()]


def add_shield(text: str) -> str:
    """Return a text with an apostrophe before a sign that may begin a formula."""
    return f"{SHIELD}{text}" if text[:1] and text[0] in RISKY + SHIELD else text


def remove_shield(text: str) -> str:
    """Return a text as it was before."""
    return text.removeprefix(SHIELD)
