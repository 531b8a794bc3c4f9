"""Reads a roster: one machine a row, each judged on its own."""

import json
import re
from collections.abc import Iterator
from dataclasses import asdict, dataclass, field
from hashlib import sha256
from pathlib import Path

from builder.exchange.given import NUMBER, RefusalError, Typed, read_given, show
from builder.exchange.machine import Machine, read_label
from builder.problems import Problem, suggest
from builder.roster.columns import KEYS, Column, read_columns
from builder.roster.names import Names, make_slug
from builder.roster.table import Line, Table, Unsolved, open_table
from builder.spec.specification import Spec

UNITS = ("metric", "us", "imperial")
TEXTS = ("producer", "site", "machine")
COMMA = re.compile(r"^([+-]?[0-9]+),([0-9]+)(?![0-9,.])")
LONGEST_ADDRESS = 254
ADDRESS = re.compile(r"[A-Za-z0-9.!#$%&'*+/=?^_`{|}~-]+@[A-Za-z0-9-]+(\.[A-Za-z0-9-]+)+")


@dataclass(frozen=True, slots=True)
class Row:
    """One row: the machine, how its book reads and is called, and what is wrong with the row."""

    line: int
    machine: Machine
    lang: str
    units: str
    stem: str
    recipient: str = ""
    problems: list[Problem] = field(default_factory=list)
    warnings: list[str] = field(default_factory=list)

    @property
    def digest(self) -> str:
        """The fingerprint of everything that the book of this row depends on."""
        content = json.dumps([asdict(self.machine), self.lang, self.units], sort_keys=True)
        return sha256(content.encode()).hexdigest()


class Roster:
    """An open roster whose headings are understood; its rows are read as they are asked for."""

    def __init__(self, path: Path, spec: Spec) -> None:
        """Open the file; raise UserError where it is no table, or ProblemsError over headings."""
        self.path, self.spec = path, spec
        self.table: Table = open_table(path)
        headings = self.table.headings
        self.columns = read_columns(str(path), headings.number, headings.cells, spec)
        self.count = self.table.count
        self.codes = {"language": tuple(spec.languages), "units": UNITS}

    def rows(self) -> Iterator[Row]:
        """Yield every row, faulty ones too; names of files are given in the order of the rows."""
        names = Names()
        seen: dict[tuple[str, ...], int] = {}
        for line in self.table.lines():
            found, problems = self.judge(line)
            title, producer, site = (
                str(found.get(key, "")) for key in ("machine", "producer", "site")
            )
            given = {key: value for key, value in found.items() if isinstance(value, Typed)}
            reader = given.get("reader_units")
            slug = make_slug(str(found.get("file", "") or f"{producer}-{site}-{title}"))
            stem = names.claim(slug)
            yield Row(
                line=line.number,
                machine=Machine(title, producer, site, given),
                lang=str(found.get("language", self.spec.main_language)),
                units=str(found.get("units", reader.code if reader else "metric")),
                stem=stem,
                recipient=str(found.get("mail", "")),
                problems=problems,
                warnings=list(find_warnings(line, (producer, site, title), (slug, stem), seen)),
            )

    def judge(self, line: Line) -> tuple[dict[str, object], list[Problem]]:
        """Return what the cells of a line say, and every fault among them."""
        found: dict[str, object] = {}
        problems = []
        for column, value in zip(self.columns, line.cells, strict=False):
            if value is None:
                continue
            try:
                found[column.key] = self.read_cell(column, value)
            except RefusalError as refusal:
                problems.append(self.report(line, column.heading, refusal))
        if len(line.cells) > len(self.columns):
            text = f"{len(line.cells)} cells under {len(self.columns)} headings."
            remedy = "Put a cell that holds a comma in quotes, or use semicolons between cells."
            surplus = RefusalError("too-many-cells", text, remedy)
            problems.append(self.report(line, f"column {len(self.columns) + 1}", surplus))
        return found, problems

    def report(self, line: Line, heading: str, refusal: RefusalError) -> Problem:
        """Return a refusal as a problem of this file."""
        place = str(self.path), line.number
        return Problem(*place, refusal.code, heading, refusal.text, refusal.remedy)

    def read_cell(self, column: Column, value: object) -> object:
        """Return what one cell says, or raise RefusalError."""
        if isinstance(value, Unsolved):
            text = f"the formula {show(value.formula)} has no stored value."
            raise RefusalError("no-value", text, "Open the roster, save it, and try again.")
        if column.key in self.codes:
            return read_code(write_text(value), self.codes[column.key])
        if column.key in TEXTS:
            return read_label(write_text(value))
        if column.key == "mail":
            return read_address(write_text(value))
        if column.key in KEYS:
            return write_text(value)
        return read_given(column.key, self.find_entry(column, value), self.spec)

    def find_entry(self, column: Column, value: object) -> object:
        """Return the value as a machine file would have it: a number, or a number with a unit."""
        if isinstance(value, str):
            text = COMMA.sub(r"\1.\2", value, count=1) if self.table.decimal_comma else value
            if not NUMBER.fullmatch(text):
                return text
            return f"{text} {column.unit}" if column.unit else float(text)
        if column.unit and isinstance(value, int | float) and not isinstance(value, bool):
            return f"{value!r} {column.unit}"
        return value


def write_text(value: object) -> str:
    """Return a cell as text; a number that was meant as a text has no decimals."""
    return f"{value:.15g}" if isinstance(value, float) else str(value)


def read_code(text: str, codes: tuple[str, ...]) -> str:
    """Return one of a few codes, whatever its capitals."""
    code = text.casefold()
    if code not in codes:
        said = f"{show(text)} is not one of {', '.join(codes)}.{suggest(code, codes)}"
        raise RefusalError("unknown-choice", said, f"Write {codes[0]}, or leave the cell blank.")
    return code


def read_address(text: str) -> str:
    """Return an address that can stand in the head of a message."""
    if len(text) > LONGEST_ADDRESS or not ADDRESS.fullmatch(text):
        remedy = "Write one address, such as name@example.org, and nothing beside it."
        raise RefusalError("bad-address", f"{show(text)} is no mail address.", remedy)
    return text


def find_warnings(
    line: Line,
    identity: tuple[str, str, str],
    names: tuple[str, str],
    seen: dict[tuple[str, ...], int],
) -> Iterator[str]:
    """Yield what is no fault, but may not be meant."""
    key = tuple(" ".join(text.split()).casefold() for text in identity)
    if not any(key):
        yield "no producer, site or machine: the book cannot be told from others"
    elif key in seen:
        yield f"the same machine as in row {seen[key]}"
    seen.setdefault(key, line.number)
    if names[0] != names[1]:
        yield f"the file name {names[0]} was taken"
