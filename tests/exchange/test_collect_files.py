import os

import pytest

from builder.collection.files import find_workbooks
from builder.problems import UserError


@pytest.fixture
def folder(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    return tmp_path


def make(folder, *names):
    for name in names:
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_bytes(b"")


def find(folder, *sources):
    found = find_workbooks([folder / source for source in sources], folder / "out.xlsx")
    return [path.relative_to(folder).as_posix() for path in found]


def test_folders_are_searched_to_the_bottom_in_order(folder):
    make(folder, "in/b.xlsx", "in/a/z.XLSX", "in/a/c/d.xlsx", "in/a.xlsx", "in/notes.txt")
    assert find(folder, "in") == ["in/a/c/d.xlsx", "in/a/z.XLSX", "in/a.xlsx", "in/b.xlsx"]


def test_hidden_and_lock_files_are_left_out(folder):
    make(folder, "in/~$a.xlsx", "in/.~lock.a.xlsx#", "in/.a.xlsx", "in/.bin/b.xlsx", "in/a.xlsx")
    assert find(folder, "in") == ["in/a.xlsx"]


def test_a_file_given_twice_counts_once(folder):
    make(folder, "in/a.xlsx")
    (folder / "link").symlink_to(folder / "in")
    assert find(folder, "in", "in/a.xlsx", "in/../in/a.xlsx", "link") == ["in/a.xlsx"]


def test_a_single_file_may_have_any_name(folder):
    make(folder, "book.bak")
    assert find(folder, "book.bak") == ["book.bak"]


def test_the_file_to_be_written_is_never_read(folder):
    make(folder, "out.xlsx", "a.xlsx")
    assert find(folder, ".") == ["a.xlsx"]


def test_a_missing_source_and_an_empty_folder_are_told(folder):
    (folder / "in").mkdir()
    with pytest.raises(UserError, match=r"gone does not exist") as missing:
        find(folder, "gone")
    with pytest.raises(UserError, match=r"in: no \.xlsx workbook found") as empty:
        find(folder, "in")
    assert (missing.value.exit_code, empty.value.exit_code) == (4, 4)


def test_a_pipe_is_no_source_and_one_in_a_folder_is_left_to_the_audit(folder):
    make(folder, "in/a.xlsx")
    os.mkfifo(folder / "in" / "b.xlsx")
    with pytest.raises(UserError, match=r"b\.xlsx is no file\. Give folders or \.xlsx files\."):
        find(folder, "in/b.xlsx")
    assert find(folder, "in") == ["in/a.xlsx", "in/b.xlsx"]
