"""A finished workbook as its reader's program finds it: sheets, links, names and parts."""

import io
import re
import zipfile
from functools import cached_property

import openpyxl
from openpyxl.worksheet.worksheet import Worksheet


class Book:
    """One file in one language."""

    def __init__(self, data: bytes, lang: str) -> None:
        self.data, self.lang = data, lang
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            self.parts = {name: archive.read(name) for name in archive.namelist()}

    @cached_property
    def workbook(self) -> openpyxl.Workbook:
        return openpyxl.load_workbook(io.BytesIO(self.data))

    @cached_property
    def values(self) -> openpyxl.Workbook:
        return openpyxl.load_workbook(io.BytesIO(self.data), data_only=True)

    def show(self, title: str, rows: int) -> list[str]:
        """Return what the first rows of a sheet show."""
        head = self.values[title].iter_rows(max_row=rows, values_only=True)
        return [str(value) for row in head for value in row if value is not None]

    @property
    def sheets(self) -> list[Worksheet]:
        return self.workbook.worksheets

    @property
    def titles(self) -> list[str]:
        return self.workbook.sheetnames

    @cached_property
    def targets(self) -> dict[str, tuple[str, str]]:
        """Return sheet and address of each name."""
        names = {name: item.attr_text for name, item in self.workbook.defined_names.items()}
        parts = {name: text.rpartition("!") for name, text in names.items()}
        return {name: (title.strip("'"), cell) for name, (title, _, cell) in parts.items()}

    @cached_property
    def links(self) -> list[tuple[str, str, str]]:
        """Return sheet, cell and target of each link."""
        return [
            (sheet.title, cell.coordinate, cell.hyperlink.location or cell.hyperlink.target)
            for sheet in self.sheets
            for row in sheet.iter_rows()
            for cell in row
            if cell.hyperlink
        ]


def change(data: bytes, part: str, pattern: str, new: str) -> bytes:
    """Return a file with one thing changed, wherever the first part of such a name holds it."""
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        parts = {name: archive.read(name) for name in archive.namelist()}
    for name, content in parts.items():
        text = re.sub(pattern, new, content.decode("utf-8", "replace"))
        if re.fullmatch(part, name) and text.encode() != content:
            target = io.BytesIO()
            with zipfile.ZipFile(target, "w") as archive:
                for other, old in parts.items():
                    archive.writestr(other, text if other == name else old)
            return target.getvalue()
    raise LookupError(f"{pattern} in {part}")
