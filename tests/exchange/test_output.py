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
    aside.mkdir()
    (aside / name).write_bytes(b"half of a longer file")
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


@pytest.fixture
def precious(tmp_path):
    """Return a folder of somebody's own, beside the one that is written to."""
    (tmp_path / "precious" / "deep").mkdir(parents=True)
    for name in ("a", "deep/b"):
        (tmp_path / "precious" / name).write_bytes(b"keep")
    return tmp_path / "precious"


def is_whole(precious):
    return [(precious / name).read_bytes() for name in ("a", "deep/b")] == [b"keep"] * 2


def test_a_link_named_like_the_working_folder_is_refused_and_not_followed(tmp_path, precious):
    (tmp_path / ".book.xlsx.rinsebook").symlink_to(precious)
    with pytest.raises(UserError, match=r"book\.xlsx\.rinsebook is in the way.* move it") as error:
        write_file(tmp_path / "book.xlsx", b"content")
    assert error.value.exit_code == 4
    sweep(tmp_path)
    assert is_whole(precious)
    assert not (tmp_path / "book.xlsx").exists()


@pytest.mark.parametrize("name", ["book.xlsx", "part"])
def test_links_in_what_a_killed_run_left_are_not_followed(tmp_path, precious, name):
    aside = leave(tmp_path, "other.xlsx").rename(tmp_path / ".book.xlsx.rinsebook")
    (aside / name).symlink_to(precious / "a" if name == "book.xlsx" else precious)
    write_file(tmp_path / "book.xlsx", b"content")
    assert is_whole(precious)
    assert not aside.exists()
    assert (tmp_path / "book.xlsx").read_bytes() == b"content"
    assert not (tmp_path / "book.xlsx").is_symlink()


def test_a_link_named_like_the_lock_is_refused_and_not_followed(tmp_path, precious):
    aside = tmp_path / ".book.xlsx.rinsebook"
    aside.mkdir()
    (aside / "lock").symlink_to(precious / "new")
    with pytest.raises(UserError, match=r"book\.xlsx cannot be written") as error:
        write_file(tmp_path / "book.xlsx", b"content")
    assert error.value.exit_code == 4
    assert is_whole(precious)
    assert not (precious / "new").exists()


def test_a_folder_that_no_run_has_left_is_not_emptied(tmp_path):
    own = tmp_path / ".book.xlsx.rinsebook" / "mine"
    own.parent.mkdir()
    own.write_bytes(b"keep")
    with pytest.raises(UserError, match="is in the way"):
        write_file(tmp_path / "book.xlsx", b"content")
    sweep(tmp_path)
    assert own.read_bytes() == b"keep"
