"""What an older workbook holds is carried or told: every case on a workbook of one pipe."""

import io
from dataclasses import replace

import openpyxl
import pytest
from audit.small import build_small, small_spec
from openpyxl.comments import Comment

from builder import __version__
from builder.exchange.given import Typed
from builder.renewal.renewal import pick_reader, renew

EMPTY = Typed(None)


@pytest.fixture
def carry(tmp_path):
    """Return a function that renews the small workbook after cells were typed or changed."""

    def run(typed=None, *, lang="en", change=None, spec=None):
        data = build_small(lang, "metric", typed)
        if change:
            book = openpyxl.load_workbook(io.BytesIO(data))
            change(book)
            target = io.BytesIO()
            book.save(target)
            data = target.getvalue()
        path = tmp_path / "old.xlsx"
        path.write_bytes(data)
        return renew(path, spec or small_spec(), find_places)

    return run


def find_places(_lang, _units):
    """Return all cells that the small workbook has when it is built."""
    book = openpyxl.load_workbook(io.BytesIO(build_small("en", "metric")))
    cells = (cell for sheet in book.worksheets for row in sheet.iter_rows() for cell in row)
    return {f"{cell.parent.title}!{cell.coordinate}" for cell in cells if cell.value is not None}


def tell(renewal):
    return [str(note) for note in renewal.notes]


def test_number_stays_in_the_unit_in_which_it_was_typed(carry):
    renewal = carry({"B2": 3.5, "C2": "in", "B5": 11})
    assert renewal.machine.given["pipe_bore_mm"] == Typed(3.5, unit="in")
    assert tell(renewal) == []


def test_unit_is_read_in_the_language_of_the_workbook(carry):
    renewal = carry({"B2": 3.5, "C2": "PO"}, lang="fr")
    assert (renewal.machine.given["pipe_bore_mm"].unit, renewal.lang) == ("in", "fr")


def test_what_is_usual_is_carried_as_it_was_typed(carry):
    usual = replace(small_spec().quantities["pipe_bore_mm"], usual=50.0)
    spec = replace(small_spec(), quantities={**small_spec().quantities, "pipe_bore_mm": usual})
    renewal = carry({"B2": 50 * (1 + 1e-13), "C2": "mm", "B5": 11}, spec=spec)
    assert renewal.machine.given["pipe_bore_mm"].unit == "mm"


def test_typed_value_wins_over_what_is_usual(carry):
    spec = small_spec()
    length = replace(spec.quantities["pipe_length_m"], usual=12.0)
    spec = replace(spec, quantities={**spec.quantities, "pipe_length_m": length})
    renewal = carry({"B2": 50, "C2": "mm"}, spec=spec)
    assert renewal.machine.given["pipe_length_m"] == Typed(10, unit="m")


def test_number_outside_its_limits_is_carried_and_told(carry):
    renewal = carry({"B2": 50, "C2": "in", "B4": 12.5, "B5": 11})
    given = renewal.machine.given
    assert (given["pipe_bore_mm"].number, given["rinse_volumes_n"].number) == (50, 12.5)
    bore, volumes = tell(renewal)
    assert bore.startswith("outside: Pipe run!B2 pipe_bore_mm: 50 in, carried as it is: ")
    assert bore.endswith("expected 0 to 1000 mm")
    assert volumes.startswith("outside: Pipe run!B4 rinse_volumes_n: 12.5, carried as it is: ")


def test_blanked_cells_stay_blank(carry):
    renewal = carry({"B2": None, "C2": "mm", "B6": None})
    assert {name: typed.number for name, typed in renewal.machine.given.items()} == {
        "pipe_length_m": 10,
        "rinse_volumes_n": 12,
        "rinse_rule": None,
    }
    assert tell(renewal) == []


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ({"B3": "ten"}, "B3 pipe_length_m: “ten”: not a number; left blank"),
        ({"B3": True}, "B3 pipe_length_m: “True”: not a number; left blank"),
        ({"B3": "=2*5"}, "B3 pipe_length_m: =2*5: a formula, which is not worked out here"),
        ({"B6": "=B3"}, "B6 rinse_rule: =B3: a formula, which is not worked out here"),
        ({"B6": 7}, "B6 rinse_rule: 7: choice, found 7.0, expected by volume, by element; left"),
        ({"B3": "a\nb"}, "B3 pipe_length_m: “a\\u000ab”: not a number; left blank"),
    ],
)
def test_what_a_cell_cannot_hold_is_dropped_and_told_in_full(carry, typed, told):
    renewal = carry({"B5": 11, "C2": "mm", "B2": 50, **typed})
    (note,) = tell(renewal)
    assert note.startswith(f"dropped: Pipe run!{told}")
    name = note.split()[3].rstrip(":")
    assert renewal.machine.given.get(name, EMPTY) == EMPTY


