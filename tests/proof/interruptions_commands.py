"""The commands that write, with stand-ins for what takes long and writes nothing."""

import io
from collections.abc import Iterator
from contextlib import redirect_stderr, redirect_stdout
from dataclasses import replace
from hashlib import sha256
from importlib import import_module
from pathlib import Path

from exchange.collected import FAULT, Sample, Shelf, run

from builder import cli
from builder.exchange.machine import Machine
from builder.spec.specification import Spec
from proof.interruptions_scenes import Scene, read_folder

PAGES = 3000  # a stand-in for a workbook is written in more than one piece
ROSTERS = (
    "site,mail,vessels_n\nA,a@example.org,1\nB,,2\nC,,0\n",
    "site,mail,vessels_n\nA,a@example.org,4\nB,,0\nD,,3\n",
)
FORMATS = ("xlsx", "csv", "json")


def print_book(machine: Machine, lang: str, units: str) -> bytes:
    """Return a few thousand bytes that depend on what a book depends on."""
    numbers = [typed.number for typed in machine.given.values()]
    words = f"{lang} {units} {machine.site} {numbers}".encode()
    return words + b"".join(sha256(words + bytes([n % 256])).digest() for n in range(PAGES))


class Press:
    """Stands in for the edition of a workbook."""

    def __init__(self, _spec: Spec, lang: str, units: str) -> None:
        self.lang, self.units = lang, units

    def build(self, machine: Machine) -> bytes:
        return print_book(machine, self.lang, self.units)


def stand_in(spec: Spec, shelf: Shelf) -> None:
    """Put stand-ins into the commands, in a process that does nothing else afterwards."""
    for module, name, instead in (
        *((f"cli.{name}", "load_spec", lambda _: spec) for name in ("build", "roster", "collect")),
        ("production", "build_workbook", lambda _, *given: print_book(*given)),
        ("production", "Edition", Press),
        ("cli.collect", "audit_book", shelf.audit),
    ):
        setattr(import_module(f"builder.{module}"), name, instead)


def act(arguments: list[str]) -> int:
    """Run one command line, quietly, and return its exit code."""
    with redirect_stdout(io.StringIO()), redirect_stderr(io.StringIO()):
        return cli.run(arguments)


def fill(shelf: Shelf) -> None:
    rows = [run(day, hours_h=4.0, note="é") for day in range(3)]
    for number in range(2):
        shelf.put(f"{number}.xlsx", Sample(title=f"RO {number}", rows=rows, faults=[FAULT]))


def list_scenes(place: Path, shelf: Shelf) -> Iterator[Scene]:
    """Yield each command over nothing, and over what an older run has left."""
    for kind, older, newer, mark in list_pairs(place, shelf):
        folder = place / kind
        blank = Scene(f"{kind}, nothing there", newer, folder, {}, {}, 0, mark)
        blank.reset()
        code = act(newer)
        yield replace(blank, new=read_folder(folder), code=code)
        blank.reset()
        act(older)
        old = read_folder(folder)
        code = act(newer)
        name = f"{kind}, over older files"
        yield replace(blank, name=name, old=old, new=read_folder(folder), code=code)


def list_pairs(place: Path, shelf: Shelf) -> Iterator[tuple[str, list[str], list[str], str]]:
    """Yield name, arguments of an older and a newer run, and the mark of files of two runs."""
    out = str(place / "build" / "book.xlsx")
    yield "build", *([["build", "--out", out, "--force", "--lang", x] for x in ("en", "fr")]), ""
    tables = [place / f"{number}.csv" for number in range(len(ROSTERS))]
    for path, text in zip(tables, ROSTERS, strict=True):
        path.write_text(text, encoding="utf-8")
    more = ["--out", str(place / "roster"), "--mail", "--jobs", "1"]
    yield "roster", *([["roster", str(path), *more] for path in tables]), ".manifest.part"
    few, all_ = [str(shelf.folder / "0.xlsx")], [str(shelf.folder)]
    for kind in FORMATS:
        name = f"collect {kind}"
        more = ["--out", str(place / name / f"fleet.{kind}"), "--force", "--jobs", "1"]
        yield name, *([["collect", *x, *more] for x in (few, all_)]), f"fleet.{kind}.unfinished"
