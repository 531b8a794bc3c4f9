"""Rules of sight: contrast of all colours in use, charts with words, formats of no country."""

import re
from collections.abc import Iterator

from proof.lint_book import Book
from proof.lint_xml import CHART, DRAWING, MAIN, SPREAD, Element, Finding, Findings, list_spots

TEXT_CONTRAST, SHAPE_CONTRAST = 4.5, 3.0  # WCAG 2.2, 1.4.3 and 1.4.11, level AA
PAPER = "FFFFFF"
INK = "000000"
THEME = ("lt1", "dk1", "lt2", "dk2", *(f"accent{n}" for n in range(1, 7)), "hlink", "folHlink")
LONGEST_ALT = 255
FOREIGN_FORMAT = re.compile(r"\[\$|\[(?:Red|Blue|Green|Color)|m/d|d/m|AM/PM", re.IGNORECASE)

Pair = tuple[str, str]  # colours of text and ground


def texts_stand_out(book: Book) -> Findings:
    """Every pair of text and ground in use is readable, conditional formats included."""
    for (ink, ground), place in list_pairs(book).items():
        ratio = contrast(ink, ground)
        if ratio < TEXT_CONTRAST:
            what = f"contrast of #{ink} on #{ground}"
            yield Finding(place, what, f"{ratio:.2f}", f">= {TEXT_CONTRAST}")


def list_pairs(book: Book) -> dict[Pair, str]:
    """Return the pairs of text and ground in use, each with one of its places."""
    pairs: dict[Pair, str] = {}
    own = {number: read_pair(book, xf) for number, xf in enumerate(book.formats)}
    for sheet in book.sheets:
        styles = {cell.spot: cell.style for cell in sheet.cells}
        for cell in sheet.cells:
            pairs.setdefault(own[cell.style], sheet.place(cell.address))
        for rule in sheet.root.iter(f"{MAIN}cfRule"):
            area = rule.getparent().get("sqref")
            grounds = {own[styles.get(spot, 0)] for spot in list_spots(area)}
            for pair in grounds:
                pairs.setdefault(read_state(book, rule, pair), sheet.place(area))
    return pairs


def read_pair(book: Book, xf: Element) -> Pair:
    font = book.styles.find(f"{MAIN}fonts")[int(xf.get("fontId", "0"))]
    fill = book.styles.find(f"{MAIN}fills")[int(xf.get("fillId", "0"))].find(f"{MAIN}patternFill")
    solid = fill is not None and fill.get("patternType") == "solid"
    ground = read_color(book, fill.find(f"{MAIN}fgColor"), PAPER) if solid else PAPER
    return read_color(book, font.find(f"{MAIN}color"), INK), ground


def read_state(book: Book, rule: Element, own: Pair) -> Pair:
    """Return the colours of a cell while a conditional format holds."""
    look = book.styles.find(f"{MAIN}dxfs")[int(rule.get("dxfId"))]
    ink = read_color(book, look.find(f"{MAIN}font/{MAIN}color"), own[0])
    return ink, read_color(book, look.find(f"{MAIN}fill/{MAIN}patternFill/{MAIN}bgColor"), own[1])


def read_color(book: Book, item: Element, otherwise: str) -> str:
    """Return a colour as six hexadecimal digits; a colour of the system is ink or paper."""
    if item is None or is_system(item):
        return otherwise
    if item.get("rgb"):
        return str(item.get("rgb"))[-6:].upper()
    scheme = book.root("xl/theme/theme1.xml").find(f".//{DRAWING}clrScheme")
    found = scheme.find(DRAWING + THEME[int(item.get("theme"))])[0]
    return str(found.get("lastClr") or found.get("val")).upper()


def is_system(item: Element) -> bool:
    """Tell whether a colour is left to the reader's system."""
    return not (item.get("rgb") or item.get("theme"))


def contrast(one: str, other: str) -> float:
    """Return the contrast ratio of two colours as WCAG 2.2 defines it."""
    darker, lighter = sorted((luminance(one), luminance(other)))
    return (lighter + 0.05) / (darker + 0.05)


def luminance(color: str) -> float:
    shares = [int(color[at : at + 2], 16) / 255 for at in (0, 2, 4)]
    red, green, blue = (s / 12.92 if s <= 0.04045 else ((s + 0.055) / 1.055) ** 2.4 for s in shares)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def list_charts(book: Book) -> Iterator[tuple[str, Element]]:
    for part in book.parts:
        if part.startswith("xl/charts/"):
            yield part, book.root(part)


def lines_of_charts_stand_out(book: Book) -> Findings:
    """Every line and mark of a chart is seen on paper."""
    for part, root in list_charts(book):
        for color in sorted({i.get("val") for i in root.iter(f"{DRAWING}srgbClr")}):
            ratio = contrast(color, PAPER)
            if ratio < SHAPE_CONTRAST:
                what = f"contrast of #{color} on paper"
                yield Finding(part, what, f"{ratio:.2f}", f">= {SHAPE_CONTRAST}")


def charts_have_words(book: Book) -> Findings:
    """Every picture says in words what it shows."""
    for part in book.parts:
        if part.startswith("xl/drawings/drawing"):
            for item in book.root(part).iter(f"{SPREAD}cNvPr"):
                length = len((item.get("descr") or "").strip())
                if not 20 <= length <= LONGEST_ALT:
                    expected = f"20 to {LONGEST_ALT} letters"
                    yield Finding(part, f"words of {item.get('name')}", length, expected)


def charts_have_titles(book: Book) -> Findings:
    """Every chart has a title."""
    for part, root in list_charts(book):
        heading = root.find(f"{CHART}chart/{CHART}title")
        texts = [] if heading is None else heading.iter(f"{DRAWING}t")
        if not "".join(text.text or "" for text in texts).strip():
            yield Finding(part, "title", "nothing", "words")


def axes_have_titles(book: Book) -> Findings:
    """Every axis of numbers says what it measures, with its unit."""
    for part, root in list_charts(book):
        for axis in root.iter(f"{CHART}valAx"):
            words = "".join(text.text or "" for text in axis.iter(f"{DRAWING}t"))
            if not words.strip():
                number = axis.find(f"{CHART}axId").get("val")
                yield Finding(part, f"title of axis {number}", "nothing", "words")


def lines_of_charts_have_names(book: Book) -> Findings:
    """Where a chart shows more than one line, a legend names each."""
    for part, root in list_charts(book):
        lines = list(root.iter(f"{CHART}ser"))
        words = ["".join(name.itertext()) for line in lines for name in line.iterfind(f"{CHART}tx")]
        named = [word for word in words if word.strip()]
        if len(lines) > 1 and len(named) < len(lines):
            yield Finding(part, "lines with names", len(named), len(lines))
        if len(lines) > 1 and root.find(f".//{CHART}legend") is None:
            yield Finding(part, "legend", "none", "one")


def number_formats_are_of_no_country(book: Book) -> Findings:
    """Number formats hold no country, no colour and no order of days and months of one country."""
    for item in book.styles.iter(f"{MAIN}numFmt"):
        code = item.get("formatCode")
        if FOREIGN_FORMAT.search(code):
            yield Finding("styles", "number format", code, "no country, no colour, ISO dates")
