"""The XML of a workbook file as small records: cells, names, sheets, tokens, areas."""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import Any

from lxml import etree
from openpyxl.formula.tokenizer import Token, Tokenizer
from openpyxl.formula.translate import Translator
from openpyxl.utils.cell import coordinate_to_tuple, get_column_letter, range_boundaries

MAIN = "{http://schemas.openxmlformats.org/spreadsheetml/2006/main}"
DRAWING = "{http://schemas.openxmlformats.org/drawingml/2006/main}"
CHART = "{http://schemas.openxmlformats.org/drawingml/2006/chart}"
SPREAD = "{http://schemas.openxmlformats.org/drawingml/2006/spreadsheetDrawing}"
RELATION = "{http://schemas.openxmlformats.org/officeDocument/2006/relationships}"
PLAIN_AREA = re.compile(r"(?:'((?:[^']|'')+)'|(\w+))!(\$[A-Z]+\$\d+(?::\$[A-Z]+\$\d+)?)")

Spot = tuple[int, int]  # row and column, both from 1
Element = Any  # the XML library has no types


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing that a rule does not accept."""

    place: str
    what: str
    found: object
    expected: object

    def __str__(self) -> str:
        return f"{self.place}: {self.what}, found {self.found}, expected {self.expected}"


Findings = Iterator[Finding]


@dataclass(frozen=True, slots=True)
class Cell:
    """One cell element; `kind` is its type in the file, `formula` None where it has none."""

    spot: Spot
    address: str
    style: int
    kind: str
    formula: str | None
    array: bool
    value: str | None


@dataclass(frozen=True, slots=True)
class Name:
    """One defined name; `scope` is the number of its sheet, or empty."""

    name: str
    text: str
    scope: str
    hidden: bool


@dataclass(frozen=True, slots=True)
class Sheet:
    title: str
    state: str
    part: str
    root: Element
    cells: tuple[Cell, ...]

    def place(self, address: str) -> str:
        return f"{self.title}!{address}"


@lru_cache(maxsize=256)
def parse(xml: bytes) -> Element:
    """Return the root element of a part; nobody changes it."""
    return etree.fromstring(xml, etree.XMLParser(resolve_entities=False, huge_tree=False))


@lru_cache(maxsize=256)
def read_cells(xml: bytes) -> tuple[Cell, ...]:
    """Return the cells of a sheet, a formula that a run of cells shares spelled out in each."""
    heads: dict[str, Translator] = {}
    return tuple(read_cell(item, heads) for item in parse(xml).iter(f"{MAIN}c"))


def read_cell(item: Element, heads: dict[str, Translator]) -> Cell:
    formula, value = item.find(f"{MAIN}f"), item.find(f"{MAIN}v")
    address, style = item.get("r"), int(item.get("s", "0"))
    text = None if formula is None else read_formula(formula, address, heads)
    array = formula is not None and formula.get("t", "normal") not in {"normal", "shared"}
    stored = None if value is None else value.text or ""
    spot = coordinate_to_tuple(address)
    return Cell(
        spot, address, style, item.get("t", "n"), text, array or "cm" in item.attrib, stored
    )


def read_formula(formula: Element, address: str, heads: dict[str, Translator]) -> str:
    """Return a cell's formula; the first of those that share one holds it, and is kept."""
    share, text = formula.get("si"), formula.text or ""
    if share is None:
        return text
    if formula.get("ref"):
        heads[share] = Translator(f"={text}", address)
    return str(heads[share].translate_formula(address)).removeprefix("=")


@cache
def tokens(formula: str) -> tuple[Token, ...]:
    return tuple(Tokenizer(f"={formula}").items)


@cache
def split(formula: str) -> tuple[tuple[str, str, str], ...]:
    """Return type, subtype and text of the tokens of a formula, each once."""
    return tuple(dict.fromkeys((t.type, t.subtype, t.value) for t in tokens(formula)))


@cache
def find_area(text: str) -> tuple[str, tuple[Spot, ...]] | None:
    """Return title and cells of one absolute area, or None for anything else."""
    hit = PLAIN_AREA.fullmatch(text)
    if hit is None:
        return None
    title = (hit[1] or hit[2]).replace("''", "'")
    return title, tuple(list_spots(hit[3].replace("$", "")))


def list_spots(area: str) -> list[Spot]:
    """Return the cells of one or more areas such as `B2:B9 D4`."""
    found = []
    for one in area.split():
        left, top, right, bottom = range_boundaries(one)
        found += [(row, col) for row in range(top, bottom + 1) for col in range(left, right + 1)]
    return found


def write_spot(spot: Spot) -> str:
    return f"{get_column_letter(spot[1])}{spot[0]}"


def resolve(folder: str, target: str) -> str:
    """Return the full name of a part that a relation names."""
    if target.startswith("/"):
        return target[1:]
    steps = f"{folder}/{target}".split("/")
    while ".." in steps:
        place = steps.index("..")
        del steps[place - 1 : place + 1]
    return "/".join(steps)


def is_on(word: str | None) -> bool:
    return word in {"1", "true"}


def is_unlocked(xf: Element) -> bool:
    """Tell whether a format lets its cells be typed into."""
    protection = xf.find(f"{MAIN}protection")
    return protection is not None and not is_on(protection.get("locked", "1"))
