"""The judge of hostile cases sees every way in which a command can do otherwise than stated."""

import os
from dataclasses import replace
from pathlib import Path

import pytest

from proof.hostile import open_host, run_case
from proof.hostile_case import SECRET, Case, judge, look
from proof.hostile_host import Answer, watch

CASE = Case("a case", "kind", lambda _: ["calc", "gone.toml"], 4, "does not exist")
FINE = Answer(4, "", "gone.toml does not exist. Give another.\n", [], 1.0, 100.0)


def test_a_command_that_does_as_stated_is_no_fault() -> None:
    assert list(judge(CASE, FINE, set(), "")) == []


@pytest.mark.parametrize(
    ("answer", "told"),
    [
        (replace(FINE, code=3), "ended with 3, expected 4"),
        (replace(FINE, code=-11), "ended with -11, expected 4"),
        (replace(FINE, err="no"), "did not say 'does not exist'"),
        (replace(FINE, out=FINE.err, err=""), "did not say 'does not exist'"),
        (replace(FINE, out="3.5"), "printed a result in spite of the error"),
        (replace(FINE, err=FINE.err + "Traceback (most"), "told of a defect"),
        (replace(FINE, err=FINE.err + "This is a defect of the program"), "told of a defect"),
        (replace(FINE, err=FINE.err + SECRET), "read a file that it was not given"),
        (replace(FINE, events=["socket.connect x"]), "did socket.connect x"),
        (replace(FINE, cpu_s=21.0), "took more than 20 s"),
        (replace(FINE, memory_mb=601.0), "took more than 600 MB"),
    ],
)
def test_each_way_to_do_otherwise_is_told(answer: Answer, told: str) -> None:
    assert any(text.startswith(told) for text in judge(CASE, answer, set(), ""))


def test_what_is_written_must_be_what_is_stated() -> None:
    case = replace(CASE, writes=frozenset({"book.xlsx"}))
    found = list(judge(case, FINE, {"planted"}, ""))
    assert found == ["wrote or changed planted", "did not write book.xlsx"]


def test_a_table_that_was_written_counts_as_told() -> None:
    case, answer = replace(CASE, code=1), replace(FINE, code=1, err="")
    assert list(judge(case, answer, set(), '"gone.toml does not exist"')) == []
    assert list(judge(case, answer, set(), "does not exist; the audit failed on this file"))


def test_a_look_sees_what_was_added_changed_linked_and_piped(tmp_path: Path) -> None:
    (tmp_path / "kept").write_bytes(b"one")
    before = look(tmp_path)
    (tmp_path / "kept").write_bytes(b"two")
    (tmp_path / "link").symlink_to("kept")
    os.mkfifo(tmp_path / "pipe")
    after = look(tmp_path)
    assert {key for key in after if before.get(key) != after[key]} == {"kept", "link", "pipe"}


def test_the_watch_tells_what_runs_fetches_and_writes_elsewhere(tmp_path: Path) -> None:
    told: list[str] = []
    hook = watch(str(tmp_path), told.append)
    hook("socket.connect", ("x", ("127.0.0.1", 80)))
    hook("subprocess.Popen", ("calc", ["calc"], None, None))
    hook("os.system", ("calc",))
    hook("open", ("/elsewhere/x", "w", os.O_WRONLY))
    hook("open", ("/elsewhere/x", None, os.O_RDWR))
    assert [line.split()[0] for line in told] == [
        "socket.connect",
        "subprocess.Popen",
        "os.system",
        "writes",
        "writes",
    ]
    told.clear()
    hook("open", (str(tmp_path / "x"), "w", os.O_WRONLY))
    hook("open", ("/elsewhere/x", "r", os.O_RDONLY))
    hook("import", ("socket",))
    assert told == []


def test_a_case_runs_through_the_command_and_a_wrong_statement_is_a_fault(tmp_path: Path) -> None:
    with open_host() as host:
        assert run_case(CASE, tmp_path, host) == []
        wrong = run_case(replace(CASE, code=0, told="holdup"), tmp_path, host)
    assert [text[:12] for text in wrong] == ["ended with 4", "did not say "]
