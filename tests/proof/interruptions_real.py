"""Ends the real commands by signals, at moments of their time and while they write."""

import os
import random
import signal
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path

from proof.interruptions_scenes import Scene, read_folder

SEED = 20260314
ROOT = Path(__file__).resolve().parents[2]
INTERRUPTED = 130
PATIENCE_S = 120
SOON_GONE_S = 10.0
SOON_S = 0.05  # a file that has been begun is still being written so much later, it may be
EARLIEST, LATEST = 0.2, 0.98  # parts of a run's time; before that the interpreter itself starts
ROSTER = "site,language,mail,vessels_n\nA,en,a@example.org,1\nB,fr,,2\nC,en,,3\n"
OLD = b"an older file"
TEMPORARY = "temporary"
KILL, TERM, INT = signal.SIGKILL, signal.SIGTERM, signal.SIGINT


@dataclass(frozen=True, slots=True)
class Blow:
    """A signal at a part of a run's time, or so soon after it has begun to write."""

    signal: signal.Signals
    part: float
    while_writing: bool

    @property
    def title(self) -> str:
        when = "of the writing" if self.while_writing else "of the run"
        return f"by {self.signal.name} at {self.part:.2f} {when}"


@dataclass(frozen=True, slots=True)
class Ended:
    """How a process ended, what it told on stderr, how long it took, and whether any go on."""

    code: int
    told: str
    seconds: float
    lingers: bool = False


def draw_blows(name: str, signals: list[signal.Signals]) -> Iterator[Blow]:
    """Yield signals at moments that are the same on every run of the proof."""
    chance = random.Random(f"{SEED} {name}")  # noqa: S311 - no secret
    for number, one in enumerate(signals):
        while_writing = number % 2 == 1
        part = chance.random() if while_writing else chance.uniform(EARLIEST, LATEST)
        yield Blow(one, part, while_writing)


def start(arguments: list[str], place: Path) -> "subprocess.Popen[str]":
    paths = {**os.environ, "PYTHONPATH": str(ROOT), "TMPDIR": str(place / TEMPORARY)}
    return subprocess.Popen(
        [sys.executable, "-m", "builder", *arguments],
        cwd=place,
        env=paths,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.PIPE,
        text=True,
        start_new_session=True,
    )


def finish(process: "subprocess.Popen[str]", since: float) -> Ended:
    _, told = process.communicate(timeout=PATIENCE_S)
    seconds = time.monotonic() - since
    return Ended(process.returncode, told, seconds, lingers=lingers(process.pid))


def lingers(group: int) -> bool:
    """Tell whether a process of a group is still there after a while."""
    end = time.monotonic() + SOON_GONE_S
    while time.monotonic() < end:
        try:
            os.killpg(group, 0)
        except ProcessLookupError:
            return False
        time.sleep(0.01)
    return True


def run_alone(scene: Scene, place: Path) -> Ended:
    since = time.monotonic()
    return finish(start(scene.arguments, place), since)


def strike(scene: Scene, place: Path, blow: Blow, seconds: float) -> Ended:
    """Start a command whose run takes so long, and end the whole of it at the moment."""
    since = time.monotonic()
    process = start(scene.arguments, place)
    if blow.while_writing:
        while process.poll() is None and not list(scene.folder.glob(".*.rinsebook")):
            time.sleep(0.001)
        time.sleep(blow.part * SOON_S)
    else:
        time.sleep(blow.part * seconds)
    if process.poll() is None:
        os.killpg(process.pid, blow.signal)
    return finish(process, since)


def judge_ended(ended: Ended, blow: Blow, scene: Scene) -> Iterator[str]:
    """Yield what is wrong with how a command ended; it may have come to its end before."""
    usual = [scene.code, -blow.signal]  # a shell tells 130 where SIGINT ends the interpreter
    if ended.code not in (*usual, INTERRUPTED if blow.signal is INT else scene.code):
        yield f"exit code {ended.code}"
    if ended.lingers:
        yield "a process goes on"
    if "Traceback" in ended.told:
        yield f"a traceback: {ended.told.splitlines()[-1]}"


def judge_temporary(place: Path) -> Iterator[str]:
    """Yield what a killed run has left where nobody looks for it."""
    yield from (
        f"{path.name} is left among temporary files" for path in (place / TEMPORARY).glob("*")
    )


def list_scenes(place: Path) -> Iterator[tuple[Scene, list[signal.Signals]]]:
    """Yield each command with the signals that end it; its first run tells what is to be there.

    One book is collected as it was built. The other files are refused at once: what is written of
    them goes the same way.
    """
    table, damaged = place / "roster.csv", place / "damaged"
    table.write_text(ROSTER, encoding="utf-8")
    damaged.mkdir()
    for number in range(3):
        (damaged / f"{number}.xlsx").write_bytes(b"no workbook")
    build = over_older(place / "build", ["book.xlsx"], ["build"])
    yield build, [KILL, KILL, TERM, INT, INT, KILL]
    folder = place / "roster"
    more = [str(table), "--out", str(folder), "--mail", "--jobs", "2"]
    roster = Scene("roster", ["roster", *more], folder, {}, {}, 0, ".manifest.part")
    yield roster, [INT, KILL, KILL, TERM]
    few, more = ["collect", "--jobs", "2", str(damaged)], [str(build.folder / "book.xlsx")]
    yield over_older(place / "collect xlsx", ["fleet.xlsx"], few + more), [INT, KILL, TERM, KILL]
    tables = ["fleet.csv", "fleet-events.csv", "fleet-findings.csv"]
    yield over_older(place / "collect csv", tables, few), [KILL, KILL, INT, KILL, TERM, INT]
    yield over_older(place / "collect json", ["fleet.json"], few), [INT, KILL, TERM, KILL]


def over_older(folder: Path, names: list[str], command: list[str]) -> Scene:
    """Return a command that writes files where older ones stand."""
    arguments = [*command, "--force", "--out", str(folder / names[0])]
    old = dict.fromkeys(names, OLD)
    return Scene(folder.name, arguments, folder, old, {}, 0, f"{names[0]}.unfinished")


def kill_real() -> Iterator[tuple[Scene, str, list[str]]]:
    """Yield each command with each moment at which it was ended, and what was wrong after it."""
    with tempfile.TemporaryDirectory() as name:
        place = Path(name)
        (place / TEMPORARY).mkdir()
        for planned, signals in list_scenes(place):
            planned.reset()
            ended = run_alone(planned, place)
            scene = replace(planned, new=read_folder(planned.folder), code=ended.code)
            for number, blow in enumerate(draw_blows(scene.name, signals), start=1):
                scene.reset()
                faults = list(judge_ended(strike(scene, place, blow, ended.seconds), blow, scene))
                faults += [*scene.judge(read_folder(scene.folder)), *judge_temporary(place)]
                if number == len(signals):
                    faults += scene.judge_end(run_alone(scene, place).code)
                yield scene, blow.title, faults
