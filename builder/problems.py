"""What is wrong, where, and what to do: the one shape in which users meet errors."""

from collections.abc import Iterable
from dataclasses import dataclass
from difflib import get_close_matches

EXIT_FINE = 0
EXIT_FAULT = 1
EXIT_USAGE = 2
EXIT_INVALID = 3
EXIT_FILE = 4
EXIT_PARTIAL = 5
EXIT_INTERRUPTED = 130


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
    """Return ` Did you mean X?` for the nearest known word, or nothing."""
    near = get_close_matches(word, list(known), n=1)
    return f" Did you mean {near[0]}?" if near else ""
