"""What stands where a file should: folders, pipes, devices, links, and nothing."""

import os
from collections.abc import Callable, Iterator
from pathlib import Path

from proof.hostile_case import Case, Make

KIND = "places"
TOML, CSV, BOOK = "machine.toml", "roster.csv", "book.xlsx"
COMMANDS: dict[str, list[str]] = {
    "calc": ["calc", TOML],
    "explain": ["explain", "holdup_adopted_L", TOML],
    "build": ["build", TOML],
    "roster of text": ["roster", CSV, "--out", "books", "--jobs", "1"],
    "roster of a workbook": ["roster", BOOK, "--out", "books", "--jobs", "1"],
    "audit": ["audit", BOOK],
    "renewal": ["build", "--from", BOOK, "--out", "fresh.xlsx"],
    "collect": ["collect", BOOK, "--out", "table.json", "--jobs", "1"],
}
FILES = (TOML, CSV, BOOK)
NONE = (
    r"(is no file|does not exist|cannot be read: \S|no \.xlsx workbook found|is a pipe or a device)"
)


def list_cases(sound: bytes) -> Iterator[Case]:
    makers: dict[str, Callable[[Path], None]] = {
        "a folder": Path.mkdir,
        "a pipe": os.mkfifo,
        "zeros without end": lambda path: path.symlink_to("/dev/zero"),
        "a link to itself": lambda path: path.symlink_to(path.name),
        "a link to nothing": lambda path: path.symlink_to("gone"),
        "a terabyte of nothing": make_hole,
        "memory": lambda path: path.symlink_to("/proc/self/mem"),
    }
    for what, make in makers.items():
        for command, words in COMMANDS.items():
            yield judge_place(f"{what}, {command}", words, make)
    for command, words in COMMANDS.items():
        yield Case(f"nothing, {command}", KIND, lambda _, w=words: w, 4, NONE)
        long = ["x" * 3_000 + w if w in FILES else w for w in words]
        yield Case(f"a name too long, {command}", KIND, lambda _, w=long: w, 4, "too long|name")
    table = frozenset({"t.json"})
    yield Case("lock files alone", KIND, gather(sound, leave_locks), 4, "no .xlsx workbook found")
    yield Case("a lock beside", KIND, gather(sound, leave_locks, put_book), 0, "books: 1\n", table)
    yield Case(
        "a folder that links to itself", KIND, gather(sound, put_book, loop), 0, "books: 1\n", table
    )
    make = gather(sound, put_book, out="gone/t.json")
    yield Case("no folder for the table", KIND, make, 4, "gone does not exist")
    make = gather(sound, put_book, out="back")
    yield Case("the table is a folder", KIND, make, 2, "must end in")
    yield Case("roster into a file", KIND, roster_into_file, 4, "is not a folder")
    yield Case(
        "workbook into a place for nobody", KIND, lambda _: INTO_PROC, 4, "cannot be written"
    )


TABLE = frozenset({"table.json"})
# A place that is a file by its looks: `collect` has a line for it, a roster is judged as a table.
ODD: dict[str, tuple[int, str, frozenset[str]]] = {
    "memory, collect": (1, "cannot be read: ", TABLE),
    "a terabyte of nothing, calc": (3, "too-large", frozenset()),
    "a terabyte of nothing, explain": (3, "too-large", frozenset()),
    "a terabyte of nothing, build": (3, "too-large", frozenset()),
    "a terabyte of nothing, roster of text": (3, "too-large", frozenset()),
    "a terabyte of nothing, roster of a workbook": (3, "is larger than 50 MB", frozenset()),
    "a terabyte of nothing, audit": (4, "is larger than 50 MB", frozenset()),
    "a terabyte of nothing, renewal": (4, "is larger than 50 MB", frozenset()),
    "a terabyte of nothing, collect": (1, "is larger than 50 MB", TABLE),
}
INTO_PROC = ["build", "--out", "/proc/book.xlsx"]


def make_hole(path: Path) -> None:
    with path.open("wb") as file:
        file.truncate(1 << 40)


def judge_place(name: str, words: list[str], put: Callable[[Path], None]) -> Case:
    """Return the case of a command that finds something else than a file."""

    def make(folder: Path) -> list[str]:
        for file in FILES:
            if file in words:
                put(folder / file)
        return words

    if name in ODD:
        return Case(name, KIND, make, *ODD[name])
    return Case(name, KIND, make, 4, NONE)


def gather(sound: bytes, *puts: Callable[[Path, bytes], None], out: str = "t.json") -> Make:
    def make(folder: Path) -> list[str]:
        (folder / "back").mkdir()
        for put in puts:
            put(folder / "back", sound)
        return ["collect", "back", "--out", out, "--jobs", "1"]

    return make


def leave_locks(folder: Path, sound: bytes) -> None:
    """Put files there that programs leave beside open books."""
    for name in ("~$book.xlsx", ".~lock.book.xlsx#", ".book.xlsx", "book.xlsx.tmp"):
        (folder / name).write_bytes(sound)


def put_book(folder: Path, sound: bytes) -> None:
    (folder / "book.xlsx").write_bytes(sound)


def loop(folder: Path, _sound: bytes) -> None:
    (folder / "back").symlink_to(folder, target_is_directory=True)


def roster_into_file(folder: Path) -> list[str]:
    (folder / CSV).write_text("producer\nOne\n", encoding="utf-8")
    (folder / "books").write_bytes(b"older")
    return ["roster", CSV, "--out", "books", "--jobs", "1"]
