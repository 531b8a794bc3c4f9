"""Finds the workbooks to collect."""

import os
from collections.abc import Iterator
from pathlib import Path
from typing import NoReturn

from builder.problems import EXIT_FILE, UserError

HIDDEN = (".", "~$")
SUFFIX = ".xlsx"


def find_workbooks(sources: list[Path], out: Path) -> list[Path]:
    """Return every workbook of files and folders once, in order; never the file to be written."""
    found: dict[Path, Path] = {}
    for source in sources:
        for path in walk(source) if source.is_dir() else [source]:
            if not path.exists():
                raise UserError(f"{path} does not exist. Give folders or .xlsx files.", EXIT_FILE)
            if path == source and not path.is_file():
                raise UserError(f"{path} is no file. Give folders or .xlsx files.", EXIT_FILE)
            found.setdefault(path.resolve(), path)
    found.pop(out.resolve(), None)
    if not found:
        places = ", ".join(str(source) for source in sources)
        raise UserError(f"{places}: no {SUFFIX} workbook found. Nothing was written.", EXIT_FILE)
    return sorted(found.values())


def walk(folder: Path) -> Iterator[Path]:
    """Yield the workbooks of a folder and of those inside, but no hidden and no lock files."""

    def refuse(error: OSError) -> NoReturn:
        reason = error.strerror or str(error)
        raise UserError(f"{error.filename} cannot be read: {reason}.", EXIT_FILE) from error

    for place, folders, files in os.walk(folder, onerror=refuse):
        folders[:] = sorted(name for name in folders if not name.startswith(HIDDEN))
        for name in files:
            if name.lower().endswith(SUFFIX) and not name.startswith(HIDDEN):
                yield Path(place) / name
