"""Kills a command before each of its operations on files, and in the middle of each write.

The command runs in a forked process. What Python tells its auditors (a file opened for writing, a
file or folder made, renamed, removed, locked) is counted before it happens; so is each write, in
the middle too. All writing of the package goes through these: its database has no file.
"""

import builtins
import io
import os
import signal
import sys
import traceback
from collections.abc import Callable

CHANGES = ("os.rename", "os.remove", "os.mkdir", "os.rmdir", "os.truncate", "fcntl.flock")
WRITING = os.O_WRONLY | os.O_RDWR | os.O_CREAT
UNUSUAL = 70  # exit code of a command that raised what it should have told


class Countdown:
    """Counts operations, and kills this process at the last."""

    def __init__(self, left: int) -> None:
        self.left = left

    def step(self) -> None:
        self.left -= 1
        if self.left == 0:
            os.kill(os.getpid(), signal.SIGKILL)

    def hear(self, event: str, arguments: tuple[object, ...]) -> None:
        """Count what Python is about to do to files."""
        if event == "open":
            flags = arguments[2]
            if isinstance(flags, int) and flags & WRITING:
                self.step()
        elif event in CHANGES:
            self.step()

    def watch(self) -> None:
        """Count from now on; there is no way back in this process."""
        sys.addaudithook(self.hear)
        builtins.open = io.open = self.make_opening()  # type: ignore[assignment]

    def make_opening(self) -> Callable[..., object]:
        """Return a function that opens files as usual, but counts what is written to them."""
        usual, countdown = io.open, self

        class Watched(io.FileIO):
            def write(self, data: object) -> int:
                countdown.step()
                if countdown.left == 1:
                    half = bytes(data)[: memoryview(data).nbytes // 2]  # type: ignore[call-overload,arg-type]
                    super().write(half)
                countdown.step()
                return super().write(data)  # type: ignore[arg-type]

        def opening(
            file: object,
            mode: str = "r",
            buffering: int = -1,
            encoding: str | None = None,
            errors: str | None = None,
            newline: str | None = None,
            **more: object,
        ) -> object:
            if not set(mode) & set("wax+"):
                return usual(file, mode, buffering, encoding, errors, newline, **more)  # type: ignore[call-overload]
            raw = Watched(file, mode.replace("b", "").replace("t", ""), **more)  # type: ignore[arg-type]
            buffer = (io.BufferedRandom if "+" in mode else io.BufferedWriter)(raw)
            return buffer if "b" in mode else io.TextIOWrapper(buffer, encoding, errors, newline)

        return opening


def run_forked(work: Callable[[], int], moment: int) -> int | None:
    """Return the exit code of a command in a process of its own, None where it was killed."""
    process = os.fork()
    if not process:
        os._exit(run_watched(work, moment))
    _, status = os.waitpid(process, 0)
    return os.WEXITSTATUS(status) if os.WIFEXITED(status) else None


def run_watched(work: Callable[[], int], moment: int) -> int:
    """Return the exit code of a command, unless this process is killed at the moment."""
    Countdown(moment).watch()
    try:
        return work()
    except BaseException:
        traceback.print_exc()
        return UNUSUAL
