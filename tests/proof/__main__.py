"""Runs the proof, writes docs/proof.md, and fails where a figure fell or a fault was found."""

import sys
from collections.abc import Callable
from concurrent.futures import ProcessPoolExecutor
from importlib import import_module
from pathlib import Path

from proof.figures import Section, find_falls, read_page, write_page

PAGE = Path(__file__).resolve().parents[2] / "docs" / "proof.md"
PARTS = ("differential", "coverage", "mutants", "lint", "properties")
CORES = 2


def measure(part: str) -> Section:
    """Return what one part of the proof measures."""
    run: Callable[[], Section] = import_module(f"proof.{part}").measure
    return run()


def main() -> int:
    """Run all parts and return the exit code."""
    with ProcessPoolExecutor(CORES) as pool:
        sections = list(pool.map(measure, PARTS))
    page = write_page(sections)
    kept = read_page(PAGE.read_text(encoding="utf-8")) if PAGE.exists() else {}
    faults = [fault for section in sections for fault in section.faults]
    faults += find_falls(sections, kept)
    print(page)
    print("\n".join(f"fault: {fault}" for fault in faults))
    if not faults:
        PAGE.write_text(page, encoding="utf-8")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
