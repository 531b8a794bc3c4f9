"""Serves one spreadsheet program over standard input and output, one JSON line a request.

It runs under the system's Python, which holds the program's own interface, not under the project's.
"""
# mypy: disable-error-code="import-not-found"

import json
import subprocess
import sys
import tempfile
import time
from itertools import groupby
from pathlib import Path
from typing import Any

import uno
from com.sun.star.beans import PropertyValue
from com.sun.star.connection import NoConnectException

FORMULA_ERROR = 4  # com.sun.star.sheet.FormulaResult.ERROR
PATIENCE_S = 60
Cells = list[list[Any]]  # sheet, row, column and value, counted from 1
FILTERS = {".xlsx": "Calc MS Excel 2007 XML", ".pdf": "calc_pdf_Export"}

PROFILE = """<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry">
<item oor:path="/org.openoffice.Setup/L10N">
<prop oor:name="ooSetupSystemLocale" oor:op="fuse"><value>{}</value></prop></item>
</oor:items>
"""


def setting(name: str, value: object) -> Any:
    """Return a property as the program takes it."""
    item = PropertyValue()
    item.Name, item.Value = name, value
    return item


class Host:
    """One running program with at most one open document."""

    def __init__(self, folder: str, locale: str) -> None:
        """Start the program with a profile of its own in a folder."""
        pipe = Path(folder).name
        user = Path(folder, "profile", "user")
        user.mkdir(parents=True)
        (user / "registrymodifications.xcu").write_text(PROFILE.format(locale), encoding="utf-8")
        self.process = subprocess.Popen(
            [
                "soffice",
                f"-env:UserInstallation={Path(folder, 'profile').as_uri()}",
                "--headless",
                "--norestore",
                f"--accept=pipe,name={pipe};urp;",
            ],
            stdin=subprocess.DEVNULL,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )
        self.desktop = self.connect(pipe)
        self.document: Any = None
        self.sheets: dict[str, Any] = {}

    def connect(self, pipe: str) -> Any:
        """Return the program's desktop as soon as it answers."""
        local = uno.getComponentContext()
        resolver = local.ServiceManager.createInstanceWithContext(
            "com.sun.star.bridge.UnoUrlResolver", local
        )
        deadline = time.monotonic() + PATIENCE_S
        while True:
            try:
                remote = resolver.resolve(f"uno:pipe,name={pipe};urp;StarOffice.ComponentContext")
                break
            except NoConnectException:
                if time.monotonic() > deadline:
                    raise
                time.sleep(0.1)
        return remote.ServiceManager.createInstanceWithContext("com.sun.star.frame.Desktop", remote)

    def open(self, path: str) -> None:
        """Open a file in place of the present one; nothing is recalculated by request."""
        self.close()
        hidden = (setting("Hidden", True),)
        self.document = self.desktop.loadComponentFromURL(Path(path).as_uri(), "_blank", 0, hidden)
        self.sheets = {sheet.Name: sheet for sheet in self.document.Sheets}

    def close(self) -> None:
        """Close the document, if there is one."""
        if self.document is not None:
            self.document.close(True)
            self.document = None

    def find(self, sheet: str, row: int, col: int) -> Any:
        """Return a cell; rows and columns count from 1."""
        return self.sheets[sheet].getCellByPosition(col - 1, row - 1)

    def find_column(self, sheet: str, col: int, first: int, last: int) -> Any:
        """Return part of a column; rows and columns count from 1."""
        return self.sheets[sheet].getCellRangeByPosition(col - 1, first - 1, col - 1, last - 1)

    def put(self, cells: Cells) -> None:
        """Set cells, runs of a column at once; texts stay texts, and what depends follows."""
        cells = sorted(cells, key=lambda cell: (cell[0], cell[2], cell[1]))
        for _, run in groupby(enumerate(cells), lambda n: (n[1][0], n[1][2], n[1][1] - n[0])):
            column = [cell for _, cell in run]
            sheet, first, col, _ = column[0]
            area = self.find_column(sheet, col, first, column[-1][1])
            area.setDataArray(tuple(("" if cell[3] is None else cell[3],) for cell in column))

    def solve(self, cells: Cells) -> dict[str, Any]:
        """Set cells, work out every formula afresh, and return all values and where errors are."""
        self.put(cells)
        self.recalculate()
        return {"values": self.read(), "errors": self.errors()}

    def answer(self, cells: Cells, columns: list[list[Any]]) -> list[Any]:
        """Set cells, work out what depends on them, and return columns; an error is None."""
        self.put(cells)
        return [[row[0] for row in self.find_column(*c).getDataArray()] for c in columns]

    def strike(self, cells: Cells) -> None:
        """Enter texts as keys struck on a keyboard: the program decides what they are."""
        for sheet, row, col, keys in cells:
            self.find(sheet, row, col).FormulaLocal = keys

    def recalculate(self) -> None:
        """Work out every cell again, whether it needs it or not."""
        self.document.calculateAll()

    def read(self) -> dict[str, Any]:
        """Return what all cells of each sheet show, row by row."""
        values = {}
        for sheet in self.document.Sheets:
            cursor = sheet.createCursor()
            cursor.gotoEndOfUsedArea(False)
            last = cursor.RangeAddress
            area = sheet.getCellRangeByPosition(0, 0, last.EndColumn, last.EndRow)
            values[sheet.Name] = area.getDataArray()
        return values

    def errors(self) -> list[tuple[str, int, int]]:
        """Return sheet, row and column of all cells that show an error."""
        return [
            (sheet.Name, row + 1, col + 1)
            for sheet in self.document.Sheets
            for area in sheet.queryFormulaCells(FORMULA_ERROR).RangeAddresses
            for row in range(area.StartRow, area.EndRow + 1)
            for col in range(area.StartColumn, area.EndColumn + 1)
        ]

    def save(self, path: str) -> None:
        """Write the document in the format that the path ends with."""
        kind = (setting("FilterName", FILTERS[Path(path).suffix]),)
        self.document.storeToURL(Path(path).as_uri(), kind)

    def stop(self) -> None:
        """End the program."""
        self.close()
        try:
            self.desktop.terminate()
        finally:
            try:
                self.process.wait(timeout=PATIENCE_S)
            except subprocess.TimeoutExpired:
                self.process.kill()


def serve(host: Host) -> None:
    """Answer requests of the form [method, arguments...] until standard input ends."""
    for line in sys.stdin:
        method, *arguments = json.loads(line)
        try:
            answer = {"answer": getattr(host, method)(*arguments)}
        except Exception as error:  # the asking side shows it
            answer = {"error": f"{type(error).__name__}: {error}"}
        print(json.dumps(answer), flush=True)


if __name__ == "__main__":
    with tempfile.TemporaryDirectory(prefix="office") as folder:
        host = Host(folder, sys.argv[1])
        try:
            serve(host)
        finally:
            host.stop()
