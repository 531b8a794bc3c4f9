import subprocess
import sys
from pathlib import Path

import pytest

from builder.exchange.claim import BusyError, claim

ROOT = Path(__file__).resolve().parents[2]
HOLD = """
import sys, time
from pathlib import Path
from builder.exchange.claim import claim
with claim(Path(sys.argv[1])):
    print(flush=True)
    time.sleep(60)
"""


def test_a_claim_is_held_once_and_leaves_nothing(tmp_path):
    path = tmp_path / "lock"
    with claim(path):
        with pytest.raises(BusyError), claim(path):
            pass
        assert path.exists()
    assert not path.exists()


def test_a_claim_ends_with_a_killed_process(tmp_path):
    path = tmp_path / "lock"
    command = [sys.executable, "-c", HOLD, path]
    with subprocess.Popen(command, stdout=subprocess.PIPE, cwd=ROOT) as process:
        process.stdout.readline()
        with pytest.raises(BusyError), claim(path):
            pass
        process.kill()
    assert path.exists()
    with claim(path):
        pass
    assert not path.exists()


def test_a_file_that_was_removed_since_it_was_opened_is_no_claim(tmp_path, monkeypatch):
    path = tmp_path / "lock"
    monkeypatch.setattr("fcntl.flock", lambda *_: path.unlink())
    with pytest.raises(BusyError), claim(path):
        pass


def test_where_the_file_system_knows_no_locks_work_goes_on(tmp_path, monkeypatch):
    def refuse(*_):
        raise OSError(95, "Operation not supported")

    monkeypatch.setattr("fcntl.flock", refuse)
    with claim(tmp_path / "lock"):
        assert (tmp_path / "lock").exists()
