"""Formats of cells that differ from a cell's own in one thing only: damage that no value shows."""

from copy import deepcopy

from lxml import etree

from proof.lint_book import Book
from proof.lint_edits import STYLES, rewrite
from proof.lint_looks import PAPER, read_color
from proof.lint_xml import MAIN, Element, is_unlocked

TWINS = 4
NOTHING, WORD = ";;;", '"ok";"ok";"ok";"ok"'
NOTHING_ID, WORD_ID = "900", "901"


def turn_lock(style: int, count: int) -> int:
    """Return the format with the other lock; `count` is the number of formats of the sound file."""
    return count + TWINS * style


def hide(style: int, count: int) -> int:
    """Return the format that shows nothing."""
    return count + TWINS * style + 1


def disguise(style: int, count: int) -> int:
    """Return the format that shows a word for any number."""
    return count + TWINS * style + 2


def fade(style: int, count: int) -> int:
    """Return the format with ink like its ground."""
    return count + TWINS * style + 3


def add_twins(data: bytes) -> bytes:
    """Return the file with four more formats for each: no cell uses them yet."""
    book = Book(data)
    root = deepcopy(book.styles)
    formats, fonts = root.find(f"{MAIN}cellXfs"), root.find(f"{MAIN}fonts")
    for number, code in ((NOTHING_ID, NOTHING), (WORD_ID, WORD)):
        attributes = {"numFmtId": number, "formatCode": code}
        etree.SubElement(root.find(f"{MAIN}numFmts"), f"{MAIN}numFmt", attributes)
    for xf in list(formats):
        unlocked, hidden, disguised, faded = twins = [deepcopy(xf) for _ in range(TWINS)]
        set_lock(unlocked, str(int(is_unlocked(xf))))
        hidden.set("numFmtId", NOTHING_ID)
        disguised.set("numFmtId", WORD_ID)
        faded.set("fontId", str(len(fonts)))
        fonts.append(dye(fonts[int(xf.get("fontId"))], find_ground(book, xf)))
        formats.extend(twins)
    return rewrite(data, {**book.parts, STYLES: etree.tostring(root, xml_declaration=True)})


def set_lock(xf: Element, locked: str) -> None:
    for old in xf.findall(f"{MAIN}protection"):
        xf.remove(old)
    xf.set("applyProtection", "1")
    etree.SubElement(xf, f"{MAIN}protection", {"locked": locked})


def find_ground(book: Book, xf: Element) -> str:
    fill = book.styles.find(f"{MAIN}fills")[int(xf.get("fillId", "0"))].find(f"{MAIN}patternFill")
    solid = fill is not None and fill.get("patternType") == "solid"
    return read_color(book, fill.find(f"{MAIN}fgColor"), PAPER) if solid else PAPER


def dye(font: Element, color: str) -> Element:
    dyed = deepcopy(font)
    dyed.find(f"{MAIN}color").attrib.clear()
    dyed.find(f"{MAIN}color").set("rgb", f"FF{color}")
    return dyed
