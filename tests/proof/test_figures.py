"""The proof goes red when a figure falls, disappears, or a fault is found."""

import pytest

from proof.figures import Better, Figure, Section, find_falls, read_page, write_page

KILLED = Figure("mutants killed, %", 99.5, Better.HIGHER)
WORST = Figure("worst disagreement", 3.2e-11, Better.LOWER)
CELLS = Figure("formula cells", 64000, Better.ANY)


def page(*figures):
    return read_page(write_page([Section("Made up", list(figures))]))


def test_a_kept_page_gives_its_figures_back():
    assert page(KILLED, WORST, CELLS) == {
        "mutants killed, %": 99.5,
        "worst disagreement": 3.2e-11,
        "formula cells": 64000,
    }


@pytest.mark.parametrize(
    ("now", "told"),
    [
        (
            Figure("mutants killed, %", 99.4, Better.HIGHER),
            ["mutants killed, %: was 99.5, is 99.4"],
        ),
        (Figure("mutants killed, %", 99.6, Better.HIGHER), []),
        (
            Figure("another", 1, Better.ANY),
            ["mutants killed, %: was 99.5, is not measured any more"],
        ),
    ],
)
def test_a_figure_that_fell_or_went_is_told(now, told):
    assert list(find_falls([Section("Made up", [now])], page(KILLED))) == told


def test_a_worst_value_that_rose_is_told():
    worse = Figure("worst disagreement", 4e-11, Better.LOWER)
    told = list(find_falls([Section("Made up", [worse])], page(WORST)))
    assert told == ["worst disagreement: was 3.2e-11, is 4e-11"]


def test_the_headline_comes_first_and_changes_no_figure():
    text = write_page([Section("Made up", [KILLED, CELLS])], ["formula cells", "not measured"])
    assert text.index("- formula cells: **64000**") < text.index("## Made up")
    assert read_page(text) == {"mutants killed, %": 99.5, "formula cells": 64000}


def test_a_figure_that_is_printed_rounded_does_not_fall_behind_itself():
    same = Figure("ways provoked, per cent", 5093 / 5151 * 100, Better.HIGHER)
    assert float(same.show()) > same.value
    assert list(find_falls([Section("Made up", [same])], page(same))) == []
