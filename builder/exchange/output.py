"""Writes a file whole or not at all."""

import os
from pathlib import Path

from builder.problems import EXIT_FILE, UserError


def refuse_existing(path: Path) -> None:
    """Raise UserError where something stands already."""
    if os.path.lexists(path):
        message = f"{path} exists already. Choose another name with --out, or add --force."
        raise UserError(message, EXIT_FILE)


def write_file(path: Path, content: bytes) -> None:
    """Write beside the target first, so that a reader never meets half a file."""
    beside = path.with_name(f".{path.name}.{os.getpid()}.tmp")
    try:
        try:
            with beside.open("xb") as file:
                file.write(content)
            beside.replace(path)
        finally:
            beside.unlink(missing_ok=True)
    except OSError as error:
        reason = error.strerror or str(error)
        message = f"{path} cannot be written: {reason}. Check the folder and its permissions."
        raise UserError(message, EXIT_FILE) from error
