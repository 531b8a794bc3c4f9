"""The sum of all checks counts each of them, on whichever sheet its block stands."""

from dataclasses import replace

import pytest

from builder.exchange.machine import Machine
from builder.plan.layout import plan_book
from builder.production import Engine, shorten
from builder.spec.load import find_specs, load_spec

MOVED = "latch_ok"


def move(spec, key):
    """Return the specs with one check in a block of its own on another sheet."""
    sheets = []
    for sheet in spec.sheets:
        blocks = [
            replace(block, rows=[row for row in block.rows if row != MOVED])
            if block.kind == "checks"
            else block
            for block in sheet.blocks
        ]
        if sheet.key == key:
            like = next(b for s in spec.sheets for b in s.blocks if b.kind == "checks")
            blocks.append(replace(like, rows=[MOVED]))
        sheets.append(replace(sheet, blocks=blocks))
    return replace(spec, sheets=sheets)


@pytest.mark.parametrize("key", ["startup", "lists"])
def test_a_check_alone_on_a_sheet_before_or_after_the_others_is_counted(key):
    spec = shorten(load_spec(find_specs()))
    book = plan_book(move(spec, key), Machine(), "en", "metric", {})
    values = Engine().solve(book)
    counts = {n: (a.sheet, a.row, a.col) for n, a in book.names.items() if n.startswith("checks_")}
    kinds = ("stop", "look", "missing", "none")
    told = sum(values[counts[f"checks_{kind}_n"]] for kind in kinds)
    assert values[counts["checks_n"]] == len([n for n in spec.quantities if n.endswith("_ok")])
    assert 0 < told < values[counts["checks_n"]]
