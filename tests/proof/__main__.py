"""Runs the proof, writes docs/proof.md, and fails where a rate is too low or a fault was found."""

import signal
import subprocess
import sys
import time
import traceback
from collections.abc import Callable
from concurrent.futures import ProcessPoolExecutor
from importlib import import_module
from importlib.metadata import version
from pathlib import Path

from proof.figures import Section, write_page

PAGE = Path(__file__).resolve().parents[2] / "docs" / "proof.md"
# The longest first: two work at a time.
PARTS = (
    "mutants",
    "agreement",
    "files",
    "hostile",
    "interruptions",
    "lint",
    "stories",
    "properties",
)
PACKAGES = ("ironcalc", "formulas", "xlsxwriter", "openpyxl")
CORES = 2


def measure(part: str) -> tuple[Section, float]:
    """Return what one part measures and its seconds; a part that breaks off is a fault."""
    start = time.monotonic()
    try:
        run: Callable[[], Section] = import_module(f"proof.{part}").measure
        section = run()
    except Exception:  # whatever it is, the other parts still count
        section = Section(part.capitalize(), "", "", [], faults=[traceback.format_exc()])
    return section, time.monotonic() - start


def find_versions() -> dict[str, str]:
    """Return the engines and writers with their versions, the office program's build left out."""
    shown = subprocess.run(["soffice", "--version"], capture_output=True, text=True, check=False)
    office = shown.stdout.split()[1:2] or ["missing"]
    return {**{name: version(name) for name in PACKAGES}, "LibreOffice": office[0]}


def main() -> int:
    """Run all parts and return the exit code."""
    # What a shell starts in the background ignores interrupts, and so would all that is killed.
    signal.signal(signal.SIGINT, signal.default_int_handler)
    with ProcessPoolExecutor(CORES) as pool:
        measured = list(pool.map(measure, PARTS))
    for part, (_, seconds) in zip(PARTS, measured, strict=True):
        print(f"{part}: {seconds:.0f} s")
    sections = [section for section, _ in measured]
    faults = [fault for section in sections for fault in section.list_faults()]
    page = write_page(sections, find_versions())
    print(page)
    print("\n".join(f"fault: {fault}" for fault in faults))
    if not faults:
        PAGE.write_text(page, encoding="utf-8")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
