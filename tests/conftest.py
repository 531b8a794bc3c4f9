"""Says at the end of a run, for all to see, which programs of the system were missing."""

import signal
from typing import Any

import pytest
from workbook.tools import TOOLS, list_missing

from builder.spec.load import find_specs, load_spec
from builder.spec.specification import Spec

# What a shell starts in the background ignores interrupts, and so would all that the tests start.
signal.signal(signal.SIGINT, signal.default_int_handler)


def pytest_terminal_summary(terminalreporter: Any) -> None:
    """Print a sentence for each missing program; the tests that need it have failed by then."""
    missing = list(list_missing(*TOOLS))
    if missing:
        terminalreporter.section(
            "PROGRAMS ARE MISSING, AND WHAT NEEDS THEM FAILS", sep="!", red=True
        )
        for sentence in missing:
            terminalreporter.write_line(sentence, red=True, bold=True)


def pytest_addoption(parser: Any) -> None:
    """Add the switch that writes the golden texts anew."""
    parser.addoption("--update-golden", action="store_true", help="write the golden texts anew")


@pytest.fixture(scope="session")
def spec() -> Spec:
    """Return the specs."""
    return load_spec(find_specs())
