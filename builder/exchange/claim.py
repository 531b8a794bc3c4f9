"""Claims on files: one process holds each, and none outlives its process."""

import errno
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from filelock import FileLock, Timeout

LOCKLESS = (errno.ENOLCK, errno.ENOSYS, errno.EOPNOTSUPP)


class BusyError(Exception):
    """Another process holds the claim."""


@contextmanager
def claim(path: Path) -> Iterator[None]:
    """Hold a file that is there for this alone; what a killed process left holds nothing."""
    lock = FileLock(path, timeout=0)
    try:
        lock.acquire()
    except Timeout as error:
        raise BusyError(path) from error
    except OSError as error:
        # Where the file system knows no locks, better to work unguarded than not at all.
        if error.errno not in LOCKLESS:
            raise
    try:
        yield
    finally:
        with suppress(PermissionError):  # Windows removes no open file, but one that is released
            path.unlink(missing_ok=True)
        lock.release()
