"""How cells look, as far as it can hide or feign a value: number format, ink and ground."""

import re
from dataclasses import dataclass

from openpyxl.cell.cell import Cell as SourceCell
from openpyxl.cell.cell import MergedCell
from openpyxl.styles.colors import COLOR_INDEX, Color
from openpyxl.styles.differential import DifferentialStyle
from openpyxl.styles.fills import PatternFill

PAPER, INK = "FFFFFF", "000000"
THEME = (PAPER, INK)  # the first two colours of every theme are paper and ink, or nearly so
SOLID = "solid"
DISTINCT = 48  # of 255 steps in one of the three colours
STROKE = re.compile(r"(?<=[dmy])/(?=[dmy])")
SECTIONS = 4  # for numbers above, below and at zero, and for texts


@dataclass(frozen=True, slots=True)
class Look:
    """What a cell's format does to what it holds."""

    number_format: str = "General"
    ink: str = INK
    ground: str = PAPER

    @property
    def faded(self) -> bool:
        """Whether the ink can hardly be told from its ground."""
        pairs = zip(bytes.fromhex(self.ink), bytes.fromhex(self.ground), strict=True)
        return all(abs(one - other) < DISTINCT for one, other in pairs)


class Looks:
    """The looks and locks of one workbook; each format is read once."""

    def __init__(self) -> None:
        """Begin without any."""
        self.known: dict[int, tuple[bool, Look]] = {}

    def read(self, cell: SourceCell | MergedCell) -> tuple[bool, Look]:
        """Return whether a cell is locked, and its look."""
        style = cell.style_id
        if style not in self.known:
            self.known[style] = (bool(cell.protection.locked), read_look(cell))
        return self.known[style]


def read_look(cell: SourceCell | MergedCell) -> Look:
    """Return the look of a cell."""
    fill = cell.fill
    ground = read_color(fill.fgColor, PAPER) if fill.fill_type == SOLID else PAPER
    return Look(normalize_format(cell.number_format), read_color(cell.font.color, INK), ground)


def read_color(color: Color | None, otherwise: str) -> str:
    """Return a colour as six hexadecimal digits; one of the system or of a theme as it may be."""
    if color is None:
        return otherwise
    if color.type == "theme":
        return THEME[color.theme] if color.theme < len(THEME) else otherwise
    found = str(color.rgb)
    if color.type == "indexed":
        found = COLOR_INDEX[color.indexed] if color.indexed < len(COLOR_INDEX) else ""
    digits = found[-6:].upper()
    return digits if len(digits) == 6 and set(digits) <= set("0123456789ABCDEF") else otherwise


def normalize_format(code: str) -> str:
    """Return a number format in one spelling: signs without quotes, all sections or none.

    An empty section for texts is filled in by some programs; for numbers it says the same. So do
    strokes in a date, which one program takes from its country.
    """
    sections = STROKE.sub("-", code.replace('"', "").replace("\\", "")).split(";")
    if len(sections) == SECTIONS - 1:
        sections.append("")
    return ";".join(sections)


def describe_style(style: DifferentialStyle | None) -> str:
    """Return the ink and ground that a state gives to its cells."""
    font, fill = (style.font, style.fill) if style is not None else (None, None)
    ink = read_color(font.color, INK) if font is not None else "its own"
    ground = read_color(fill.bgColor, PAPER) if isinstance(fill, PatternFill) else "its own"
    return f"{ink} on {ground}"
