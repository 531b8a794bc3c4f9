"""Claims on files: one process holds each, and none outlives its process."""

import errno
import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import BinaryIO

if sys.platform == "win32":
    import msvcrt

    def lock(file: BinaryIO, _: Path) -> None:
        """Lock an open file, or raise OSError; nobody can remove it meanwhile."""
        msvcrt.locking(file.fileno(), msvcrt.LK_NBLCK, 1)
else:
    import fcntl

    def lock(file: BinaryIO, path: Path) -> None:
        """Lock an open file, or raise OSError, also where it was removed since it was opened."""
        fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
        if not path.exists() or not os.path.samestat(os.fstat(file.fileno()), path.stat()):
            raise BlockingIOError(errno.EAGAIN, os.strerror(errno.EAGAIN))


HELD = (errno.EACCES, errno.EAGAIN, errno.EDEADLK)


class BusyError(Exception):
    """Another process holds the claim."""


@contextmanager
def claim(path: Path) -> Iterator[None]:
    """Hold a file that is there for this alone; what a killed process left holds nothing."""
    try:
        with path.open("ab") as file:
            take(file, path)
            try:
                yield
            finally:
                with suppress(PermissionError):  # Windows removes no open file
                    path.unlink(missing_ok=True)
    finally:
        if sys.platform == "win32":
            with suppress(OSError):  # it may be in other hands by now
                path.unlink(missing_ok=True)


def take(file: BinaryIO, path: Path) -> None:
    """Lock an open file, or raise BusyError."""
    try:
        lock(file, path)
    except OSError as error:
        if error.errno in HELD:
            raise BusyError(path) from error
        # The file system knows no locks: better to work unguarded than not at all.
