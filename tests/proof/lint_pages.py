"""Rules of what a reader holds: print, headings, language, and nothing about who built it."""

import re
from functools import lru_cache

from openpyxl.utils.cell import range_boundaries

from proof.lint_book import Book
from proof.lint_xml import MAIN, Finding, Findings, Sheet, is_on

LETTER = "1"
SHORT_IN, LONG_IN, PX_PER_INCH = 8.5, 11, 96
DIGIT_PX = 7  # of the font of all sheets; widths in a file hold the edges of a column too
MADE_BY, MADE_ON = "rinsebook", "2026-01-01T00:00:00Z"
PRINT_AREA = "_xlnm.Print_Area"
STAMP = (1980, 1, 1, 0, 0, 0)
PATH = re.compile(r"/(?:home|root|tmp|Users|work|var)/|\b[A-Z]:\\|file:/|absPath|@\w+\.\w+")
ZONE = re.compile(r"\b(?:America|Europe|Asia|Etc)/\w+|T\d\d:\d\d:\d\d[+-]\d\d:\d\d")
PERSONAL = ("Company", "Manager", "HyperlinkBase", "lastPrinted", "description", "keywords")
WORDS = {
    "en": re.compile(
        r"\b(?:the|of|and|is|are|with|for|this|that|each|your|which)\b", re.IGNORECASE
    ),
    "fr": re.compile(r"\b(?:le|la|les|des|du|est|et|une|un|avec|pour|cette|chaque|au|aux|votre)\b"),
}


def language_of(book: Book) -> str:
    return book.property.get("language", "")


def the_book_tells_its_language(book: Book) -> Findings:
    """A script and a reader's voice can learn the language, version and units."""
    for key, known in (
        ("language", "en|fr"),
        ("units", "metric|us|imperial"),
        ("version", r"[\d.]+"),
    ):
        found = book.property.get(key, "")
        if not re.fullmatch(known, found):
            yield Finding("properties", key, repr(found), known)


def sheets_speak_one_language(book: Book) -> Findings:
    """The common words of each sheet are of the book's language, none mostly of the other."""
    own = language_of(book)
    for sheet in book.sheets:
        text = " ".join(book.text(cell) for cell in sheet.cells if cell.kind == "s")
        counts = {lang: len(words.findall(text)) for lang, words in WORDS.items()}
        most = max(counts, key=lambda lang: counts[lang])
        if own in counts and counts[most] > counts[own]:
            yield Finding(sheet.title, "language", most, own)


def sheets_begin_with_their_title(book: Book) -> Findings:
    """The first cell of a sheet holds words: where a reader's voice begins."""
    for sheet in book.sheets:
        first = sheet.cells[0]
        if first.spot != (1, 1) or not book.text(first).strip():
            yield Finding(sheet.place("A1"), "title", "nothing", "words")


def headings_are_frozen(book: Book) -> Findings:
    """The head of each sheet stays in sight."""
    for sheet in book.sheets:
        panes = [p for p in sheet.root.iter(f"{MAIN}pane") if p.get("state") == "frozen"]
        if not panes or float(panes[0].get("ySplit", "0")) < 1:
            yield Finding(sheet.title, "head", "not frozen", "frozen")


def sheets_fit_their_paper(book: Book) -> Findings:
    """Every sheet prints on the paper of its readers, no wider than the paper."""
    for sheet in book.sheets:
        page, fit = sheet.root.find(f"{MAIN}pageSetup"), sheet.root.find(f".//{MAIN}pageSetUpPr")
        found = None if page is None else page.get("paperSize")
        if found != LETTER:
            yield Finding(sheet.title, "paper", found, LETTER)
        if fit is None or not is_on(fit.get("fitToPage")):
            width, room = measure_print(book, sheet)
            if width > room:
                yield Finding(sheet.title, "printed width", f"{width:.0f} px", f"<= {room:.0f}")
        elif page is not None and page.get("fitToWidth") == "0":
            yield Finding(sheet.title, "width in pages", 0, ">= 1")


def measure_print(book: Book, sheet: Sheet) -> tuple[float, float]:
    """Return how wide the columns print that are not fitted, and what the margins leave."""
    scope = str(book.sheets.index(sheet))
    area = next(n.text for n in book.all_names if (n.name, n.scope) == (PRINT_AREA, scope))
    last = range_boundaries(area.rpartition("!")[2].replace("$", ""))[2]
    widths = {
        col: float(item.get("width"))
        for item in sheet.root.iter(f"{MAIN}col")
        for col in range(int(item.get("min")), int(item.get("max")) + 1)
    }
    page, margins = (sheet.root.find(MAIN + tag) for tag in ("pageSetup", "pageMargins"))
    across = LONG_IN if page.get("orientation") == "landscape" else SHORT_IN
    room = across - float(margins.get("left")) - float(margins.get("right"))
    grown = int(page.get("scale", "100")) / 100
    return sum(widths[col] for col in range(1, last + 1)) * DIGIT_PX * grown, room * PX_PER_INCH


def prints_repeat_their_heads(book: Book) -> Findings:
    """Every sheet has an area that prints, and rows that stand on each page."""
    own = {(name.name, name.scope) for name in book.all_names}
    for number, sheet in enumerate(book.sheets):
        for key in (PRINT_AREA, "_xlnm.Print_Titles"):
            if (key, str(number)) not in own:
                yield Finding(sheet.title, key.removeprefix("_xlnm."), "none", "one")


def pages_are_numbered(book: Book) -> Findings:
    """The footer of each sheet tells sheet, page and pages."""
    for sheet in book.sheets:
        footer = read_footer(sheet)
        for sign in ("&A", "&P", "&N"):
            if sign not in footer:
                yield Finding(sheet.title, "footer", repr(footer), f"with {sign}")


def read_footer(sheet: Sheet) -> str:
    return str(sheet.root.findtext(f"{MAIN}headerFooter/{MAIN}oddFooter") or "")


def nobody_is_named(book: Book) -> Findings:
    """The file names no author but this program."""
    for part in ("docProps/core.xml", "docProps/app.xml"):
        for item in book.root(part):
            key = re.sub(r"\{.*\}", "", item.tag)
            wrong = key in {"creator", "lastModifiedBy"} and item.text != MADE_BY
            if wrong or (key in PERSONAL and item.text):
                yield Finding(part, key, item.text, MADE_BY if wrong else "nothing")


def dates_are_fixed(book: Book) -> Findings:
    """No date of the file tells when it was built."""
    for item in book.root("docProps/core.xml"):
        if item.tag.endswith(("}created", "}modified")) and item.text != MADE_ON:
            yield Finding("docProps/core.xml", "date", item.text, MADE_ON)
    for entry in book.entries:
        if entry.date_time != STAMP:
            yield Finding(entry.filename, "date", entry.date_time, STAMP)


def no_computer_is_named(book: Book) -> Findings:
    """No part holds a folder, an address or a time zone."""
    for part, content in book.parts.items():
        for trace in find_traces(content):
            yield Finding(part, "trace of a computer", trace, "none")


@lru_cache(maxsize=256)
def find_traces(content: bytes) -> list[str]:
    """Return what a part tells of the computer that made it."""
    text = content.decode("utf-8", "replace")
    hits = [pattern.search(text) for pattern in (PATH, ZONE)]
    return [hit[0] for hit in hits if hit]
