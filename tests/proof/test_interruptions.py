"""The proof of interruptions goes red: half a file, a mix that nothing tells, a leftover."""

import os
import signal
from collections import Counter
from functools import partial

import pytest

from builder.exchange.output import replace_whole, write_file
from proof.interruptions import Tally, kill_everywhere, list_faults
from proof.interruptions_moments import UNUSUAL, run_forked
from proof.interruptions_real import Blow, Ended, judge_ended
from proof.interruptions_scenes import Scene

OLD = {"a.csv": b"old a" * 9000, "b.csv": b"old b" * 9000}
NEW = {"a.csv": b"new a" * 9000, "b.csv": b"new b" * 9000}
MARK = "a.csv.unfinished"


def write_whole(folder):
    files = [folder / name for name in NEW]
    with replace_whole(files) as aside:
        for path in aside:
            path.write_bytes(NEW[path.name])


def write_in_place(folder):
    for name, content in NEW.items():
        (folder / name).write_bytes(content)


def write_one_by_one(folder):
    for name, content in NEW.items():
        write_file(folder / name, content)


def write_beside(folder):
    for name, content in NEW.items():
        beside = folder / f".{name}.{os.getpid()}.tmp"
        beside.write_bytes(content)
        beside.replace(folder / name)


def kill(tmp_path, write):
    """Kill a writer at each of its operations, in a process that may be patched."""
    scene = Scene("collect", [], tmp_path / "out", OLD, NEW, 0, MARK)
    tally = Tally()

    def work(_):
        write(scene.folder)
        return 0

    kill_everywhere(scene, work, tally)
    return tally


def test_files_that_are_replaced_under_a_mark_are_never_half_and_never_mixed(tmp_path):
    tally = kill(tmp_path, write_whole)
    assert tally.faults == []
    assert tally.kills["collect"] == tally.whole["collect"] > 10


@pytest.mark.parametrize(
    ("write", "fault"),
    [
        (write_in_place, "a.csv is neither whole old nor whole new"),
        (write_one_by_one, "only a.csv of 2 files are new, and nothing says so"),
        (write_beside, ".tmp is left"),
        (write_beside, ".tmp stays after the next run"),
    ],
)
def test_other_ways_to_write_are_faults_with_command_moment_and_file(tmp_path, write, fault):
    tally = kill(tmp_path, write)
    assert tally.whole["collect"] < tally.kills["collect"]
    assert [line for line in tally.faults if line.startswith("collect, killed at operation ")]
    assert [line for line in tally.faults if line.endswith(fault)]


def test_a_kill_in_the_middle_of_a_write_leaves_half_of_it(tmp_path):
    path = tmp_path / "file"
    moments = (2, 3)  # opened, to be written, half written
    sizes = [
        path.stat().st_size
        for moment in moments
        if run_forked(partial(path.write_bytes, b"abcd"), moment) is None
    ]
    assert sizes == [0, 2]


def test_a_command_that_raises_is_told_by_its_exit_code(capfd):
    def fail():
        raise LookupError

    assert run_forked(fail, 99) == UNUSUAL
    assert "LookupError" in capfd.readouterr().err


def test_the_next_run_must_end_well_and_leave_nothing(tmp_path):
    scene = Scene("build", [], tmp_path / "out", OLD | {"c": b""}, NEW, 0, "")
    scene.reset()
    assert list(scene.judge_end(4)) == [
        "the next run ends with 4",
        "a.csv is another after the next run",
        "b.csv is another after the next run",
        "c stays after the next run",
    ]


@pytest.mark.parametrize(
    ("ended", "faults"),
    [
        (Ended(130, "", 1.0), []),
        (Ended(-2, "", 1.0), []),
        (Ended(0, "", 1.0), []),
        (Ended(1, "", 1.0), ["exit code 1"]),
        (Ended(130, "", 1.0, lingers=True), ["a process goes on"]),
        (Ended(130, "Traceback\nx", 1.0), ["a traceback: x"]),
    ],
)
def test_an_interrupt_ends_with_130_and_no_traceback(tmp_path, ended, faults):
    scene = Scene("build", [], tmp_path, {}, {}, 0, "")
    assert list(judge_ended(ended, Blow(signal.SIGINT, 0.5, while_writing=False), scene)) == faults


def test_a_command_that_was_hardly_killed_is_a_fault() -> None:
    tally = Tally(kills=Counter(build=24, roster=3, collect=90))
    assert list_faults(tally) == ["roster: killed fewer than 20 times"]
