"""Files that are no books, where the commands that read many or rebuild one meet them."""

import os

import pytest
from audit.edits import edit_part
from audit.small import build_small, small_spec

from builder.audit.container import MOST_BYTES
from builder.collection.book import gather
from builder.collection.tables import make_tables
from builder.problems import UserError
from builder.renewal.source import Source


def refuse(path):
    raise UserError(f"{path}: is odd.", 4)


@pytest.mark.parametrize(
    "put", [os.mkfifo, lambda path: path.symlink_to("/dev/zero")], ids=["pipe", "zeros"]
)
def test_a_pipe_among_the_books_is_a_finding_without_a_fingerprint(tmp_path, spec, put):
    put(tmp_path / "b.xlsx")
    book = gather(tmp_path / "b.xlsx", refuse, make_tables(spec))
    assert (book.state, book.sha256, [x.text for x in book.findings]) == (
        "unreadable",
        "",
        ["is odd."],
    )
    assert book.identity.endswith("b.xlsx")


def test_a_file_too_large_to_audit_is_not_read_for_its_fingerprint_either(tmp_path, spec):
    with (tmp_path / "b.xlsx").open("wb") as file:
        file.truncate(MOST_BYTES + 1)
    assert gather(tmp_path / "b.xlsx", refuse, make_tables(spec)).sha256 == ""


def test_a_book_whose_workbook_is_text_cannot_be_renewed(tmp_path):
    path = tmp_path / "b.xlsx"
    fresh = build_small("en", "metric")
    path.write_bytes(edit_part(fresh, "xl/workbook.xml", lambda _: "<p>hello</p>"))
    with pytest.raises(UserError, match=r"b\.xlsx: is damaged \(AttributeError\)") as error:
        Source(path, small_spec())
    assert error.value.exit_code == 4
