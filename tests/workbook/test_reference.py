"""Results, verdicts and worked columns against the Python reference, in three engines."""

from itertools import islice

import pytest

from builder.exchange.machine import Machine
from builder.production import build_workbook
from builder.trial.cases import Case, draw_cases
from workbook.cases import change_demo, list_blanks, list_choices, list_corners
from workbook.comparison import compare_cases, compare_values, listed
from workbook.engines import Ironcalc, OfficeBook
from workbook.files import read_file

SEED = 20283


def few(spec, count):
    """Return the defaults, and one third each of corners, blanks and random cases."""
    inputs = sum(1 for _ in list_blanks(spec))
    step = 3 * inputs // count
    return [
        Case("nothing typed"),
        *islice(list_corners(spec), 0, None, 2 * step + 1),
        *islice(list_blanks(spec), 0, None, step),
        *draw_cases(spec, SEED + 1, count // 3),
    ]


def test_addresses_for_names_change_nothing(fast):
    differences = compare_values(fast.solve({}), fast.file.stored)
    assert not differences, listed(differences)


CASES = {
    "defaults and choices": lambda spec: [Case("nothing typed"), *list_choices(spec)],
    "each input at its limits": list_corners,
    "each input left blank": list_blanks,
    "random machines": lambda spec: draw_cases(spec, SEED, 200),
}


@pytest.mark.parametrize("list_cases", CASES.values(), ids=CASES)
def test_machines_equal_the_reference(fast, short_spec, list_cases):
    differences = compare_cases(list_cases(short_spec), fast, fast.file, short_spec)
    assert not differences, listed(differences)


def test_random_machines_with_the_longest_logs_equal_the_reference(books, spec):
    file = books("fr")
    cases = draw_cases(spec, SEED + 2, 12)
    differences = compare_cases(cases, Ironcalc(file), file, spec, "fr")
    assert not differences, listed(differences)


def test_a_selection_in_formulas_equals_the_reference(slow, short_spec):
    engine = slow("en")
    differences = compare_cases(few(short_spec, 9), engine, engine.file, short_spec)
    assert not differences, listed(differences)


@pytest.mark.parametrize(("lang", "count"), [("en", 30), ("fr", 9)])
def test_a_selection_in_the_office_program_equals_the_reference(office, books, spec, lang, count):
    file = books(lang)
    differences = compare_cases(few(spec, count), OfficeBook(office, file), file, spec, lang)
    assert not differences, listed(differences)


@pytest.mark.parametrize("units", ["us", "imperial"])
def test_examples_converted_to_other_units_equal_the_reference(short_spec, tmp_path, units):
    path = tmp_path / "book.xlsx"
    path.write_bytes(build_workbook(short_spec, Machine(), "en", units))
    file = read_file(path)
    cases = [change_demo(short_spec, units, reader_units=units)]
    differences = compare_cases(cases, Ironcalc(file), file, short_spec)
    assert not differences, listed(differences)
