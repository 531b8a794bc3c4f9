"""Only what the plan lets be typed is unlocked; what else a file must be stands in `proof.lint`."""

import pytest

from builder.exchange.machine import Machine
from builder.plan.layout import plan_book
from builder.production import work_case
from workbook.files import show


@pytest.mark.parametrize("lang", ["en", "fr"])
def test_only_typed_cells_are_unlocked(books, spec, lang):
    file = books(lang)
    plan = plan_book(spec, Machine(), lang, "metric", work_case(spec, lang))
    typed = {
        (sheet.title, cell.row + 1, cell.col + 1)
        for sheet in plan.sheets
        for cell in sheet.cells
        if cell.typed
    }
    assert sorted(map(show, file.unlocked ^ typed)) == []
