"""Serves the office program to the proof: in a locale of its own, a whole set of inputs at a time.

It runs under the system's Python, as the host that it builds on does.
"""

import sys
import tempfile
from itertools import groupby
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "workbook"))

from office_host import FORMULA_ERROR, Host, serve  # type: ignore[import-not-found]

PROFILE = """<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry">
<item oor:path="/org.openoffice.Setup/L10N">
<prop oor:name="ooSetupSystemLocale" oor:op="fuse"><value>{locale}</value></prop>
</item>
</oor:items>
"""


class BatchHost(Host):
    """One running program that takes and gives whole columns at once."""

    def put(self, cells):
        """Set cells, runs of a column at once; texts stay texts, and nothing is worked out yet."""
        self.document.enableAutomaticCalculation(False)  # noqa: FBT003 - the program's own call
        cells = sorted(cells, key=lambda cell: (cell[0], cell[2], cell[1]))
        numbered = enumerate(cells)
        for _, run in groupby(numbered, lambda pair: (*pair[1][::2][:2], pair[1][1] - pair[0])):
            column = [cell for _, cell in run]
            (sheet, first, col, _), last = column[0], column[-1][1]
            area = self.document.Sheets.getByName(sheet).getCellRangeByPosition(
                col - 1, first - 1, col - 1, last - 1
            )
            area.setDataArray(tuple(("" if cell[3] is None else cell[3],) for cell in column))

    def solve(self, cells):
        """Set cells, work out every formula afresh, and return all values and where errors are."""
        self.put(cells)
        self.recalculate()
        return {"values": self.read(), "errors": list(self.find_errors())}

    def find_errors(self):
        """Yield sheet, row and column of each cell that shows an error."""
        for sheet in self.document.Sheets:
            for area in sheet.queryFormulaCells(FORMULA_ERROR).RangeAddresses:
                for row in range(area.StartRow, area.EndRow + 1):
                    for col in range(area.StartColumn, area.EndColumn + 1):
                        yield sheet.Name, row + 1, col + 1


def write_profile(folder, locale):
    """Choose the locale of a profile before the program first starts with it."""
    path = Path(folder, "profile", "user", "registrymodifications.xcu")
    path.parent.mkdir(parents=True)
    path.write_text(PROFILE.format(locale=locale), encoding="utf-8")


if __name__ == "__main__":
    with tempfile.TemporaryDirectory(prefix="office") as folder:
        write_profile(folder, sys.argv[1])
        host = BatchHost(folder)
        try:
            serve(host)
        finally:
            host.stop()
