"""Processor seconds of whole processes, and rounds of two ways in turn."""

import os
import resource
import statistics
import subprocess
import sys
import time
from collections.abc import Callable
from dataclasses import dataclass
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path
from types import ModuleType

ROOT = Path(__file__).resolve().parents[2]
Way = Callable[[], float]


@dataclass(frozen=True, slots=True)
class Ratio:
    """What one way took against another, round by round."""

    ours: list[float]
    theirs: list[float]

    @property
    def ratios(self) -> list[float]:
        return [one / other for one, other in zip(self.ours, self.theirs, strict=True)]


def compare(ours: Way, theirs: Way, rounds: int) -> Ratio:
    """Return processor seconds of two ways in turn, after one round of each that does not count."""
    ours(), theirs()
    pairs = [(ours(), theirs()) for _ in range(rounds)]
    return Ratio([one for one, _ in pairs], [other for _, other in pairs])


def run(*command: object) -> float:
    """Run a command to its end; return its processor seconds, those of its children included."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    paths = {**os.environ, "PYTHONPATH": str(ROOT)}
    subprocess.run([str(word) for word in command], check=True, capture_output=True, env=paths)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def run_command(*words: object) -> float:
    return run(sys.executable, "-m", "builder", *words)


def load_module(path: Path) -> ModuleType:
    place = spec_from_file_location(path.stem, path)
    if place is None or place.loader is None:
        raise ImportError(path)
    module = module_from_spec(place)
    place.loader.exec_module(module)
    return module


def time_call(function: Callable[[], object]) -> float:
    """Return the processor seconds of a call within this process."""
    begun = time.process_time()
    function()
    return time.process_time() - begun


def tell(figures: list[float], unit: str = "") -> str:
    middle, least, most = statistics.median(figures), min(figures), max(figures)
    return f"{middle:.2f}{unit} | {least:.2f} to {most:.2f}{unit}"
