"""Typed cells: read in the unit beside them, or a warning with value and limits."""

import math

import pytest

from audit.small import Typed, build_small


def warnings(report) -> list[str]:
    return [str(warning) for warning in report.warnings]


@pytest.mark.parametrize(
    ("typed", "expected"),
    [
        (
            {"B3": None},
            "B3 pipe_length_m: typed value, found nothing, expected a number, 0 to 100 m",
        ),
        (
            {"B3": "8,5"},
            "B3 pipe_length_m: typed value, found text '8,5', expected a number, 0 to 100 m",
        ),
        ({"B3": -1}, "B3 pipe_length_m: typed value, found -1 m, expected 0 to 100 m"),
        ({"B2": 40}, "B2 pipe_bore_mm: typed value, found 40 in = 1016 mm, expected 0 to 1000 mm"),
        (
            {"C2": "furlong"},
            "B2 pipe_bore_mm: unit, found text 'furlong' in Pipe run!C2, expected mm, in",
        ),
        ({"C2": None}, "B2 pipe_bore_mm: unit, found nothing in Pipe run!C2, expected mm, in"),
        ({"B4": 11.5}, "B4 rinse_volumes_n: typed value, found 11.5 n, expected whole, 0 to 90 n"),
        (
            {"B6": "by ear"},
            "B6 rinse_rule: choice, found text 'by ear', expected by volume, by element",
        ),
        ({"B5": 15}, "B5 end_pH: typed value, found 15 n, expected 0 to 14 n"),
    ],
)
def test_unusable_input_is_a_warning_and_blank_on_both_sides(audit, typed: Typed, expected) -> None:
    report = audit(build_small("en", "metric", typed))
    assert warnings(report) == [f"Pipe run!{expected}"]
    assert report.faults == []


@pytest.mark.parametrize(
    "typed",
    [
        {"B5": 11.2},
        {"B2": 50, "C2": "mm"},
        {"C2": "IN"},
        {"B6": "BY ELEMENT"},
        {"B3": 100},
        {"B3": 0},
    ],
)
def test_usable_inputs_leave_no_word(audit, typed: Typed) -> None:
    report = audit(build_small("en", "metric", typed))
    assert (report.warnings, report.faults) == ([], [])


def test_limit_reached_through_a_unit_is_within_the_limit(audit) -> None:
    # one bit above 1000 mm, which no spreadsheet program tells from 1000 mm
    inches = math.nextafter(1000 / 25.4, math.inf)
    assert inches * 25.4 > 1000
    report = audit(build_small("en", "metric", {"B2": inches}))
    assert (report.warnings, report.faults) == ([], [])


def test_french_units_and_words_are_read_in_a_french_book(audit) -> None:
    report = audit(build_small("fr", "us", {"C2": "po", "B6": "par élément"}))
    assert (report.warnings, report.faults) == ([], [])


def test_code_of_a_choice_is_as_good_as_its_word(audit) -> None:
    report = audit(build_small("en", "metric", {"B6": "holdup"}))
    assert report.warnings == []
