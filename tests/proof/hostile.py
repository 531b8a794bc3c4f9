"""Bad and hostile files: each case through the real command, bounded, watched, and judged."""

import json
import socket
import subprocess
import sys
from collections import Counter
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import asdict, dataclass
from pathlib import Path
from shutil import rmtree
from tempfile import TemporaryDirectory

from builder.exchange.demo import read_demo
from builder.production import build_workbook, shorten
from builder.spec.load import find_specs, load_spec
from proof import hostile_machines, hostile_places, hostile_rosters, hostile_workbooks
from proof.figures import Rate, Section
from proof.hostile_case import Case, judge, look
from proof.hostile_host import Answer, Order

TESTS = Path(__file__).resolve().parents[1]
HOST = [sys.executable, "-m", "proof.hostile_host"]
DESK = "a/b/work"
TABLES = ("*.csv", "*.json")
MOST_WRITTEN = 1_000_000


@dataclass(frozen=True, slots=True)
class Host:
    """The warm process in which commands run."""

    process: subprocess.Popen[str]

    def run(self, order: Order) -> Answer:
        orders, answers = self.process.stdin, self.process.stdout
        if orders is None or answers is None:
            raise RuntimeError("the host has no pipes")
        orders.write(json.dumps(asdict(order)) + "\n")
        orders.flush()
        return Answer(**json.loads(answers.readline()))


@contextmanager
def open_host() -> Iterator[Host]:
    pipes = {"stdin": subprocess.PIPE, "stdout": subprocess.PIPE}
    with subprocess.Popen(HOST, cwd=TESTS, encoding="utf-8", **pipes) as process:  # type: ignore[call-overload]
        yield Host(process)


def list_cases(sound: bytes, port: int) -> Iterator[Case]:
    yield from hostile_machines.list_cases()
    yield from hostile_rosters.list_cases(sound)
    yield from hostile_places.list_cases(sound)
    yield from hostile_workbooks.list_cases(sound, port)


def run_case(case: Case, root: Path, host: Host) -> list[str]:
    """Make the files of a case, run it, and return what went otherwise."""
    home = root / "case"
    desk = home / DESK
    desk.mkdir(parents=True)
    (home / "aside").mkdir()
    try:
        words = case.make(desk)
        before = look(home)
        answer = host.run(Order(words, str(desk), str(home)))
        after = look(home)
        changed = {path for path in before | after if before.get(path) != after.get(path)}
        changed = {path.removeprefix(f"{DESK}/") for path in changed}
        return list(judge(case, answer, changed, read_tables(desk, changed)))
    finally:
        rmtree(home)


def read_tables(desk: Path, changed: set[str]) -> str:
    """Return the beginning of each table that a command wrote."""
    found = [path for pattern in TABLES for path in sorted(desk.rglob(pattern))]
    fresh = [path for path in found if str(path.relative_to(desk)) in changed]
    return "\n".join(
        path.read_text(encoding="utf-8", errors="replace")[:MOST_WRITTEN] for path in fresh
    )


def run_cases(cases: Iterable[Case], host: Host) -> Iterator[tuple[Case, list[str]]]:
    with TemporaryDirectory() as folder:
        root = Path(folder).resolve()
        for case in cases:
            yield case, run_case(case, root, host)


def measure() -> Section:
    short = shorten(load_spec(find_specs()))
    sound = build_workbook(short, read_demo(short), "en", "metric")
    made: Counter[str] = Counter()
    held: Counter[str] = Counter()
    faults: list[str] = []
    with socket.create_server(("127.0.0.1", 0)) as canary, open_host() as host:
        canary.settimeout(0)
        port = canary.getsockname()[1]
        for case, wrong in run_cases(list_cases(sound, port), host):
            made[case.kind] += 1
            held[case.kind] += not wrong
            faults += [f"hostile, {case.kind}, {case.name}: {text}" for text in wrong]
        faults += list(find_callers(canary))
    rates = [Rate(f"{kind}: cases handled as stated", held[kind], made[kind]) for kind in made]
    return Section(
        "Bad and hostile files",
        "Each case ends with the stated message and exit code, within bounds of time and memory, "
        "without a traceback, a stray file, a file read elsewhere or a call to the network.",
        "an attack that is none of these cases.",
        rates,
        faults=faults,
    )


def find_callers(canary: socket.socket) -> Iterator[str]:
    """Yield a fault where anybody has called the address that hostile files name."""
    try:
        canary.accept()[0].close()
    except BlockingIOError:
        return
    yield "hostile: a command called an address that a file named"
