import tracemalloc

import pytest

from builder.collection.collection import collect_books
from builder.collection.fleet_words import Wording
from exchange.collected import Sample, Shelf, run

FEW, MANY = 15, 75
MOST_GROWTH = 1.5  # a table held in memory would give 4 or more


@pytest.fixture
def shelf(tmp_path, spec):
    shelf = Shelf(tmp_path / "in", spec)
    for number in range(MANY):
        rows = [run(day, tested_pct=90.0, note=f"{number}") for day in range(12)]
        shelf.put(f"{number:04}.xlsx", Sample(title=f"RO {number}", rows=rows))
    return shelf


def measure(shelf, count, out):
    """Return the peak of memory while so many books are collected, less what was there before."""
    paths = [shelf.folder / name for name in sorted(shelf.samples)[:count]]
    tracemalloc.start()
    before, _ = tracemalloc.get_traced_memory()
    collect_books(paths, shelf.audit, out, 1, Wording(shelf.spec, "en"))
    _, peak = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    return peak - before


@pytest.mark.parametrize("suffix", ["csv", "json", "xlsx"])
def test_five_times_the_books_need_hardly_more_memory(shelf, tmp_path, monkeypatch, suffix):
    monkeypatch.setattr("builder.collection.store.CHUNK", 10)
    monkeypatch.setattr("builder.collection.fleet_workbook.MOST_CHARTS", 10)
    out = tmp_path / f"fleet.{suffix}"
    measure(shelf, FEW, out)  # what is loaded once, such as codecs, is there from now on
    few, many = (measure(shelf, count, out) for count in (FEW, MANY))
    assert many / few < MOST_GROWTH
