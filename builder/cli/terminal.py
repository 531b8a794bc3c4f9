"""A word for somebody who waits at a terminal."""

import sys
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def tell_work(words: str) -> Iterator[None]:
    """Show on a terminal what is being done, and remove it in the end; a file is told nothing."""
    shown = f"{words} …" if sys.stderr.isatty() else ""
    print(shown, end="", file=sys.stderr, flush=True)
    try:
        yield
    finally:
        print("\r" + " " * len(shown) + "\r" if shown else "", end="", file=sys.stderr, flush=True)
