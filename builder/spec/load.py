"""Loads the folder of specs into records, collecting every problem on the way."""

import csv
import hashlib
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

from builder.problems import Problem, ProblemsError, suggest
from builder.spec.fields import Reader
from builder.spec.pages import Block, Sheet
from builder.spec.positions import parse_toml
from builder.spec.records import (
    Check,
    Choice,
    Constant,
    Grid,
    Input,
    Place,
    Quantity,
    Record,
    Result,
    Source,
    Text,
    Unit,
)
from builder.spec.specification import Spec, Worked

KINDS: dict[str, type[Quantity]] = {
    "input": Input,
    "choice": Choice,
    "constant": Constant,
    "result": Result,
    "check": Check,
    "record": Record,
    "grid": Grid,
}
COPY_MARK = "{i}"


def find_specs() -> Path:
    """Return the folder of specs: inside the installed package, or beside it in a checkout."""
    package = Path(__file__).resolve().parent.parent
    inside = package / "specs"
    return inside if inside.is_dir() else package.parent / "specs"


def load_spec(folder: Path) -> Spec:
    """Load all specs of a folder; raise ProblemsError with everything that is wrong."""
    loader = Loader(folder)
    spec = loader.load()
    if loader.problems:
        raise ProblemsError(loader.problems)
    return spec


