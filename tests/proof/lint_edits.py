"""Changes of one thing in the XML of a built book."""

import io
import random
import re
import string
import zipfile
from collections.abc import Callable

from proof.lint_book import Book
from proof.lint_xml import is_unlocked, write_spot

Change = Callable[[bytes], bytes]
WORKBOOK, STYLES, STRINGS = "xl/workbook.xml", "xl/styles.xml", "xl/sharedStrings.xml"
SHEET, CHART, DRAWING = r"xl/worksheets/sheet2\.xml", r"xl/charts/chart\d+\.xml", r"xl/drawings/d.*"
FIRST_CELL = r'<c r="A1"( s="\d+") t="s"><v>\d+</v></c>'
LATER = (1999, 12, 31, 0, 0, 0)  # not the stamp of all builds


def rewrite(data: bytes, parts: dict[str, bytes], date: tuple[int, ...] | None = None) -> bytes:
    target = io.BytesIO()
    with zipfile.ZipFile(target, "w", compresslevel=1) as new:
        stamps = {entry.filename: entry.date_time for entry in Book(data).entries}
        for name, content in parts.items():
            stamp = date or stamps.get(name, (1980, 1, 1, 0, 0, 0))
            new.writestr(zipfile.ZipInfo(name, stamp), content, zipfile.ZIP_DEFLATED)
    return target.getvalue()


def edit(part: str, pattern: str, new: str, times: int = 1) -> Change:
    """Return a change of the first part of such a name where the pattern is found."""

    def change(data: bytes) -> bytes:
        parts = Book(data).parts
        for name, content in parts.items():
            text = content.decode("utf-8", "replace")
            if re.fullmatch(part, name) and re.search(pattern, text, re.DOTALL):
                changed = re.sub(pattern, new, text, count=times, flags=re.DOTALL).encode()
                if changed != content:
                    return rewrite(data, {**parts, name: changed})
        raise LookupError(f"{pattern} in {part}")

    return change


def add(part: str, content: str = "<x/>") -> Change:
    return lambda data: rewrite(data, {**Book(data).parts, part: content.encode()})


def formula(text: str) -> Change:
    """Return a change of a formula that stands on every sheet."""
    safe = text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")
    return edit(SHEET, "<f>reader_units_state_txt</f>", f"<f>{safe}</f>")


def name(word: str, leads_to: str, more: str = "") -> Change:
    added = f'<definedName name="{word}"{more}>{leads_to}</definedName></definedNames>'
    return edit(WORKBOOK, "</definedNames>", added)


def title(words: str) -> Change:
    """Return a change that gives the last sheet but two another title, wherever it stands."""
    return lambda data: edit(WORKBOOK, rf"\b{Book(data).titles[-3]}\b", words, times=0)(data)


def free_style(data: bytes) -> int:
    """Return the number of a format that can be typed into."""
    return next(n for n, xf in enumerate(Book(data).formats) if is_unlocked(xf))


def unlock(pattern: str) -> Change:
    """Return a change that lets something be typed into; the pattern ends before the number."""
    return lambda data: edit(SHEET, rf'({pattern})"\d+"', rf'\1"{free_style(data)}"')(data)


def change_third(old: str, new: str) -> Change:
    """Return a change in the third cell of a worked column."""

    def change(data: bytes) -> bytes:
        book = Book(data)
        cell_title, spots = book.areas["log_verdict_list"]
        part = next(sheet.part for sheet in book.sheets if sheet.title == cell_title)
        cell = rf'(<c r="{write_spot(spots[2])}"[^>]*>)' + old
        return edit(re.escape(part), cell, rf"\1{new}")(data)

    return change


def lock_typed(data: bytes) -> bytes:
    spot = write_spot(Book(data).areas["vessels_n_typed"][1][0])
    return edit(SHEET, rf'(<c r="{spot}" s=)"\d+"', r'\1"1"')(data)


def stamp_later(data: bytes) -> bytes:
    return rewrite(data, Book(data).parts, LATER)


def swell(data: bytes) -> bytes:
    """Add texts that cannot be packed."""
    draw = random.Random(5)  # noqa: S311 - no secret
    texts = ("".join(draw.choices(string.ascii_letters, k=30000)) for _ in range(120))
    more = "".join(f"<si><t>{text}</t></si>" for text in texts)
    return edit(STRINGS, "</sst>", f"{more}</sst>")(data)


def speak_french(data: bytes) -> bytes:
    """Put French words in place of the commonest English ones."""
    for old, new in (("the", "les"), ("of", "des"), ("and", "et"), ("is", "est"), ("for", "pour")):
        data = edit(STRINGS, rf"\b{old}\b", new, times=0)(data)
    return data
