"""What is wrong, where, and what to do: the one shape in which users meet errors."""

from collections.abc import Iterable
from dataclasses import dataclass
from difflib import SequenceMatcher

EXIT_FINE = 0
EXIT_FAULT = 1
EXIT_USAGE = 2
EXIT_INVALID = 3
EXIT_FILE = 4
EXIT_PARTIAL = 5
EXIT_INTERRUPTED = 130
NEAR = 0.75  # of the letters in common: one wrong letter of four, two of eight


@dataclass(frozen=True, slots=True, order=True)
class Problem:
    """One finding about one place in a file."""

    file: str
    line: int
    code: str
    name: str
    text: str
    remedy: str

    def __str__(self) -> str:
        """Return `file:line CODE name: what is wrong`, the remedy indented below."""
        return f"{self.file}:{self.line} {self.code} {self.name}: {self.text}\n    {self.remedy}"


class UserError(Exception):
    """Ends a command with a message for its user and an exit code."""

    def __init__(self, message: str, exit_code: int) -> None:
        """Keep the message and the exit code of the command."""
        super().__init__(message)
        self.exit_code = exit_code


class ProblemsError(UserError):
    """Carries every problem found in one go, so that nobody mends them one by one."""

    def __init__(self, problems: Iterable[Problem], exit_code: int = EXIT_INVALID) -> None:
        """Sort the problems by file and line."""
        self.problems = sorted(problems)
        super().__init__("\n".join(str(problem) for problem in self.problems), exit_code)


def suggest(word: str, known: Iterable[str]) -> str:
    """Return ` Did you mean X?` for the one nearest known word, or nothing where none is near.

    Two words that are equally near are no help: which of them was meant is anybody's guess.
    """
    rated = sorted((-rate_nearness(word, name), name) for name in {*known})[:2]
    if not rated or rated[0][0] > -NEAR or [r for r, _ in rated].count(rated[0][0]) > 1:
        return ""
    return f" Did you mean {rated[0][1]}?"


def rate_nearness(word: str, name: str) -> float:
    """Return the share of letters that two words have in common; a word cut short is nearer still.

    A word of which more than a quarter is missing or too much is another word, and rates 0.
    """
    one, other = word.casefold(), name.casefold()
    if one.startswith(other) and len(other) >= max(2, len(one) / 2):
        return 1 - (len(one) - len(other)) / (4 * len(one))
    if abs(len(one) - len(other)) > max(1, len(one) // 4):
        return 0.0
    swapped = NEAR if sorted(one) == sorted(other) else 0.0
    return max(swapped, SequenceMatcher(None, one, other).ratio())
