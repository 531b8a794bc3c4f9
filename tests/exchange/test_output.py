import pytest

from builder.exchange.claim import claim
from builder.exchange.output import refuse_existing, replace_whole, sweep, write_file
from builder.problems import UserError


def test_file_is_written_whole_and_nothing_stays_beside_it(tmp_path):
    path = tmp_path / "book.xlsx"
    write_file(path, b"first")
    write_file(path, b"second")
    assert [(p.name, p.read_bytes()) for p in tmp_path.iterdir()] == [("book.xlsx", b"second")]


def test_failed_exchange_leaves_nothing_behind(tmp_path):
    (tmp_path / "book.xlsx").mkdir()
    with pytest.raises(UserError, match="cannot be written") as error:
        write_file(tmp_path / "book.xlsx", b"content")
    assert error.value.exit_code == 4
    assert [p.name for p in tmp_path.iterdir()] == ["book.xlsx"]


def test_missing_folder_is_told(tmp_path):
    with pytest.raises(UserError, match=r"no/book\.xlsx cannot be written: No such file"):
        write_file(tmp_path / "no" / "book.xlsx", b"content")


def test_anybody_in_the_group_may_read_the_file_as_usual(tmp_path):
    usual = tmp_path / "usual"
    usual.write_bytes(b"")
    write_file(tmp_path / "book.xlsx", b"content")
    assert (tmp_path / "book.xlsx").stat().st_mode == usual.stat().st_mode


def test_existing_file_folder_and_broken_link_are_refused(tmp_path):
    (tmp_path / "file").write_bytes(b"")
    (tmp_path / "link").symlink_to("nowhere")
    for name in ("file", "link", "."):
        with pytest.raises(UserError, match="exists already"):
            refuse_existing(tmp_path / name)
    refuse_existing(tmp_path / "new")


def leave(folder, name):
    """Make what a run that was killed leaves."""
    aside = folder / f".{name}.rinsebook"
    (aside / "part").mkdir(parents=True)
    (aside / name).write_bytes(b"half of a longer file")
    (aside / "part" / "more").write_bytes(b"")
    (aside / "lock").write_bytes(b"")
    return aside


def test_what_a_killed_run_left_aside_goes_with_the_next(tmp_path):
    leave(tmp_path, "book.xlsx")
    write_file(tmp_path / "book.xlsx", b"whole")
    assert [(p.name, p.read_bytes()) for p in tmp_path.iterdir()] == [("book.xlsx", b"whole")]


def test_two_runs_do_not_write_one_file_at_once(tmp_path):
    aside = leave(tmp_path, "book.xlsx")
    with claim(aside / "lock"):
        with pytest.raises(UserError, match=r"book\.xlsx is being written by another") as error:
            write_file(tmp_path / "book.xlsx", b"mine")
        sweep(tmp_path)
        assert (aside / "book.xlsx").read_bytes() == b"half of a longer file"
    assert error.value.exit_code == 4


def test_sweeping_removes_what_nobody_writes_and_nothing_else(tmp_path):
    for name in ("a.xlsx", "b.eml"):
        leave(tmp_path, name)
    (tmp_path / ".hidden").write_bytes(b"")
    sweep(tmp_path)
    assert [path.name for path in tmp_path.iterdir()] == [".hidden"]


def test_files_that_cannot_all_be_replaced_stand_under_a_mark_and_the_culprit_is_told(tmp_path):
    targets = [tmp_path / name for name in ("a", "b")]
    targets[0].mkdir()
    with pytest.raises(UserError, match=r"/a cannot be written: Is a directory"):
        write_all(targets)
    assert sorted(path.name for path in tmp_path.iterdir()) == ["a", "a.unfinished", "b"]
    targets[0].rmdir()
    write_all(targets)
    assert sorted(path.name for path in tmp_path.iterdir()) == ["a", "b"]


def write_all(targets):
    with replace_whole(targets) as files:
        for path in files:
            path.write_bytes(b"new")


def test_a_file_is_on_the_disk_before_it_takes_its_name(tmp_path, monkeypatch):
    path, states = tmp_path / "book.xlsx", []
    write_file(path, b"first")
    monkeypatch.setattr("os.fsync", lambda number: states.append((number, path.read_bytes())))
    write_file(path, b"second")
    assert [state for _, state in states] == [b"first"]
    assert path.read_bytes() == b"second"
