"""Hostile workbooks, as `audit`, `build --from` and `collect` meet them."""

from collections.abc import Callable, Iterable, Iterator
from pathlib import Path

from proof import hostile_archives, hostile_cells, hostile_parts
from proof.hostile_case import SECRET, Case, Make

KIND = "workbooks"
BOOK, OUT, FRESH = "book.xlsx", "table.json", "fresh.xlsx"
AUDIT = ["audit", BOOK]
RENEW = ["build", "--from", BOOK, "--out", FRESH]
COLLECT = ["collect", BOOK, "--out", OUT, "--jobs", "1"]


def list_cases(sound: bytes, port: int) -> Iterator[Case]:
    for name, data, told in hostile_archives.list_files(sound):
        yield from list_refusals(name, data, told, (AUDIT, RENEW, COLLECT))
    for name, data, told in hostile_parts.list_refused(sound, port):
        yield from list_refusals(name, data, told, (AUDIT, RENEW))
    for trap in hostile_cells.list_traps(sound, port):
        make = write(trap.data)
        yield Case(f"{trap.name}, audit", KIND, make(AUDIT), trap.code, trap.told)
        if trap.renewed:
            writes = frozenset({FRESH} if trap.carried else ())
            code = 0 if trap.carried else 4
            yield Case(f"{trap.name}, build", KIND, make(RENEW), code, trap.renewed, writes)
    yield Case("the sound book itself", KIND, write(sound)(AUDIT), 0, "0 faults, 0 warnings")
    yield hostile_cells.mix_bad_and_good(sound)


def list_refusals(
    name: str, data: bytes, told: str, commands: Iterable[list[str]]
) -> Iterator[Case]:
    """Yield the cases of a file that every command refuses in the same words."""
    for words in commands:
        make, case = write(data)(words), f"{name}, {words[0]}"
        if words is COLLECT:
            yield Case(case, KIND, make, 1, told, frozenset({OUT}))
        else:
            yield Case(case, KIND, make, 4, rf"^book\.xlsx: .*{told}")


def write(data: bytes) -> Callable[[list[str]], Make]:
    def choose(words: list[str]) -> Make:
        def make(folder: Path) -> list[str]:
            (folder / BOOK).write_bytes(data)
            (folder.parents[1] / "secret.txt").write_text(SECRET, encoding="utf-8")
            return words

        return make

    return choose
