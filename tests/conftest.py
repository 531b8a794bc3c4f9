"""Says at the end of a run, for all to see, which programs of the system were missing."""

from typing import Any

from workbook.tools import TOOLS, list_missing


def pytest_terminal_summary(terminalreporter: Any) -> None:
    """Print a sentence for each missing program; the tests that need it have failed by then."""
    missing = list(list_missing(*TOOLS))
    if missing:
        terminalreporter.section(
            "PROGRAMS ARE MISSING, AND WHAT NEEDS THEM FAILS", sep="!", red=True
        )
        for sentence in missing:
            terminalreporter.write_line(sentence, red=True, bold=True)