def test_number_with_an_unknown_unit_is_dropped_with_its_unit(carry):
    renewal = carry({"B2": 5, "C2": "furlong", "B5": 11})
    assert "pipe_bore_mm" not in renewal.machine.given
    unit, number = tell(renewal)
    told = "unit, found text 'furlong' in Pipe run!C2, expected mm, in"
    assert unit == f"dropped: Pipe run!C2 pipe_bore_mm_typed_unit: “furlong”: {told}"
    assert number == "dropped: Pipe run!B2 pipe_bore_mm: 5: its unit is not known; left blank"


@pytest.mark.parametrize(
    ("lang", "word", "code"),
    [
        ("fr", "Par Élément", "elements"),
        ("en", "by element", "elements"),
        ("fr", "holdup", "holdup"),
    ],
)
def test_choice_is_read_by_its_word_or_its_code(carry, lang, word, code):
    assert carry({"B6": word}, lang=lang).machine.given["rinse_rule"] == Typed(None, code)


def test_choice_is_read_by_the_words_that_the_older_workbook_itself_lists(carry):
    def name_lists(book):
        sheet = book["Lists"]
        sheet["B20"], sheet["C20"], sheet["B21"], sheet["C21"] = (
            "litres",
            "holdup",
            "sums",
            "elements",
        )
        book["Pipe run"]["B6"] = "sums"
        for part, col in (("words", "B"), ("codes", "C")):
            name = f"rinse_rule_{part}"
            target = f"Lists!${col}$20:${col}$21"
            book.defined_names[name] = openpyxl.workbook.defined_name.DefinedName(
                name, attr_text=target
            )

    renewal = carry(change=name_lists)
    assert renewal.machine.given["rinse_rule"] == Typed(None, "elements")


def test_names_of_another_edition_are_told_on_both_sides(carry):
    def rename(book):
        for end in ("_typed", "_typed_unit"):
            defined = book.defined_names.pop(f"pipe_bore_mm{end}")
            defined.name = f"hose_bore_mm{end}"
            book.defined_names[defined.name] = defined

    renewal = carry({"B5": 11}, change=rename)
    assert "pipe_bore_mm" not in renewal.machine.given
    assert tell(renewal) == [
        "new: pipe_bore_mm: not in the older workbook; nothing is usual",
        "dropped: Pipe run!B2 hose_bore_mm_typed: 2: this edition has no such name",
        "dropped: Pipe run!C2 hose_bore_mm_typed_unit: “in”: this edition has no such name",
    ]


@pytest.mark.parametrize("target", ["#REF!", "'Pipe run'!#REF!", "'Pipe run'!$A$1:$XFD$1048576"])
def test_name_that_leads_nowhere_costs_its_value_but_not_in_silence(carry, target):
    def break_name(book):
        book.defined_names["pipe_length_m_typed"].attr_text = target

    told = tell(carry({"B2": 50, "C2": "mm", "B5": 11}, change=break_name))
    assert told == [
        "new: pipe_length_m: not in the older workbook; nothing is usual",
        "dropped: Pipe run!B3: 10: the cell has no name",
    ]


def test_what_was_typed_beside_the_cells_is_told(carry):
    def scribble(book):
        run = book["Pipe run"]
        run["D8"], run["G3"], run["G4"] = 7, "see John", "=B3*2"
        run["B3"].comment = Comment("paced out", "x")

    assert tell(carry({"B2": 50, "C2": "mm", "B5": 11}, change=scribble)) == [
        "dropped: Pipe run!D8 pipe_L: 7: this edition works it out",
        "dropped: Pipe run!B3: comment “paced out”: comments are not carried",
        "dropped: Pipe run!G3: “see John”: not one of the cells to type in",
        "dropped: Pipe run!G4: =B3*2: not one of the cells to type in",
    ]


def test_workbook_of_another_edition_says_what_was_not_looked_at(carry):
    renewal = carry({"B2": 50, "C2": "mm", "B5": 11}, spec=replace(small_spec(), digest="beef"))
    assert renewal.origin == f"edition {__version__} (0123456789ab); this is {__version__} (beef)"
    (note,) = tell(renewal)
    assert note.startswith("unseen: another edition: ")


def test_report_counts_what_was_carried_and_dropped(carry):
    _, carried, dropped, last = carry({"B2": 50, "C2": "mm", "B3": "x", "B5": 11}).report()
    assert carried.startswith("carried: 3 inputs, 1 choice, 0 texts on the machine, ")
    assert dropped.startswith("dropped: Pipe run!B3 ")
    assert last == "dropped: 1 in all"


def test_other_units_for_the_reader_overrule_those_of_the_older_workbook(carry):
    renewal = carry()
    given = {**renewal.machine.given, "reader_units": Typed(None, "us")}
    renewal = pick_reader(
        replace(renewal, machine=replace(renewal.machine, given=given)), "imperial"
    )
    assert (renewal.units, "reader_units" in renewal.machine.given) == ("imperial", False)
