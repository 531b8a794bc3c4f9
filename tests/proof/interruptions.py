"""Interruptions: a command that is killed leaves each file whole old or whole new."""

import multiprocessing
import tempfile
from collections import Counter
from collections.abc import Callable
from concurrent.futures import ProcessPoolExecutor
from contextlib import chdir
from dataclasses import dataclass, field
from functools import partial
from pathlib import Path

from exchange.collected import Shelf

from builder.spec.load import find_specs, load_spec
from proof.figures import Rate, Section
from proof.interruptions_commands import act, fill, list_scenes, stand_in
from proof.interruptions_moments import run_forked
from proof.interruptions_real import kill_real
from proof.interruptions_scenes import Scene, outline, read_folder

COMMANDS = ("build", "roster", "collect")
LEAST = 20  # kills of a command; fewer would mean that its operations are not seen
LISTED = 20


@dataclass(slots=True)
class Tally:
    """How often each command was killed, after how many kills all was well, and what was not."""

    kills: Counter[str] = field(default_factory=Counter)
    whole: Counter[str] = field(default_factory=Counter)
    faults: list[str] = field(default_factory=list)

    def add(self, scene: Scene, moment: str, faults: list[str]) -> None:
        command = next(name for name in COMMANDS if scene.name.startswith(name))
        self.kills[command] += 1
        self.whole[command] += not faults
        self.faults += [f"{scene.name}, killed {moment}: {fault}" for fault in faults]


def kill_everywhere(scene: Scene, run: Callable[[list[str]], int], tally: Tally) -> None:
    """Kill a command at its first operation, at its second, and so on, until it ends by itself."""
    work, moment, tried = partial(run, scene.arguments), 0, set()
    while True:
        moment += 1
        scene.reset()
        code = run_forked(work, moment)
        if code is not None:
            tally.faults += [f"{scene.name}, not killed: {x}" for x in scene.judge_end(code)]
            return
        found = read_folder(scene.folder)
        faults = list(scene.judge(found))
        if outline(found) not in tried:
            tried.add(outline(found))
            faults += scene.judge_end(work())
        tally.add(scene, f"at operation {moment}", faults)


def kill_stand_ins() -> Tally:
    """Kill each command at every operation on files, with stand-ins for what takes long."""
    spec, tally = load_spec(find_specs()), Tally()
    with tempfile.TemporaryDirectory() as folder, chdir(folder):
        # Bare names: the tables hold them, and their length decides on the number of writes.
        shelf = Shelf(Path("in"), spec)
        fill(shelf)
        stand_in(spec, shelf)
        for scene in list_scenes(Path(), shelf):
            kill_everywhere(scene, act, tally)
    return tally


def measure() -> Section:
    """Kill each command at every operation on files, and at moments of its time."""
    context = multiprocessing.get_context("fork")  # the stand-ins stay in a process of their own
    with ProcessPoolExecutor(1, context) as pool:
        tally = pool.submit(kill_stand_ins).result()
    for scene, moment, faults in kill_real():
        tally.add(scene, moment, faults)
    rates = [
        Rate(f"{name} killed, files whole afterwards", tally.whole[name], tally.kills[name])
        for name in COMMANDS
    ]
    return Section(
        "Interruptions",
        "A command killed at any of its operations on files, or at any moment, leaves each file "
        "whole old or whole new, and the next run ends well.",
        "a disk that lies about what it has written.",
        rates,
        faults=list_faults(tally),
    )


def list_faults(tally: Tally) -> list[str]:
    """Return what was not whole, and which command was hardly tried."""
    idle = [name for name in COMMANDS if tally.kills[name] < LEAST]
    return tally.faults[:LISTED] + [f"{name}: killed fewer than {LEAST} times" for name in idle]
