"""One hostile case: how its files are made, what the command must say, and how that is judged."""

import os
import re
import stat
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path

from proof.hostile_host import Answer

MOST_CPU_S, MOST_MEMORY_MB = 20, 600
ERRORS = (2, 3, 4)
LARGE = 5_000_000
SECRET = "canary-5d21f0"  # noqa: S105 stands in a file that an entity asks for
Make = Callable[[Path], list[str]]
Look = dict[str, tuple[int, int, str]]


@dataclass(frozen=True, slots=True)
class Case:
    """A command on hostile files: `make` puts them into a folder and returns the command's words.

    `told` must be found in what the command says or writes; `writes` is all that it may write.
    """

    name: str
    kind: str
    make: Make
    code: int
    told: str
    writes: frozenset[str] = frozenset()


def look(home: Path) -> Look:
    """Return everything that stands in a folder, without following links."""
    seen: Look = {}
    for place, folders, files in os.walk(home):
        for name in [*folders, *files]:
            path = Path(place) / name
            about = path.lstat()
            plain = stat.S_ISREG(about.st_mode) and about.st_size < LARGE
            digest = sha256(path.read_bytes()).hexdigest() if plain else str(about.st_mtime_ns)
            folder = stat.S_ISDIR(about.st_mode)
            seen[str(path.relative_to(home))] = (
                about.st_mode,
                0 if folder else about.st_size,
                "" if folder else digest,
            )
    return seen


def judge(case: Case, answer: Answer, changed: set[str], written: str) -> Iterator[str]:
    """Yield what a command did otherwise than its case states."""
    said = answer.out + answer.err
    if answer.code != case.code:
        yield f"ended with {answer.code}, expected {case.code}: {said.strip()[-300:]!r}"
    if "Traceback" in said or "defect of the program" in said or "audit failed" in written:
        yield f"told of a defect: {(said + written).strip()[-300:]!r}"
    heard = answer.err if case.code in ERRORS else said + written
    if not re.search(case.told, heard, re.MULTILINE):
        yield f"did not say {case.told!r}: {said.strip()[-300:]!r}"
    if case.code in ERRORS and answer.out:
        yield f"printed a result in spite of the error: {answer.out[:100]!r}"
    if SECRET in said + written:
        yield "read a file that it was not given"
    for path in sorted(changed - case.writes):
        yield f"wrote or changed {path}"
    for path in sorted(case.writes - changed):
        yield f"did not write {path}"
    yield from (f"did {event}" for event in answer.events)
    if answer.cpu_s > MOST_CPU_S:
        yield f"took more than {MOST_CPU_S} s ({answer.cpu_s:.0f})"
    if answer.memory_mb > MOST_MEMORY_MB:
        yield f"took more than {MOST_MEMORY_MB} MB ({answer.memory_mb:.0f})"
