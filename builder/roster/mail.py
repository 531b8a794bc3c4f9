"""Writes a message that is ready to be sent, with the workbook attached; nothing is sent."""

import re
from email.message import EmailMessage
from email.policy import SMTP
from hashlib import sha256

from builder.roster.roster import Row
from builder.spec.specification import Spec

BODY = ("mail_attached", "mail_open", "mail_type", "mail_back", "mail_label")
MARK = re.compile(r"\{(machine|file)\}")
TYPE, SUBTYPE = "application", "vnd.openxmlformats-officedocument.spreadsheetml.sheet"
RULE = "-" * 40


def write_message(row: Row, name: str, book: bytes, spec: Spec) -> bytes:
    """Return the message of a row as a file, the same bytes each time."""
    message = EmailMessage(policy=SMTP)
    # The library would decode words that were encoded already, and line ends with them.
    title = find_title(row, name).replace("=?", "= ?")
    message["Subject"] = f"{spec.words['mail_subject'].pick(row.lang)} – {title}"
    if row.recipient:
        message["To"] = row.recipient
    message["X-Unsent"] = "1"
    languages = [row.lang, *(lang for lang in spec.languages if lang != row.lang)]
    texts = [write_text(row, name, lang, spec) for lang in languages]
    message.set_content(f"\n{RULE}\n\n".join(texts), cte="quoted-printable")
    message["Content-Language"] = ", ".join(spec.languages[lang].locale for lang in languages)
    message.add_attachment(book, maintype=TYPE, subtype=SUBTYPE, filename=name)
    # The boundary would be drawn by lot.
    message.set_boundary(f"=_{sha256(book).hexdigest()[:32]}")
    return message.as_bytes()


def find_title(row: Row, name: str) -> str:
    """Return how a message calls the machine."""
    machine = row.machine
    return machine.title or machine.site or machine.producer or name


def write_text(row: Row, name: str, lang: str, spec: Spec) -> str:
    """Return the words of a message in one language."""
    facts = {"machine": find_title(row, name), "file": name}
    hello = f"{spec.words['mail_hello'].pick(lang)} {row.machine.producer}".strip()
    body = [MARK.sub(lambda found: facts[found[1]], spec.words[key].pick(lang)) for key in BODY]
    return "\n\n".join([f"{hello},", *body]) + "\n"
