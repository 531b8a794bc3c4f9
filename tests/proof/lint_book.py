"""A workbook file met cold: parts, sheets, cells, names and styles straight from its XML."""

import io
import zipfile
from functools import cached_property

from proof.lint_xml import (
    MAIN,
    RELATION,
    Cell,
    Element,
    Name,
    Sheet,
    Spot,
    find_area,
    is_on,
    is_unlocked,
    parse,
    read_cells,
    resolve,
    split,
)

OWN_NAMES = "_xlnm."  # print areas and print titles: the format's own names, one a sheet


class Book:
    """One workbook file; nothing is calculated, and nothing but the file is asked."""

    def __init__(self, data: bytes) -> None:
        self.data = data
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            self.entries = archive.infolist()
            self.parts = {entry.filename: archive.read(entry) for entry in self.entries}

    def root(self, part: str) -> Element:
        return parse(self.parts[part])

    @cached_property
    def workbook(self) -> Element:
        return self.root("xl/workbook.xml")

    @cached_property
    def styles(self) -> Element:
        return self.root("xl/styles.xml")

    @cached_property
    def sheets(self) -> list[Sheet]:
        links = self.links("xl/workbook.xml")
        found = []
        for item in self.workbook.iter(f"{MAIN}sheet"):
            part = links[item.get(f"{RELATION}id")]
            root, cells = self.root(part), read_cells(self.parts[part])
            found.append(Sheet(item.get("name"), item.get("state", "visible"), part, root, cells))
        return found

    @cached_property
    def titles(self) -> list[str]:
        return [sheet.title for sheet in self.sheets]

    @cached_property
    def names(self) -> list[Name]:
        """Return all defined names but the format's own."""
        return [name for name in self.all_names if not name.name.startswith(OWN_NAMES)]

    @cached_property
    def all_names(self) -> list[Name]:
        return [
            Name(i.get("name"), i.text or "", i.get("localSheetId", ""), is_on(i.get("hidden")))
            for i in self.workbook.iter(f"{MAIN}definedName")
        ]

    @cached_property
    def areas(self) -> dict[str, tuple[str, tuple[Spot, ...]]]:
        """Return the sheet and the cells of each name that leads to cells of one sheet."""
        found = {name.name: find_area(name.text) for name in self.names}
        return {name: area for name, area in found.items() if area and area[0] in self.titles}

    @cached_property
    def strings(self) -> list[str]:
        items = self.root("xl/sharedStrings.xml").iter(f"{MAIN}si")
        return ["".join(part.text or "" for part in item.iter(f"{MAIN}t")) for item in items]

    @cached_property
    def property(self) -> dict[str, str]:
        root = self.root("docProps/custom.xml")
        return {item.get("name"): "".join(item.itertext()) for item in root}

    @cached_property
    def formulas(self) -> list[tuple[str, str]]:
        return [
            (sheet.place(cell.address), cell.formula)
            for sheet in self.sheets
            for cell in sheet.cells
            if cell.formula is not None
        ]

    @cached_property
    def rule_formulas(self) -> list[tuple[str, str]]:
        """Return the formulas of validations and conditional formats with their places."""
        found = []
        for sheet in self.sheets:
            for tag in ("formula", "formula1", "formula2"):
                for item in sheet.root.iter(MAIN + tag):
                    holder = item.getparent()
                    area = holder.get("sqref") or holder.getparent().get("sqref")
                    found.append((sheet.place(area), item.text or ""))
        return found

    @cached_property
    def unlocked(self) -> set[tuple[str, Spot]]:
        """Return the cells that can be typed into while their sheet is protected."""
        free = {number for number, xf in enumerate(self.formats) if is_unlocked(xf)}
        return {(s.title, cell.spot) for s in self.sheets for cell in s.cells if cell.style in free}

    @cached_property
    def formats(self) -> list[Element]:
        return list(self.styles.find(f"{MAIN}cellXfs"))

    @cached_property
    def words(self) -> dict[tuple[str, str], dict[str, list[str]]]:
        """Return the tokens of all formulas: by type, then by text, the places that hold one."""
        found: dict[tuple[str, str], dict[str, list[str]]] = {}
        for place, formula in (*self.formulas, *self.rule_formulas):
            for kind, subtype, value in split(formula):
                places = found.setdefault((kind, subtype), {}).setdefault(value, [])
                places.append(place)
        return found

    def text(self, cell: Cell) -> str:
        """Return what a cell without a formula holds, as text."""
        if cell.kind == "s" and cell.value:
            return self.strings[int(cell.value)]
        return cell.value or ""

    def links(self, part: str) -> dict[str, str]:
        """Return the parts that a part leads to, by the number of the relation."""
        folder, _, name = part.rpartition("/")
        items = self.root(f"{folder}/_rels/{name}.rels")
        return {i.get("Id"): resolve(folder, i.get("Target")) for i in items}
