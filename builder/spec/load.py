"""Loads the folder of specs into records, collecting every problem on the way."""

import csv
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

from builder.problems import Problem, ProblemsError, suggest
from builder.spec.editions import digest_facts
from builder.spec.entries import COEFFICIENTS, Entries, Entry
from builder.spec.fields import Reader
from builder.spec.pages import Block, Sheet
from builder.spec.positions import Positions, parse_toml
from builder.spec.records import (
    Cause,
    Check,
    Choice,
    Constant,
    Edition,
    Former,
    Grid,
    Input,
    Language,
    Place,
    Quantity,
    Record,
    Result,
    Source,
    Text,
    Unit,
)
from builder.spec.renaming import Renaming
from builder.spec.specification import Spec, Worked
from builder.spec.stories import StoryWords

KINDS: dict[str, type[Quantity]] = {
    "input": Input,
    "choice": Choice,
    "constant": Constant,
    "result": Result,
    "check": Check,
    "record": Record,
    "grid": Grid,
}
WORKBOOK = "workbook.toml"
TERM = "term_"  # words around the label of a list of coefficients


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
        self.languages: dict[str, Language] = {}

    def load(self) -> Spec:
        """Read every file; the languages first, which all words are to be in."""
        self.languages = {language.code: language for language in self.load_languages()}
        words = dict(self.load_words())
        spec = Spec(
            languages=self.languages,
            quantities=self.load_topics(words),
            sheets=self.order_sheets({sheet.key: sheet for sheet in self.load_sheets()}),
            units={unit.key: unit for unit in self.load_units()},
            sources={source.id: source for source in self.load_sources()},
            words=words,
            tables=dict(self.load_tables()),
            drawings={p.stem: p.read_bytes() for p in (self.folder / "drawings").glob("*.png")},
            digest="",
            word_places=self.word_places,
            worked=self.load_worked(),
            editions=list(self.load_editions()),
            causes={cause.key: cause for cause in self.load_causes()},
            former={former.name: former for former in self.load_former()},
            stories=self.load_stories(),
            renaming=self.load_renaming(),
        )
        return replace(spec, digest=digest_facts(spec))

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
            remedy = "Put it back; languages, units, sources and words are always needed."
            self.problems.append(
                Problem(name, 1, "no-file", path.name, "the file is missing.", remedy)
            )
            return
        tables, positions, found = parse_toml(path, name)
        self.problems += found
        for key, table in tables.items():
            reader = self.point(name, positions, key)
            if isinstance(table, dict):
                yield key, table, reader
            else:
                reader.report("not-a-table", key, f"stands outside a [table]: {table!r}.")

    def point(self, name: str, positions: Positions, *path: str) -> Reader:
        """Return a reader of one table of a file."""
        return Reader(name, positions, self.problems, path, self.languages)

    def load_languages(self) -> Iterator[Language]:
        """Read the languages of workbooks."""
        for key, table, reader in self.read(self.folder / "languages.toml"):
            if language := reader.build(Language, key, table, code=key):
                yield language

    def load_topics(self, words: dict[str, Text]) -> dict[str, Quantity]:
        """Read all quantities, in the order of the files."""
        quantities: dict[str, Quantity] = {}
        lower: dict[str, Quantity] = {}
        terms = {
            key.removeprefix(TERM): text.words
            for key, text in words.items()
            if key.startswith(TERM)
        }
        for path in sorted((self.folder / "topics").glob("*.toml")):
            tables = {name: (table, reader) for name, table, reader in self.read(path)}
            for entry in Entries(tables, terms).list_all():
                quantity = self.build_quantity(entry)
                if quantity is None:
                    continue
                twin = lower.setdefault(quantity.name.lower(), quantity)
                if twin is not quantity:
                    where = f"{twin.place.file}:{twin.place.line}"
                    entry.reader.report("name-twice", quantity.name, f"stands at {where} already.")
                quantities[quantity.name] = quantity
        return quantities

    def build_quantity(self, entry: Entry) -> Quantity | None:
        """Return the record of an entry, or None after reporting why there is none."""
        if entry.kind not in KINDS:
            known = ", ".join((*KINDS, COEFFICIENTS))
            text = f"kind {entry.kind!r} is not one of {known}.{suggest(entry.kind, KINDS)}"
            entry.reader.report("unknown-kind", entry.name, text)
            return None
        return entry.reader.build(KINDS[entry.kind], entry.name, entry.table, name=entry.name)

    def load_sheets(self) -> Iterator[Sheet]:
        """Read the sheets; each file holds [sheet] and any number of [[block]]."""
        for path in sorted((self.folder / "sheets").glob("*.toml")):
            name = f"specs/sheets/{path.name}"
            tables, positions, found = parse_toml(path, name)
            self.problems += found
            blocks = []
            listed = tables.pop("block", [])
            if not isinstance(listed, list):
                reader = self.point(name, positions, "block")
                reader.report("wrong-type", "block", "write [[block]], with two brackets.")
                listed = []
            for number, table in enumerate(listed):
                reader = self.point(name, positions, "block", str(number))
                if block := reader.build(Block, f"block {number + 1}", table):
                    blocks.append(block)
            reader = self.point(name, positions, "sheet")
            table = tables.pop("sheet", {})
            for key in tables:
                outside = self.point(name, positions)
                outside.report("unknown-key", key, "only [sheet] and [[block]] belong here.", key)
            if sheet := reader.build(Sheet, path.stem, table, key=path.stem):
                yield replace(sheet, blocks=blocks)

    def order_sheets(self, sheets: dict[str, Sheet]) -> list[Sheet]:
        """Return the sheets in the order of the workbook; each file is listed once."""
        for key, table, reader in self.read(self.folder / WORKBOOK):
            if key != "workbook":
                reader.report("unknown-key", key, "only [workbook] belongs here.")
                continue
            listed = [str(name) for name in as_list(table.get("sheets"))]
            for name in {name for name in listed if listed.count(name) > 1}:
                reader.report("sheet-twice", name, "is listed twice.", "sheets")
            for name in sheets.keys() - set(listed):
                text = "the sheet's file is not listed among sheets."
                reader.report("sheet-unlisted", name, text, "sheets", remedy="List it.")
            files = {path.stem for path in (self.folder / "sheets").glob("*.toml")}
            for name in set(listed) - files:
                text = f"there is no file specs/sheets/{name}.toml.{suggest(name, files)}"
                reader.report("no-sheet", name, text, "sheets", remedy="Correct the list.")
            return [sheets[name] for name in dict.fromkeys(listed) if name in sheets]
        return []

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

    def load_editions(self) -> Iterator[Edition]:
        """Read the list of editions, the newest first, if there is one."""
        path = self.folder / "editions.toml"
        for key, table, reader in self.read(path) if path.is_file() else ():
            if edition := reader.build(Edition, key, table, version=key):
                yield edition

    def load_causes(self) -> Iterator[Cause]:
        """Read the reasons to call, the most urgent first, if there are any."""
        path = self.folder / "calls.toml"
        for key, table, reader in self.read(path) if path.is_file() else ():
            if cause := reader.build(Cause, key, table, key=key):
                yield cause

    def load_former(self) -> Iterator[Former]:
        """Read the inputs of earlier editions, if there are any."""
        path = self.folder / "former.toml"
        for key, table, reader in self.read(path) if path.is_file() else ():
            if former := reader.build(Former, key, table, name=key):
                yield former

    def load_renaming(self) -> Renaming | None:
        """Read what older editions call otherwise, if that is said."""
        path = self.folder / "renewal.toml"
        tables = self.read(path) if path.is_file() else ()
        return next((reader.build(Renaming, key, table) for key, table, reader in tables), None)

    def load_stories(self) -> StoryWords | None:
        """Read what the words of stories stand for, if there are any."""
        path = self.folder / "replay.toml"
        if not path.is_file():
            return None
        name = f"specs/{path.name}"
        tables, positions, found = parse_toml(path, name)
        self.problems += found
        return None if found else self.point(name, positions).build(StoryWords, path.stem, tables)

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


def as_list(value: object) -> list[object]:
    """Return a list as it is, and nothing for anything else."""
    return value if isinstance(value, list) else []
