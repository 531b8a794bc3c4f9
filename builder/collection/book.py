"""Reads one workbook that came back into rows of the tables: the work of one process."""

import hashlib
import json
import math
import os
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

from defusedxml import ElementTree

from builder.audit.container import MOST_BYTES, unpack_parts
from builder.audit.findings import Finding, Report
from builder.audit.reading import Reading
from builder.calculation import Value
from builder.collection.fleet import DAY, Event, Outlook, Reason, Standing, Urgency, as_number
from builder.collection.tables import LOG, Tables
from builder.formula.grids import UNUSABLE
from builder.problems import UserError
from builder.spec.records import ALTERED, EARLIER, EDITION, UNREADABLE

Audit = Callable[[Path], Report]
CORE = "docProps/core.xml"
MODIFIED = "{http://purl.org/dc/terms/}modified"
OWN_EDITION = ("version", "specs")
LINES = "force"
RANK, COLUMN = "rank_n", "bad_column_n"  # of a row, and its column that lacks or cannot be used
INCOMPLETE = 2.0


@dataclass(frozen=True, slots=True)
class Noted:
    """One finding of one book: `fault`, `warning` or `info`."""

    severity: str
    cell: str
    name: str
    text: str


@dataclass(frozen=True, slots=True)
class Returned:
    """One book that came back, ready for the tables.

    `identity` is the same for all books of one machine, `content` for all with the same typing.
    """

    file: str
    sha256: str
    state: str
    identity: str
    content: str
    outlook: Outlook
    findings: list[Noted]
    version: str = ""
    language: str = ""
    units: str = ""
    producer: str = ""
    site: str = ""
    machine: str = ""
    modified: str = ""
    values: dict[str, Value] | None = None
    events: tuple[Event, ...] = ()
    lines: tuple[Event, ...] = ()

    def count(self, severity: str) -> int:
        """Return how many findings there are of a severity."""
        return sum(1 for finding in self.findings if finding.severity == severity)


def gather(path: Path, audit: Audit, tables: Tables) -> Returned:
    """Return one book; whatever is wrong with its file is a finding of it."""
    try:
        report = audit(path)
        modified = read_modified(path)
    except UserError as error:
        text = str(error).removeprefix(f"{path}: ")
        return refuse_book(path, [Noted("fault", "", "", text)])
    # One file out of thousands must not end them all, whatever it does to a reading package.
    except Exception as error:
        text = (
            f"the audit failed on this file: {type(error).__name__}: {' '.join(str(error).split())}"
        )
        return refuse_book(path, [Noted("fault", "", "", text)])
    if report.reading is None:
        return refuse_book(path, list_findings(report))
    return accept_book(path, report, report.reading, tables, modified)


def list_findings(report: Report) -> list[Noted]:
    """Return the findings of an audit with their severity."""
    return [*note("fault", report.faults), *note("warning", report.warnings)]


def note(severity: str, findings: list[Finding]) -> Iterator[Noted]:
    """Yield the findings of an audit with their severity."""
    for finding in findings:
        yield Noted(severity, finding.cell, finding.name, finding.text)


def refuse_book(path: Path, findings: list[Noted]) -> Returned:
    """Return a book of which nothing can be read but its name."""
    digest = digest_file(path)
    return Returned(
        file=show_path(path),
        sha256=digest,
        state="unreadable",
        identity=digest or show_path(path),
        content=digest,
        outlook=Outlook([Reason(UNREADABLE)]),
        findings=findings,
    )


def accept_book(
    path: Path, report: Report, reading: Reading, tables: Tables, modified: str
) -> Returned:
    """Return a book with its values, events and reasons to call."""
    known = reading.values | reading.given
    values = {name: tidy(known.get(name)) for name in tables.values}
    events = list_events(reading, tables)
    owner = identify([reading.producer, reading.site, reading.title])
    content = digest_text([owner, reading.given, drop_blanks(reading)])
    own, state = judge_book(report, events)
    return Returned(
        file=show_path(path),
        sha256=digest_file(path),
        state=state,
        identity=owner or content,
        content=content,
        outlook=Urgency(tables.causes).judge(Standing(values, events, own)),
        findings=list_findings(report),
        version=reading.version,
        language=reading.language,
        units=reading.units,
        producer=reading.producer,
        site=reading.site,
        machine=reading.title,
        modified=modified,
        values=values,
        events=tuple(events),
        lines=tuple(drop_blanks(reading).get(LINES, [])),
    )


