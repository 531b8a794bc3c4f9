"""Whose number it is: what nobody gave stands in no cell, and the word beside it says so."""

import pytest

from builder.exchange.given import Typed
from builder.exchange.machine import Machine
from builder.plan.inputs import name_state
from builder.plan.layout import plan_book
from builder.production import Engine, shorten
from builder.spec.records import Choice, Input

FEW = {
    "vessels_n": 2.0,
    "elements_per_vessel_n": 1.0,
    "pipe_1_bore_mm": 41.0,
    "pipe_1_length_m": 9.0,
    "rated_flow_Lph": 2000.0,
    "recipe_cleaner_kg": 0.9,
    "recipe_water_L": 55.0,
    "wash_temp_degC": 38.0,
    "floor_pH": 11.0,
    "limit_1_temp_degC": 45.0,
    "limit_1_pH": 12.2,
}


def make(spec, given, **codes):
    typed = {name: Typed(number, unit=spec.quantities[name].unit) for name, number in given.items()}
    return Machine(given=typed | {name: Typed(None, code) for name, code in codes.items()})


@pytest.fixture(scope="module")
def show(spec):
    """Return a function that shows what a name holds in the book of a machine."""
    short = shorten(spec, 2, 2)
    engine = Engine()

    def tell(machine):
        book = plan_book(short, machine, "en", "metric", {})
        values = engine.solve(book)

        def read(name):
            area = book.names[name]
            return values[area.sheet, area.row, area.col]

        return read

    return tell


def test_no_number_stands_in_a_cell_that_nobody_typed_into(spec):
    book = plan_book(shorten(spec, 2, 2), make(spec, {"vessels_n": 2.0}), "en", "metric", {})
    typed = {
        (cell.row, cell.col): cell.number
        for sheet in book.sheets
        for cell in sheet.cells
        if cell.typed and cell.number is not None
    }
    area = book.names["vessels_n_typed"]
    assert typed == {(area.row, area.col): 2.0}


def test_twelve_cells_give_hold_up_wash_and_rinse(spec, show):
    read = show(make(spec, FEW, element_size="8x40"))
    answers = ("holdup_adopted_L", "cleaner_dose_kg", "tank_fill_L", "rinse_target_L")
    assert all(read(name) > 0 for name in answers)
    assert (read("inputs_bad_n"), read("first_rinse_target_L") > 0) == (0, True)


@pytest.mark.parametrize("name", ["vessels_n", "recipe_cleaner_kg", "floor_pH", "rated_flow_Lph"])
def test_what_is_needed_and_missing_says_so_and_is_counted(spec, show, name):
    read = show(make(spec, {key: n for key, n in FEW.items() if key != name}, element_size="8x40"))
    assert read(name_state(name)) == "not filled in"
    assert read("inputs_bad_n") == 1
    assert read("mend_first_txt") == spec.quantities[name].label.pick("en")


def test_what_follows_from_the_size_says_that_it_is_typical(spec, show):
    read = show(make(spec, FEW, element_size="4x40"))
    assert read(name_state("vessel_ends_L")) == "typical"
    assert read("ends_L") == pytest.approx(2 * 1.2)
    assert show(make(spec, FEW))(name_state("vessel_ends_L")) == "not measured"


def test_every_number_with_a_rule_of_practice_is_usual_until_it_is_typed(spec, show):
    blank, typed = show(Machine()), show(make(spec, {"rinse_factor_n": 45.0}))
    for name, quantity in spec.quantities.items():
        if isinstance(quantity, Input | Choice) and quantity.usual is not None:
            usual = (
                quantity.usual if isinstance(quantity, Choice) else pytest.approx(quantity.usual)
            )
            assert (blank(name_state(name)), blank(name)) == ("usual", usual)
    assert (typed(name_state("rinse_factor_n")), typed("rinse_factor_n")) == ("yours", 45.0)


def test_a_number_out_of_range_is_not_replaced_by_what_is_usual(spec, show):
    read = show(make(spec, {"rinse_factor_n": 900.0}))
    assert (read(name_state("rinse_factor_n")), read("rinse_factor_n")) == ("out of range", "")


def test_one_hose_of_a_machine_is_all_its_hoses(spec, show):
    read = show(make(spec, FEW, element_size="8x40"))
    assert read("pipes_L") == pytest.approx(read("pipe_1_L"))
