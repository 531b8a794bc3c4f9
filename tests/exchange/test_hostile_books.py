"""Files that are no books, where the commands that read many or rebuild one meet them."""

import os

import pytest

from builder.audit.container import MOST_BYTES
from builder.collection.book import gather
from builder.collection.tables import make_tables
from builder.problems import UserError


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
