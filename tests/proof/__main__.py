"""Runs the proof, writes docs/proof.md, and fails where a figure fell or a fault was found."""

import signal
import sys
import traceback
from collections.abc import Callable
from concurrent.futures import ProcessPoolExecutor
from importlib import import_module
from pathlib import Path

from proof.figures import Section, find_falls, read_page, write_page

PAGE = Path(__file__).resolve().parents[2] / "docs" / "proof.md"
PARTS = (
    "differential",
    "coverage",
    "mutants",
    "files",
    "hostile",
    "interruptions",
    "lint",
    "properties",
)
HEADLINE = (
    "formula cells in all books",
    "engines",
    "input sets",
    "worst relative disagreement of two engines, below",
    "worst relative disagreement of engine and reference, below",
    "formula cells with an independent say, per cent",
    "mutants of the specs",
    "mutants killed, per cent of all",
    "files: mutants made",
    "files: mutants named",
    "hostile: cases",
    "hostile: cases handled as stated",
    "lint: rules",
    "properties: examples tried",
)
CORES = 2


def measure(part: str) -> Section:
    """Return what one part of the proof measures; a part that breaks off is a fault."""
    try:
        run: Callable[[], Section] = import_module(f"proof.{part}").measure
        return run()
    except Exception:  # whatever it is, the other parts still count
        return Section(part.capitalize(), [], faults=[f"{part}: {traceback.format_exc()}"])


def main() -> int:
    """Run all parts and return the exit code."""
    # What a shell starts in the background ignores interrupts, and so would all that is killed.
    signal.signal(signal.SIGINT, signal.default_int_handler)
    with ProcessPoolExecutor(CORES) as pool:
        sections = list(pool.map(measure, PARTS))
    page = write_page(sections, HEADLINE)
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
