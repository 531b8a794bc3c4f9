"""How wide words are in the book's font, where they break, and how high their rows must be.

No program that opens the file fits a row to words that wrap: the file must say each height itself.
"""

import unicodedata
from collections.abc import Iterable
from functools import cache

FONT, POINTS = "Arial", 10
SIZES = {
    "title": 16,
    "section": 11,
    "link": 11,
    "typed": 11,
    "typed_word": 11,
    "typed_unit": 11,
    "typed_date": 11,
    "headline": 12,
    "fault": 11,
    "caption": 11,
    "answer": 26,
    "answer_word": 12,
    "detail": 14,
    "card_bearer": 14,
    "safety_band": 14,
    "safety_line": 14,
    "card_band": 14,
    "card_line": 14,
    "card_number": 20,
    "card_word": 14,
    "card_unit": 14,
    "strip_number": 14,
    "box": 14,
    "small_wrapped": 9,
}
BOLD = {
    "title",
    "section",
    "head_wrapped",
    "head_number_wrapped",
    "headline",
    "sentence",
    "fault",
    "caption",
    "answer",
    "answer_word",
    "detail",
    "card_bearer",
    "safety_band",
    "safety_line",
    "card_band",
    "card_number",
    "card_word",
    "strip_number",
}
# Widths of the letters of Arial in thousandths of its size; accents add nothing to a letter.
GROUPS = {
    191: "'",
    222: "ijl‘’",
    278: " !,./:;I[\\]ft·|\N{NO-BREAK SPACE}\N{NARROW NO-BREAK SPACE}",
    333: "()-`r²³“”{}",
    389: '*"°^•',
    500: "Jcksvxyz",
    584: "+<=>~±×÷≤≥−",
    611: "FTZ",
    667: "&ABEKPSVXY",
    722: "CDHNRUw",
    778: "GOQ",
    833: "Mm",
    944: "W%œ",
    1015: "@—…←→Œ☐",
}
GLYPHS = {letter: width for width, letters in GROUPS.items() for letter in letters}
USUAL, BOLDER = 556, 1.08  # any other letter; the bold letters beside the plain ones
SPARE = 1.06  # programs differ so much in the width that they give to a column
DIGIT_PX, EDGE_PX, INSET_PX = 7, 5, 8  # of a column: a digit, its edges, what words keep free
PX_PER_POINT = 96 / 72
LEADING, RIM = 1.275, 2.0
ROW_POINTS, MOST_POINTS = 15.0, 409.0


def column_px(width: float) -> float:
    """Return how wide a column of so many digits is on the screen."""
    return DIGIT_PX * width + EDGE_PX


def room_px(width: float) -> float:
    """Return how much of a column words may fill."""
    return column_px(width) - INSET_PX


@cache
def measure_glyphs(words: str) -> int:
    """Return how wide words are in thousandths of the size of the font."""
    plain = unicodedata.normalize("NFD", words)
    return sum(GLYPHS.get(c, USUAL) for c in plain if not unicodedata.combining(c))


def measure_px(words: str, look: str) -> float:
    """Return how wide words are on the screen in the font of a look."""
    return scale_glyphs(measure_glyphs(words), look)


def scale_glyphs(glyphs: int, look: str) -> float:
    """Return how wide so many thousandths of the size are on the screen in the font of a look."""
    heavy = BOLDER if look in BOLD else 1.0
    return glyphs / 1000 * SIZES.get(look, POINTS) * PX_PER_POINT * heavy * SPARE


def break_words(words: str, look: str, room: float) -> list[str]:
    """Return the lines of words in a room; a word that is wider than the room breaks inside."""
    lines: list[str] = []
    line, filled = "", 0
    for word in words.split(" "):
        wide = measure_glyphs(word)
        longer = filled + GLYPHS[" "] + wide if line else wide
        if scale_glyphs(longer, look) <= room:
            line, filled = f"{line} {word}" if line else word, longer
            continue
        if line:
            lines.append(line)
        *full, line = break_inside(word, look, room)
        filled = measure_glyphs(line)
        lines += full
    return [*lines, line]


def break_inside(word: str, look: str, room: float) -> list[str]:
    """Return the pieces of one word that fit."""
    pieces, filled = [""], 0
    for letter in word:
        filled += measure_glyphs(letter)
        if pieces[-1] and scale_glyphs(filled, look) > room:
            pieces.append("")
            filled = measure_glyphs(letter)
        pieces[-1] += letter
    return pieces


def spread_words(words: str, look: str, room: float, rows: int) -> list[str]:
    """Break words into so many lines, about as long as each other where they need fewer."""
    lines = break_words(words, look, room)
    if len(lines) < rows:
        narrow = max(measure_px(word, look) for word in words.split(" "))
        steps = range(int(narrow) + 1, int(room), DIGIT_PX)
        even = (break_words(words, look, float(step)) for step in steps)
        lines = next((found for found in even if len(found) <= rows), lines)
    return lines + [""] * (rows - len(lines))


def fit_row(texts: Iterable[tuple[str, str, float]]) -> float:
    """Return the height in points of a row with these words, each in its look and column width."""
    heights = [ROW_POINTS]
    for words, look, width in texts:
        lines = len(break_words(words, look, room_px(width)))
        heights.append(fit_lines(lines, look))
    return round(min(max(heights), MOST_POINTS), 2)


def fit_lines(lines: int, look: str) -> float:
    """Return the height in points of a row of so many lines in a look."""
    return round(lines * SIZES.get(look, POINTS) * LEADING + RIM, 2)
