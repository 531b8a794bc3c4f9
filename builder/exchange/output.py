"""Writes files whole or not at all: aside first, then in place of what stood there."""

import os
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from builder.exchange.claim import BusyError, claim
from builder.problems import EXIT_FILE, UserError

HIDDEN, ENDING = ".", ".rinsebook"
LOCK = "lock"
UNFINISHED = "{}.unfinished"
TORN = "A run was ended while it replaced these files, so they may be of two runs: run it again.\n"


def refuse_existing(path: Path) -> None:
    """Raise UserError where something stands already."""
    if os.path.lexists(path):
        message = f"{path} exists already. Choose another name with --out, or add --force."
        raise UserError(message, EXIT_FILE)


def demand_folder(path: Path) -> None:
    """Raise UserError where there is no folder to write into."""
    if not path.is_dir():
        what = "is not a folder" if path.exists() else "does not exist"
        raise UserError(f"{path} {what}. Make it, or choose another --out.", EXIT_FILE)


def write_file(path: Path, content: bytes) -> None:
    """Write one file whole or not at all."""
    with replace_whole([path]) as (aside,):
        aside.write_bytes(content)


@contextmanager
def replace_whole(targets: list[Path]) -> Iterator[list[Path]]:
    """Yield names in a folder beside the targets; what is written there takes their places.

    A process that is killed leaves whole files, and the folder to the next that writes them.
    """
    try:
        with open_aside(targets[0]) as folder:
            files = [folder / path.name for path in targets]
            yield files
            exchange(files, targets)
    except BusyError as error:
        message = f"{targets[0]} is being written by another run. Wait until that has ended."
        raise UserError(message, EXIT_FILE) from error
    except OSError as error:
        place = error.filename2 or targets[0]
        reason = error.strerror or str(error)
        message = f"{place} cannot be written: {reason}. Check the folder and its permissions."
        raise UserError(message, EXIT_FILE) from error


@contextmanager
def open_aside(target: Path) -> Iterator[Path]:
    """Yield the empty folder where a target is written, and remove it; a killed run's is taken."""
    folder = target.with_name(f"{HIDDEN}{target.name}{ENDING}")
    try:
        folder.mkdir()
    except FileExistsError:
        refuse_foreign(folder)
    try:
        with claim(folder / LOCK):
            clear(folder)
            try:
                yield folder
            finally:
                clear(folder)
    finally:
        with suppress(OSError):  # another run may be in it by now
            folder.rmdir()


def refuse_foreign(folder: Path) -> None:
    """Raise UserError where a folder is a link, or holds things and no lock: no run leaves that."""
    if folder.is_dir() and folder.resolve() == folder.parent.resolve() / folder.name:
        names = [path.name for path in folder.iterdir()]
        if LOCK in names or not names:
            return
    message = f"{folder} is in the way, and no run of this program has made it. Look at it, move it"
    raise UserError(f"{message} elsewhere, and run the command again.", EXIT_FILE)


def sweep(folder: Path) -> None:
    """Remove what runs that were killed have left aside in a folder, but nothing of one at work."""
    for path in folder.glob(f"{HIDDEN}*{ENDING}"):
        target = path.with_name(path.name.removeprefix(HIDDEN).removesuffix(ENDING))
        with suppress(BusyError, OSError, UserError), open_aside(target):
            pass


def clear(folder: Path) -> None:
    """Remove the files but the lock from a folder; a run makes no folders in it, and no links."""
    for path in folder.iterdir():
        if path.name != LOCK:
            with suppress(OSError):  # a folder stays, and on Windows an open file
                path.unlink()


def exchange(files: list[Path], targets: list[Path]) -> None:
    """Put files in the places of targets; several of them under a mark, the first one last."""
    mark = targets[0].with_name(UNFINISHED.format(targets[0].name))
    if len(targets) > 1:
        note = files[0].with_name(mark.name)
        note.write_text(TORN, encoding="utf-8")
        note.replace(mark)
    for file in files:
        settle(file)
    for file, target in reversed(list(zip(files, targets, strict=True))):
        file.replace(target)
    if len(targets) > 1:
        mark.unlink()


def settle(file: Path) -> None:
    """Let a file reach the disk: a name that outlives a power cut must not stand for nothing."""
    with file.open("rb+") as written:
        os.fsync(written.fileno())
