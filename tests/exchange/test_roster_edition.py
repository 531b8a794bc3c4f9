from pathlib import Path
from types import SimpleNamespace

import pytest

from builder.exchange.machine import Machine, read_machine
from builder.plan.cells import Area, Cell
from builder.production import Edition, Engine, build_workbook, shorten

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"


def test_nothing_of_a_machine_stays_for_the_next(spec):
    short_spec = shorten(spec)
    edition = Edition(short_spec, "fr", "us")
    other = read_machine(EXAMPLES / "eight_in_a_row.toml", short_spec)
    log = [{"day_d": 46000.0, "sap_L": 9000.5, "event": "alkaline"}]
    edition.build(Machine("=1+1", "'text", "12", given=other.given, entries={"log": log}))
    machine = read_machine(EXAMPLES / "two_vessels.toml", short_spec)
    assert edition.build(machine) == build_workbook(short_spec, machine, "fr", "us")


def make_book(*cells, titles=("A", "B b"), **names):
    sheets = [SimpleNamespace(title=title, cells=cells) for title in titles]
    areas = {name: Area("A", row, 0, row, 0) for name, row in names.items()}
    return SimpleNamespace(sheets=sheets, names=areas)


def put(row, **content):
    return Cell(row, 0, "plain", **content)


TOTAL = put(9, formula='=SUM(x_n)&"x_n"&SUM($A$1:$A$9)')
BOOKS = {
    "numbers": make_book(put(0, number=1), put(1, number=2), TOTAL, x_n=1),
    "another number": make_book(put(0, number=5), put(1, number=2), TOTAL, x_n=1),
    "a text": make_book(put(0, number=1), put(1, text="=2+2"), TOTAL, x_n=1),
    "a blank": make_book(put(0, number=1), put(1), TOTAL, x_n=1),
    "a cell less": make_book(put(0, number=1), TOTAL, x_n=1),
    "a cell more": make_book(put(0, number=1), put(1, number=2), put(2, number=3), TOTAL, x_n=1),
    "a formula": make_book(put(0, number=1), put(1, formula="=4*4"), TOTAL, x_n=1),
    "another formula": make_book(put(0, number=1), put(9, formula="=COUNT($A$1:$A$9)"), x_n=1),
    "the name elsewhere": make_book(put(0, number=1), put(1, number=2), TOTAL, x_n=0),
    "other sheets": make_book(put(0, number=1), TOTAL, titles=("A", "C"), x_n=1),
}


@pytest.mark.parametrize("before", BOOKS)
def test_the_engine_solves_a_book_alike_whatever_came_before(before):
    engine = Engine()
    for book in BOOKS.values():
        engine.solve(BOOKS[before])
        assert engine.solve(book) == Engine().solve(book)


def test_names_count_and_texts_stay_texts():
    assert Engine().solve(BOOKS["numbers"])["B b", 9, 0] == "2x_n3"
    assert Engine().solve(BOOKS["a text"])["A", 9, 0] == "0x_n1"
    assert Engine().solve(BOOKS["another formula"])["A", 9, 0] == 1


def test_numbers_are_worked_out_with_the_digits_that_the_file_holds():
    third = make_book(put(0, number=1.3789514586336722), put(1, formula="=A1"))
    assert Engine().solve(third)["A", 1, 0] == 1.378951458633672
