"""Carries what was typed in an older workbook into a fresh one; nothing is lost silently."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from pathlib import Path

from builder import __version__
from builder.audit.cases import TYPED_UNIT
from builder.audit.identity import Kinship, relate
from builder.calculation import Entries
from builder.counts import tell_count
from builder.exchange.machine import Machine, canonical
from builder.problems import EXIT_USAGE, UserError
from builder.renewal.former import add_said
from builder.renewal.inputs import read_inputs
from builder.renewal.kept import add_lines
from builder.renewal.rows import drop_worked, read_filled, read_rows, read_texts
from builder.renewal.source import Note, Source
from builder.spec.records import Choice, Input
from builder.spec.specification import Spec

LOG, MARK = "log_", "example_n"
READER = "reader_units"  # begins with what the command asked for
FindPlaces = Callable[[str, str], set[str]]


@dataclass(frozen=True, slots=True)
class Renewal:
    """What an older workbook holds: a machine, its language and units, and what is to tell."""

    machine: Machine
    lang: str
    units: str
    origin: str
    counts: dict[str, int]
    notes: list[Note]

    def report(self) -> Iterator[str]:
        """Yield one line on where it comes from, one on what was carried, and one a note."""
        yield f"older workbook: {self.origin}"
        carried = (tell_count(number, what) for what, number in self.counts.items())
        yield f"carried: {', '.join(carried)}"
        yield from (str(note) for note in self.notes)
        dropped = sum(note.fate == "dropped" for note in self.notes)
        yield f"dropped: {dropped} in all" if dropped else "dropped: nothing"


def renew(path: Path, spec: Spec, find_places: FindPlaces, asked: str = "") -> Renewal:
    """Return what was typed in a workbook of ours; raise UserError where it is none.

    `find_places` lists the cells, as `Sheet!B5`, of this edition in a language and units: what
    stands elsewhere in a workbook of the same edition was added by somebody.
    """
    source = Source(path, spec)
    texts = read_texts(source)
    given = read_inputs(source)
    add_said(source, given)
    facts = source.book.properties
    own = (given[READER].code if READER in given else "") or facts["units"]
    units = asked or own
    entries = read_rows(source, units)
    if units != own and renumbers(source, entries):
        message = f"{path}: its rows are typed in {own} units. Leave out --units {units}."
        raise UserError(message, EXIT_USAGE)
    filled = read_filled(source)
    add_lines(source, entries, canonical(Machine(given=given), spec), units)
    tell_rest(source, find_places)
    title, producer, site = texts.values()
    machine = Machine(title, producer, site, given, entries, filled, is_example(source))
    return Renewal(
        machine=machine,
        lang=facts["language"],
        units=units,
        origin="edition {}; this is {}".format(*tell_editions(source)),
        counts=count(source, texts, entries, len(filled)),
        notes=source.notes,
    )


def is_example(source: Source) -> bool:
    """Tell whether the numbers of a workbook are no machine's own."""
    cell = source.book.cells.get(source.find(MARK))
    return cell is not None and cell.constant == 1


def renumbers(source: Source, entries: Entries) -> bool:
    """Tell whether other units of the book would give rows another meaning.

    An older edition says in its headings what its numbers are, and they are converted.
    """
    converted = any(name.endswith(TYPED_UNIT) for name in source.names if LOG in name)
    return not converted and any(row for rows in entries.values() for row in rows)


def tell_rest(source: Source, find_places: FindPlaces) -> None:
    """Tell of all that was typed and has no place in a fresh workbook."""
    drop_worked(source)
    source.drop_rest()
    source.drop_comments()
    if relate(source.book, source.spec) is Kinship.SAME:
        facts = source.book.properties
        source.drop_strays(find_places(facts["language"], facts["units"]))
    else:
        text = "another edition: what stands outside the cells to type in was not looked at"
        source.tell("unseen", "", "", text)


def tell_editions(source: Source) -> tuple[str, str]:
    """Return version and specs of the older workbook, and of this program."""
    facts = source.book.properties
    return f"{facts['version']} ({facts['specs']})", f"{__version__} ({source.spec.digest})"


def count(source: Source, texts: dict[str, str], entries: Entries, filled: int) -> dict[str, int]:
    """Return how much is carried, by group."""
    spec, dropped = source.spec, {note.name for note in source.notes if note.fate == "dropped"}
    found = [name for name in spec.quantities if source.find(f"{name}_typed")]
    carried = [spec.quantities[name] for name in found if name not in dropped]
    rows = [row for grid in entries.values() for row in grid]
    return {
        "input": sum(isinstance(quantity, Input) for quantity in carried),
        "choice": sum(isinstance(quantity, Choice) for quantity in carried),
        "text on the machine": sum(bool(text) for text in texts.values()),
        "cell in rows of grids": sum(len(row) for row in rows),
        "cell in checklists and fields": filled,
    }


def pick_reader(renewal: Renewal, units: str) -> Renewal:
    """Return the same for a reader of other units, whatever the older workbook showed."""
    given = {name: typed for name, typed in renewal.machine.given.items() if name != READER}
    return replace(renewal, machine=replace(renewal.machine, given=given), units=units)
