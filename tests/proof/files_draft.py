"""A workbook file in pieces, each of which can be replaced alone; and damage to such pieces."""

import io
import re
import zipfile
from dataclasses import dataclass, replace
from html import escape

from proof.lint_book import Book
from proof.lint_xml import Cell

PIECE = re.compile(
    r'<c r="(?P<cell>[A-Z]+[0-9]+)"(?:[^>]*/>|[^>]*[^/>]>.*?</c>)'
    r"|<(?P<one>row|col|sheetProtection|sheet|calcPr|workbookPr)(?: [^>]*)>"
    r"|<(?P<tag>dataValidation|conditionalFormatting|definedName) "
    r"(?:[^>]*/>|[^>]*[^/>]>.*?</(?P=tag)>)",
    re.DOTALL,
)
SHARED = re.compile(
    r'(?P<head><c r="(?P<cell>[A-Z]+[0-9]+)"[^>]*>)<f t="shared"(?:[^>]*/>|[^>]*[^/>]>[^<]*</f>)'
)


@dataclass(frozen=True, slots=True)
class Sign:
    """How the report should name damage: what is said of a cell, a name, a sheet or an area."""

    place: str
    start: str


@dataclass(frozen=True, slots=True)
class Mutant:
    """One damage: the pieces with their new text, and all that the report should say."""

    kind: str
    place: str
    quantity: str
    changes: dict[str, str]
    signs: tuple[Sign, ...]

    def __str__(self) -> str:
        return ", ".join(part for part in (self.kind, self.place, self.quantity) if part)


class Draft:
    """A workbook file cut into pieces; a cell is called by its place, others by part and number."""

    def __init__(self, data: bytes) -> None:
        """Cut the sheets and the list of names; everything else stays whole.

        Formulas that cells share are spelled out first, so that one can be damaged alone.
        """
        self.book = Book(spell_shares(data))
        self.parts = dict(self.book.parts)
        self.pieces: dict[str, str] = {}
        self.orders: dict[str, list[str]] = {}
        self.labels: dict[str, str] = {}
        for name, (title, spots) in self.book.areas.items():
            for row, column in spots:
                self.labels.setdefault(f"{title}!{row},{column}", name)
        self.titles = {sheet.part: sheet.title for sheet in self.book.sheets}
        for part in ("xl/workbook.xml", "docProps/custom.xml", *self.titles):
            self.orders[part] = self.cut(part)

    def cut(self, part: str) -> list[str]:
        """Cut one part and return the keys of its pieces in their order."""
        text, end, keys = self.parts[part].decode(), 0, []
        for hit in PIECE.finditer(text):
            cell, tag = hit["cell"], hit["one"] or hit["tag"]
            number = len(keys)
            keys += [f"{part} rest {number}"]
            keys += [f"{self.titles[part]}!{cell}" if cell else f"{part} {tag} {number}"]
            self.pieces |= {keys[-2]: text[end : hit.start()], keys[-1]: hit[0]}
            end = hit.end()
        keys.append(f"{part} rest end")
        self.pieces[keys[-1]] = text[end:]
        return keys

    def keys(self, part: str, tag: str) -> list[str]:
        """Return the keys of the pieces of a part that are such elements."""
        return [key for key in self.orders[part] if key.startswith(f"{part} {tag} ")]

    def quantity(self, title: str, cell: Cell) -> str:
        """Return the first name of a cell, or nothing."""
        return self.labels.get(f"{title}!{cell.spot[0]},{cell.spot[1]}", "")

    def write(self, changes: dict[str, str]) -> bytes:
        parts = dict(self.parts)
        for part, keys in self.orders.items():
            if not changes.keys().isdisjoint(keys):
                text = "".join(changes.get(key, self.pieces[key]) for key in keys)
                parts[part] = text.encode()
        return pack(parts)


def spell_shares(data: bytes) -> bytes:
    """Return the file with a formula of its own in each cell that shares one."""
    book = Book(data)
    parts = dict(book.parts)
    for sheet in book.sheets:
        own = {cell.address: cell.formula or "" for cell in sheet.cells}

        def spell_out(hit: re.Match[str], own: dict[str, str] = own) -> str:
            return f"{hit['head']}<f>{escape(own[hit['cell']], quote=False)}</f>"

        parts[sheet.part] = SHARED.sub(spell_out, parts[sheet.part].decode()).encode()
    return pack(parts)


def pack(parts: dict[str, bytes]) -> bytes:
    """Return the file of some parts."""
    target = io.BytesIO()
    with zipfile.ZipFile(target, "w") as archive:
        for name, content in parts.items():
            archive.writestr(name, content)
    return target.getvalue()


def spell(cell: Cell, texts: list[str]) -> str:
    """Return a cell as a file spells it, a text in place."""
    start = f'<c r="{cell.address}" s="{cell.style}"'
    formula = "" if cell.formula is None else f"<f>{escape(cell.formula, quote=False)}</f>"
    if cell.formula is None and cell.kind == "s" and cell.value is not None:
        return tell(cell, texts[int(cell.value)])
    if cell.value is None and not formula:
        return f"{start}/>"
    kind = "" if cell.kind == "n" else f' t="{cell.kind}"'
    value = "" if cell.value is None else f"<v>{escape(cell.value, quote=False)}</v>"
    return f"{start}{kind}>{formula}{value}</c>"


def tell(cell: Cell, text: str) -> str:
    """Return a cell with a text instead of what it holds."""
    inline = f'<is><t xml:space="preserve">{escape(text, quote=False)}</t></is>'
    return f'<c r="{cell.address}" s="{cell.style}" t="inlineStr">{inline}</c>'


def clear(cell: Cell) -> Cell:
    return replace(cell, kind="n", formula=None, value=None)