class Loader:
    """One pass over a folder of specs."""

    def __init__(self, folder: Path) -> None:
        """Remember the folder; nothing is read yet."""
        self.folder = folder
        self.problems: list[Problem] = []
        self.word_places: dict[str, Place] = {}

    def load(self) -> Spec:
        """Read every file."""
        return Spec(
            quantities=self.load_topics(),
            sheets=sorted(self.load_sheets(), key=lambda sheet: sheet.order),
            units={unit.key: unit for unit in self.load_units()},
            sources={source.id: source for source in self.load_sources()},
            words=dict(self.load_words()),
            tables=dict(self.load_tables()),
            digest=digest_folder(self.folder),
            word_places=self.word_places,
            worked=self.load_worked(),
        )

    def load_worked(self) -> Worked:
        """Read the worked case of the self-test, if there is one."""
        path = self.folder / "worked.toml"
        cases = [
            reader.build(Worked, key, table)
            for key, table, reader in (self.read(path) if path.is_file() else ())
        ]
        found = [case for case in cases if case]
        return found[0] if found else Worked(place=Place("specs/worked.toml", 1))

    def read(self, path: Path) -> Iterator[tuple[str, dict[str, object], Reader]]:
        """Yield the tables of one file, each with a reader that knows its lines."""
        name = f"specs/{path.relative_to(self.folder).as_posix()}"
        if not path.is_file():
            remedy = "Put the file back; units, sources and words are always needed."
            self.problems.append(
                Problem(name, 1, "no-file", path.name, "the file is missing.", remedy)
            )
            return
        tables, positions, found = parse_toml(path, name)
        self.problems += found
        for key, table in tables.items():
            reader = Reader(name, positions, self.problems, (key,))
            if isinstance(table, dict):
                yield key, table, reader
            else:
                reader.report("not-a-table", key, f"stands outside a [table]: {table!r}.")

    def load_topics(self) -> dict[str, Quantity]:
        """Read all quantities, in the order of the files."""
        quantities: dict[str, Quantity] = {}
        lower: dict[str, Quantity] = {}
        for path in sorted((self.folder / "topics").glob("*.toml")):
            for name, table, reader in self.read(path):
                for quantity in self.read_quantity(name, table, reader):
                    twin = lower.setdefault(quantity.name.lower(), quantity)
                    if twin is not quantity:
                        where = f"{twin.place.file}:{twin.place.line}"
                        reader.report("name-twice", quantity.name, f"stands at {where} already.")
                    quantities[quantity.name] = quantity
        return quantities

    def read_quantity(
        self, name: str, table: dict[str, object], reader: Reader
    ) -> Iterator[Quantity]:
        """Read one entry; an entry with `copies = n` stands for n entries, {i} = 1 to n."""
        table = dict(table)
        kind = str(table.pop("kind", ""))
        copies, listed = table.pop("copies", 0), table.pop("values", None)
        if kind not in KINDS:
            known = ", ".join(KINDS)
            text = f"kind {kind!r} is not one of {known}.{suggest(kind, KINDS)}"
            reader.report("unknown-kind", name, text)
            return
        if type(copies) is not int or copies < 0 or (copies > 0) != (COPY_MARK in name):
            text = f"copies = {copies!r} and {COPY_MARK} in the name belong together."
            reader.report("bad-copies", name, text)
            return
        for number in range(1, copies + 1) if copies else [0]:
            copy = mark_copy(table, number)
            if isinstance(listed, list) and number and len(listed) == copies:
                copy["value"] = listed[number - 1]
            record = reader.build(KINDS[kind], name, copy, name=name)
            if record is not None:
                yield replace(record, name=name.replace(COPY_MARK, str(number)))

    def load_sheets(self) -> Iterator[Sheet]:
        """Read the sheets; each file holds [sheet] and any number of [[block]]."""
        for path in sorted((self.folder / "sheets").glob("*.toml")):
            name = f"specs/sheets/{path.name}"
            tables, positions, found = parse_toml(path, name)
            self.problems += found
            blocks = []
            listed = tables.pop("block", [])
            if not isinstance(listed, list):
                reader = Reader(name, positions, self.problems, ("block",))
                reader.report("wrong-type", "block", "write [[block]], with two brackets.")
                listed = []
            for number, table in enumerate(listed):
                reader = Reader(name, positions, self.problems, ("block", str(number)))
                if block := reader.build(Block, f"block {number + 1}", table):
                    blocks.append(block)
            reader = Reader(name, positions, self.problems, ("sheet",))
            table = tables.pop("sheet", {})
            for key in tables:
                outside = Reader(name, positions, self.problems, ())
                outside.report("unknown-key", key, "only [sheet] and [[block]] belong here.", key)
            if sheet := reader.build(Sheet, path.stem, table, key=path.stem):
                yield replace(sheet, blocks=blocks)

    def load_units(self) -> Iterator[Unit]:
        """Read the units of measure; factors are exact fractions."""
        for key, table, reader in self.read(self.folder / "units.toml"):
            unit = reader.build(Unit, key, {"offset": "0", **table}, key=key)
            if unit is not None:
                yield unit

    def load_sources(self) -> Iterator[Source]:
        """Read the registry of sources."""
        for key, table, reader in self.read(self.folder / "sources.toml"):
            if source := reader.build(Source, key, table, id=key):
                yield source

    def load_words(self) -> Iterator[tuple[str, Text]]:
        """Read the words that the workbook itself uses."""
        for key, table, reader in self.read(self.folder / "words.toml"):
            if (text := reader.text(key, table)) is not None:
                self.word_places[key] = reader.place()
                yield key, text

    def load_tables(self) -> Iterator[tuple[str, list[list[str]]]]:
        """Read the look-up tables, header row first."""
        for path in sorted((self.folder / "tables").glob("*.csv")):
            try:
                with path.open(encoding="utf-8", newline="") as lines:
                    yield path.stem, list(csv.reader(lines))
            except UnicodeDecodeError as error:
                text = f"byte {error.start} is not UTF-8."
                remedy = "Save the file as UTF-8 text."
                name = f"specs/tables/{path.name}"
                self.problems.append(Problem(name, 1, "not-utf8", path.name, text, remedy))


def mark_copy(table: dict[str, object], number: int) -> dict[str, object]:
    """Return the table with {i} replaced in all its texts."""

    def mark(value: object) -> object:
        if isinstance(value, str):
            return value.replace(COPY_MARK, str(number))
        if isinstance(value, list):
            return [mark(item) for item in value]
        return mark_copy(value, number) if isinstance(value, dict) else value

    return {key: mark(value) for key, value in table.items()} if number else table


def digest_folder(folder: Path) -> str:
    """Return a short fingerprint of all spec files, names and contents."""
    total = hashlib.sha256()
    for path in sorted(folder.rglob("*")):
        if path.suffix in {".toml", ".csv"}:
            total.update(path.relative_to(folder).as_posix().encode() + b"\0" + path.read_bytes())
    return total.hexdigest()[:12]
