"""One wrong formula in each topic: the comparison with the reference names every one of them."""

from dataclasses import replace
from pathlib import Path

import pytest

from builder.calculation import calculate_season
from builder.exchange.machine import Machine
from builder.production import build_workbook
from builder.spec.records import Result
from builder.trial.cases import draw_cases
from workbook.comparison import compare_cases
from workbook.engines import Ironcalc
from workbook.files import read_file

CASES = 30
WITHOUT_FORMULAS = {"machine", "selftest"}


@pytest.fixture(scope="module")
def cases(short_spec):
    return list(draw_cases(short_spec, 20262, CASES))


@pytest.fixture(scope="module")
def wrong(short_spec, cases):
    """Return one result of each topic that is twice what it should be."""
    seasons = [calculate_season(short_spec, case.given, case.rows).values for case in cases]
    found = {}
    for name, quantity in short_spec.quantities.items():
        numbers = [values.get(name) for values in seasons]
        shown = any(isinstance(n, int | float) and n not in (0, 1) for n in numbers)
        if isinstance(quantity, Result) and shown:
            doubled = replace(quantity, formula=f"2*({quantity.formula})")
            found[Path(quantity.place.file).stem] = doubled
    return found


def test_every_topic_with_formulas_has_a_wrong_one(short_spec, wrong):
    topics = {Path(q.place.file).stem for q in short_spec.quantities.values()}
    assert wrong.keys() == topics - WITHOUT_FORMULAS


def test_a_wrong_formula_in_any_topic_is_named(short_spec, wrong, cases, tmp_path):
    broken = {quantity.name: quantity for quantity in wrong.values()}
    spec = replace(short_spec, quantities={**short_spec.quantities, **broken})
    path = tmp_path / "wrong.xlsx"
    path.write_bytes(build_workbook(spec, Machine(), "en", "metric"))
    file = read_file(path)
    differences = compare_cases(cases, Ironcalc(file), file, short_spec)
    named = {text.split(": ")[1] for text in differences if ": workbook" in text}
    assert broken.keys() - named == set()
