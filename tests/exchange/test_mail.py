from email import message_from_bytes
from email.policy import default

import pytest

from builder.exchange.machine import Machine
from builder.roster.mail import write_message
from builder.roster.roster import Row

MACHINE = Machine("Concentrateur nº 2", "Érablière Exemple", "Rang 3")
BOOK = bytes(range(256)) * 50


def make(spec, **changes):
    row = Row(**{"line": 2, "machine": MACHINE, "lang": "fr", "units": "us", "stem": "b"} | changes)
    return write_message(row, "b.xlsx", BOOK, spec)


def test_message_is_a_draft_with_the_book_attached(spec):
    message = message_from_bytes(make(spec, recipient="a@example.org"), policy=default)
    (book,) = message.iter_attachments()
    assert dict(message.items()).keys() == {
        "Subject", "To", "X-Unsent", "MIME-Version", "Content-Type",
    }  # fmt: skip
    assert (message["To"], message["X-Unsent"]) == ("a@example.org", "1")
    assert message.get_body()["Content-Language"] == "fr-CA, en-CA"
    assert message["Subject"] == "Classeur de lavage et de rinçage – Concentrateur nº 2"
    assert book.get_content_type() == (
        "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
    )
    assert (book.get_filename(), book.get_content()) == ("b.xlsx", BOOK)
    assert not message.defects


@pytest.mark.parametrize(
    ("lang", "first", "second"), [("fr", "Bonjour", "Hello"), ("en", "Hello", "Bonjour")]
)
def test_both_languages_stand_there_the_row_s_own_first(spec, lang, first, second):
    message = message_from_bytes(make(spec, lang=lang), policy=default)
    text = message.get_body().get_content()
    assert text.startswith(f"{first} Érablière Exemple,")
    assert text.index(first) < text.index(second)
    assert text.count("b.xlsx") == 2
    assert text.count("Concentrateur nº 2") == 2
    assert "yellow cells" in text
    assert "cellules jaunes" in text
    assert "{" not in text


def test_a_row_without_address_or_names_has_a_message_too(spec):
    message = message_from_bytes(make(spec, machine=Machine()), policy=default)
    assert message["To"] is None
    assert message["Subject"].endswith("– b.xlsx")
    assert message.get_body().get_content().startswith("Bonjour,")


def test_the_same_row_gives_the_same_bytes_in_lines_that_mail_allows(spec):
    data = make(spec)
    assert data == make(spec)
    assert b"\n" not in data.replace(b"\r\n", b"")
    assert max(map(len, data.split(b"\r\n"))) < 100


def test_a_title_cannot_add_a_header_or_fill_in_marks(spec):
    title = "{file} =?utf-8?q?=0ABcc:_x?="
    message = message_from_bytes(make(spec, machine=Machine(title)), policy=default)
    assert message["Bcc"] is None
    assert f": {title}." in message.get_body().get_content().replace("\u00a0", "")
