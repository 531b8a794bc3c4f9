"""How much memory a command and the processes that it starts hold while it runs."""

import subprocess
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

PERIOD_S = 1.0
PAGE_KB = 4


@dataclass(frozen=True, slots=True)
class Run:
    """How a command ended, how long it took, and what it held at each moment."""

    code: int
    seconds: float
    held_mb: list[float]
    told: str

    def growth(self) -> float:
        """Return the peak of the last quarter over that of the second, start-up left out."""
        quarter = len(self.held_mb) // 4
        if quarter == 0:
            return 1.0
        return max(self.held_mb[-quarter:]) / max(self.held_mb[quarter : 2 * quarter])


def run_watched(command: list[str], log: Path) -> Run:
    """Run a command to its end and look at its memory each second; its words go to a file."""
    begun, held = time.monotonic(), []
    with log.open("w", encoding="utf-8") as words:
        process = subprocess.Popen(command, stdout=words, stderr=subprocess.STDOUT)
        while process.poll() is None:
            held.append(sum(map(measure, list_family(process.pid))) / 1024)
            time.sleep(PERIOD_S)
    text = log.read_text(encoding="utf-8")
    return Run(process.returncode, time.monotonic() - begun, held, text)


def list_family(pid: int) -> Iterator[int]:
    """Yield a process and all that descend from it."""
    yield pid
    try:
        children = Path(f"/proc/{pid}/task/{pid}/children").read_text(encoding="ascii").split()
    except OSError:
        return
    for child in children:
        yield from list_family(int(child))


def measure(pid: int) -> int:
    """Return the resident kilobytes of a process, 0 when it has just ended."""
    try:
        return int(Path(f"/proc/{pid}/statm").read_text(encoding="ascii").split()[1]) * PAGE_KB
    except (OSError, IndexError):
        return 0