def judge_book(report: Report, events: list[Event]) -> tuple[list[Reason], str]:
    """Return the reasons that lie in the book itself, and its state in one word."""
    version = (report.version or "?",)
    if any(map(tells_edition, report.faults)):
        return [Reason(EDITION, names=version)], "edition"
    listed = any(map(tells_edition, report.warnings))
    earlier = [Reason(EARLIER, names=version)] if listed else []
    if report.faults:
        return [Reason(ALTERED, count=len(report.faults)), *earlier], "altered"
    return earlier, "edition" if listed else judge_log(events)


def judge_log(events: list[Event]) -> str:
    """Return the state of a book without a fault: sound only if its log is kept and complete."""
    if not events:
        return "empty"
    return "unfinished" if any(map(lacks, events)) else "sound"


def lacks(event: Event) -> bool:
    """Tell whether a row is incomplete; a verdict that is worse does not hide a missing cell."""
    return event.get(RANK) == INCOMPLETE or bool(event.get(COLUMN))


def tells_edition(finding: Finding) -> bool:
    """Tell whether a finding says that another edition built the book."""
    return not finding.cell and finding.name in OWN_EDITION


def list_events(reading: Reading, tables: Tables) -> list[Event]:
    """Return the begun rows of the log from top to bottom, with the hours run so far.

    A typed cell that cannot be used is blank, as it is for the log itself.
    """
    columns = {name: reading.columns.get(source, []) for name, source in tables.worked.items()}
    used = {name: reading.columns.get(source, []) for name, source in tables.typed.items()}
    events: list[Event] = []
    for number, typed in enumerate(reading.entries.get(LOG, [])):
        if all(value is None for value in typed.values()):
            continue
        event: Event = {"row": float(number + 1)}
        for name, column in used.items():
            event[name] = tidy(pick(column, number) if column else typed.get(name))
        event |= {name: tidy(pick(column, number)) for name, column in columns.items()}
        events.append({**event, DAY: event.get(DAY) or None})
    return add_hours(events)


def pick(column: list[Value], number: int) -> Value:
    """Return what a column of the reference has in a row; nothing for what cannot be used."""
    value = column[number] if number < len(column) else None
    return None if value == UNUSABLE else value


def add_hours(events: list[Event]) -> list[Event]:
    """Return the events with the hours run up to each of them."""
    total = 0.0
    counted = []
    for event in events:
        total += as_number(event.get("hours_h")) or 0.0
        counted.append({**event, "run_hours_h": total})
    return counted


def tidy(value: Value) -> Value:
    """Return a value as tables hold it; what is no finite number is a blank."""
    if isinstance(value, int | float):
        return float(value) if math.isfinite(value) else None
    return value


def identify(owner: list[str]) -> str:
    """Return who a machine is, without regard to case and runs of spaces; "" if nobody says."""
    plain = [" ".join(text.casefold().split()) for text in owner]
    return digest_text(plain) if any(plain) else ""


def drop_blanks(reading: Reading) -> dict[str, list[dict[str, Value]]]:
    """Return the typed rows of every grid without their blank cells and blank ends."""
    filled: dict[str, list[dict[str, Value]]] = {}
    for name, rows in reading.entries.items():
        plain: list[dict[str, Value]] = [
            {k: v for k, v in row.items() if v is not None} for row in rows
        ]
        while plain and not plain[-1]:
            plain.pop()
        filled[name] = plain
    return filled


def digest_text(content: object) -> str:
    """Return the fingerprint of plain data."""
    return hashlib.sha256(json.dumps(content, sort_keys=True).encode()).hexdigest()


def digest_file(path: Path) -> str:
    """Return the SHA-256 of a file, or nothing where it cannot be read to an end."""
    try:
        if not path.is_file() or path.stat().st_size > MOST_BYTES:
            return ""
        with path.open("rb") as file:
            return hashlib.file_digest(file, "sha256").hexdigest()
    except OSError:
        return ""


def read_modified(path: Path) -> str:
    """Return when a program says that it last saved the file, as `2026-03-14T16:20:00Z`."""
    core = unpack_parts(path).get(CORE)
    found = ElementTree.fromstring(core).find(MODIFIED) if core else None
    return "" if found is None else (found.text or "")


def show_path(path: Path) -> str:
    """Return a path as text that every format can hold."""
    return os.fsencode(path).decode("utf-8", "replace")
