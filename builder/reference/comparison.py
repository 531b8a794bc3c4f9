"""Numbers as spreadsheets compare them, and the words of a verdict."""

from typing import Literal

Verdict = Literal["ok", "look", "stop"]

TINY = 1e-9  # a comparison with a limit in the log allows this much (definition of this project)
DIGITS = 15  # significant digits that spreadsheets compare (measured in one engine)


def round_compared(value: float) -> float:
    """Return a number at the 15 digits that a spreadsheet compares, so that 0.1 + 0.2 is 0.3."""
    return float(f"{value:.{DIGITS}g}")
