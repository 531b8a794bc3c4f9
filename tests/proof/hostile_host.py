"""Runs commands in children of one warm process, and watches what each of them does.

`python -m proof.hostile_host` reads one order a line from its input and answers each with a line.
The specs have short lists here, and the book that an audit compares with is built once: all else
is the command as users have it.
"""

import json
import os
import resource
import select
import signal
import sys
import tempfile
import time
from collections.abc import Callable
from dataclasses import asdict, dataclass
from functools import cache
from pathlib import Path

import builder.cli
import builder.collection.collection  # what commands load when they run is to be there already
import builder.explanation
import builder.renewal.renewal
import builder.roster.run
from builder import production
from builder.cli import audit, build, calc, collect, explain, roster
from builder.exchange.demo import read_demo
from builder.exchange.machine import Machine
from builder.production import shorten
from builder.spec.load import find_specs, load_spec

# A child over its bounds is to tell how far it gets; others may share the cores.
PATIENCE_S, MOST_CPU_S, ADDRESSES = 300, 40, 8 << 30
CALLS = ("socket.", "subprocess.", "os.system", "os.exec", "os.posix_spawn", "os.fork", "os.spawn")
FETCHES = ("urllib.", "http.", "ftplib.", "smtplib.", "webbrowser.", "os.startfile", "pty.")
WRITES = os.O_WRONLY | os.O_RDWR | os.O_CREAT | os.O_TRUNC
OWN = ("/dev/null", "/dev/tty")


@dataclass(frozen=True, slots=True)
class Order:
    words: list[str]
    folder: str
    home: str


@dataclass(frozen=True, slots=True)
class Answer:
    """What became of a command; `code` below 0 is the signal that ended it."""

    code: int
    out: str
    err: str
    events: list[str]
    cpu_s: float
    memory_mb: float


def warm_up() -> None:
    """Load the specs and build the book to compare with, before any child begins."""
    spec = shorten(load_spec(find_specs()))
    build_workbook = production.build_workbook
    fresh = cache(lambda lang, units: build_workbook(spec, read_demo(spec), lang, units))

    def build_once(_spec: object, machine: Machine, lang: str, units: str) -> bytes:
        if machine == read_demo(spec):
            return fresh(str(lang), str(units))
        return build_workbook(spec, machine, lang, units)

    for command in (audit, build, calc, collect, explain, roster):
        command.load_spec = lambda _folder: spec  # type: ignore[attr-defined]
    production.build_workbook = build_once
    fresh("en", "metric")


def watch(home: str, tell: Callable[[str], None]) -> Callable[[str, tuple[object, ...]], None]:
    """Return a hook that tells what runs, fetches, or writes outside a folder."""

    def hook(event: str, details: tuple[object, ...]) -> None:
        if event.startswith(CALLS + FETCHES):
            tell(f"{event} {details!r:.200}")
        elif event == "open" and isinstance(details[0], str | bytes):
            path, mode, flags = os.fsdecode(details[0]), details[1], details[2]
            writes = bool(set(str(mode or "")) & set("wax+")) or int(str(flags)) & WRITES
            if writes and not os.path.realpath(path).startswith((home, *OWN)):
                tell(f"writes {path}")

    return hook


def act(order: Order, told: int) -> None:
    """Be the child: run the command, and end this process with its code."""
    resource.setrlimit(resource.RLIMIT_AS, (ADDRESSES, ADDRESSES))
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    resource.setrlimit(resource.RLIMIT_CPU, (MOST_CPU_S, MOST_CPU_S))  # if nobody waits any more
    os.chdir(order.folder)
    for number, name in enumerate(("in", "out", "err")):
        path = os.devnull if name == "in" else f"{order.home}.{name}"
        flags = os.O_RDONLY if name == "in" else os.O_WRONLY | os.O_CREAT | os.O_TRUNC
        os.dup2(os.open(path, flags), number)
    tempfile.tempdir = os.environ["TMPDIR"] = f"{order.home}/aside"
    sys.argv = ["rinsebook", *order.words]
    sys.addaudithook(watch(order.home, lambda line: void(os.write(told, f"{line}\n".encode()))))
    code = 70
    try:
        builder.cli.main()
    except SystemExit as end:
        code = end.code if isinstance(end.code, int) else 0
    finally:
        sys.stderr.flush()
        os._exit(code)


def void(_value: object) -> None:
    """Return nothing."""


def follow(order: Order) -> Answer:
    """Run one command in a child, and return what became of it."""
    read, write = os.pipe()
    child = os.fork()
    if not child:
        os.setsid()
        os.close(read)
        act(order, write)
    os.close(write)
    events = listen(read, child)
    _, status, usage = os.wait4(child, 0)
    out, err = (
        Path(f"{order.home}.{name}").read_text("utf-8", "replace") for name in ("out", "err")
    )
    cpu, memory = usage.ru_utime + usage.ru_stime, usage.ru_maxrss / 1024
    code = os.waitstatus_to_exitcode(status)
    return Answer(code, out, err, events.splitlines()[:20], cpu, memory)


def listen(pipe: int, child: int) -> str:
    """Return what a child tells until it ends, or is ended because it takes too long."""
    heard, end = b"", time.monotonic() + PATIENCE_S
    while ready := select.select([pipe], [], [], max(0.0, end - time.monotonic()))[0]:
        words = os.read(ready[0], 65536)
        if not words:
            break
        heard += words
    else:
        os.killpg(child, signal.SIGKILL)
    os.close(pipe)
    return heard.decode("utf-8", "replace")


def main() -> None:
    sys.dont_write_bytecode = True
    warm_up()
    for line in sys.stdin:
        print(json.dumps(asdict(follow(Order(**json.loads(line))))), flush=True)


if __name__ == "__main__":
    main()
