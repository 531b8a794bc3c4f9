"""Makes the book and the message of one row; what somebody else has written is left alone."""

from collections.abc import Callable
from dataclasses import dataclass, field
from hashlib import sha256
from pathlib import Path
from typing import Protocol

from builder import __version__
from builder.exchange.given import RefusalError
from builder.exchange.machine import Machine
from builder.exchange.output import write_file
from builder.problems import UserError
from builder.roster.mail import write_message
from builder.roster.manifest import Record
from builder.roster.roster import Row
from builder.spec.editions import digest_words
from builder.spec.specification import Spec

BUILT, KEPT, FAULTY, FAILED = "built", "kept", "faulty", "failed"
FINE = (BUILT, KEPT)


class Press(Protocol):
    """Builds the books of one language and one system of units."""

    def build(self, machine: Machine) -> bytes:
        """Return the file of one machine."""


@dataclass(frozen=True, slots=True)
class Order:
    """One row to be made: where its book goes, what stood there, and what may be overwritten."""

    row: Row
    path: Path
    listed: Record
    with_mail: bool
    force: bool

    def write(self, path: Path, content: bytes, listed: str) -> None:
        """Write a file, unless a foreign one stands there and is not to be overwritten."""
        if not self.force:
            refuse_change(path, content, listed)
        write_file(path, content)


@dataclass(frozen=True, slots=True)
class Outcome:
    """What became of an order."""

    status: str
    sha256: str = ""
    size: int = 0
    message_sha256: str = ""
    code: str = ""
    text: str = ""
    remedy: str = ""


@dataclass(frozen=True, slots=True)
class Workshop:
    """Makes one order after another; the presses that it has opened stay open."""

    spec: Spec
    open_press: Callable[[Spec, str, str], Press]
    presses: dict[tuple[str, str], Press] = field(default_factory=dict)
    specs: dict[str, str] = field(default_factory=dict)

    def make(self, order: Order) -> Outcome:
        """Make book and message of one row; nothing that goes wrong ends the batch."""
        try:
            return self.deliver(order) if not order.row.problems else Outcome(FAULTY)
        except RefusalError as error:
            return Outcome(FAILED, code=error.code, text=error.text, remedy=error.remedy)
        except (OSError, UserError) as error:
            remedy = "Check the folder, its permissions and the room on the disk."
            return Outcome(FAILED, code="not-written", text=str(error), remedy=remedy)
        except Exception as error:
            text = f"this is a defect of the program: {' '.join(repr(error).split())}."
            remedy = "The other rows go on; `rinsebook build --debug` with this machine shows more."
            return Outcome(FAILED, code="not-built", text=text, remedy=remedy)

    def deliver(self, order: Order) -> Outcome:
        """Build what is new, keep what is not, and never touch what somebody else has written."""
        listed, row = order.listed, order.row
        fresh = (listed.version, listed.specs_digest, listed.input_hash)
        unchanged = fresh == (__version__, self.name_specs(row.lang), row.digest)
        if unchanged and listed.sha256 and hash_file(order.path) == listed.sha256:
            status, book = KEPT, order.path.read_bytes() if order.with_mail else b""
            digest, size = listed.sha256, listed.size
        else:
            book = self.find_press(row.lang, row.units).build(row.machine)
            order.write(order.path, book, listed.sha256)
            status, digest, size = BUILT, sha256(book).hexdigest(), len(book)
        if not order.with_mail:
            return Outcome(status, digest, size, listed.message_sha256)
        message = write_message(row, order.path.name, book, self.spec)
        order.write(order.path.with_suffix(".eml"), message, listed.message_sha256)
        return Outcome(status, digest, size, sha256(message).hexdigest())

    def name_specs(self, lang: str) -> str:
        """Return the fingerprints of all that the specs put into books of a language."""
        if lang not in self.specs:
            self.specs[lang] = f"{self.spec.digest} {digest_words(self.spec, lang)}"
        return self.specs[lang]

    def find_press(self, lang: str, units: str) -> Press:
        """Return the press of a language and a system of units, opened once."""
        if (lang, units) not in self.presses:
            self.presses[lang, units] = self.open_press(self.spec, lang, units)
        return self.presses[lang, units]


def refuse_change(path: Path, content: bytes, listed: str) -> None:
    """Raise RefusalError where something stands that this program has not written.

    A file with the same content is ours even where a run was cut short before it was listed.
    """
    found = hash_file(path)
    if found in ("", listed, sha256(content).hexdigest()):
        return
    if listed:
        text = f"{path} was changed after it was built, and is kept as it is."
        remedy = "Somebody may have typed into it: move it away, or add --force to overwrite it."
        raise RefusalError("file-changed", text, remedy)
    text = f"{path} stands there, and the manifest does not list it."
    raise RefusalError("file-exists", text, "Move it away, or add --force to overwrite it.")


def hash_file(path: Path) -> str:
    """Return the SHA-256 of a file, or nothing where there is none."""
    return sha256(path.read_bytes()).hexdigest() if path.exists() else ""
