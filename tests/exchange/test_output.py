import pytest

from builder.exchange.output import refuse_existing, write_file
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
