"""The rinse record: one line a debt, in the order in which they opened; by hand."""

import pytest

from trial.seasons import DAY, on, run, wash

OWED, FIRST = 4000.0, 1500.0  # in force from the first day
SEASON = [
    on(0, "first", rinse_L=1500.0),
    wash(1, 4000.0),
    wash(2),
    run(2, 8.0),
    on(3, "rinse", rinse_L=4000.0),
    on(4, "acid", rinse_L=1000.0),
    on(5, "storage"),
    on(6, "rinse", rinse_L=2000.0),
]


def test_every_debt_has_its_line_in_the_order_of_the_log(book):
    book.play(*SEASON, season_start="stored")
    assert book.column("record_row_n") == [0, 2, 3, 6, 7]
    assert book.column("record_owed_L") == [FIRST, OWED, OWED, OWED, 3000]
    assert book.column("record_done_L") == [1500, 4000, 4000, 1000, 2000]
    assert book.column("record_cleared_d") == [DAY, DAY + 1, DAY + 3]
    assert book.column("record_line_n") == [1] * 5
    assert book.column("record_state_n") == [
        "finished later",
        "enough",
        "sap before the rinse was done",
        "carried on to the next line",
        "not finished",
    ]
    assert book.tell("record_shown_n") == book.tell("record_lines_n") == 5


def test_a_machine_in_use_begins_without_a_line(book):
    book.play(*SEASON, season_start="rinsed")
    assert book.column("record_row_n") == [2, 3, 6, 7]


def test_a_wash_in_the_first_row_takes_over_what_the_stored_machine_owes(book):
    book.play(wash(0, 4000.0), season_start="stored")
    assert book.column("record_state_n") == ["carried on to the next line", "enough"]
    assert book.column("record_done_L") == [0, 4000]


def test_a_rinse_after_the_line_is_cleared_is_no_credit(book):
    book.play(wash(0, 5000.0), on(0, "rinse", rinse_L=1000.0), wash(1))
    assert book.column("record_done_L") == [5000, 0]
    assert book.column("record_owed_L") == [OWED, OWED]


def test_a_rinse_that_is_done_after_the_sap_still_counts_as_done(book):
    book.play(wash(0), run(1, 8.0), on(2, "rinse", rinse_L=4000.0))
    assert book.column("record_state_n") == ["sap before the rinse was done"]
    assert book.column("record_cleared_d") == [DAY + 2]


@pytest.mark.parametrize(("units", "owed"), [("us", 1056.69), ("imperial", 879.88)])
def test_the_printed_volumes_are_in_the_units_of_the_reader(book, units, owed):
    book.play(wash(0, 4000.0), reader_units=units)
    assert book.column("record_asked_n") == [pytest.approx(owed, abs=0.01)]
