"""Which results a difference changes: wrong ones that follow from the cell or the name."""

from pathlib import Path

import pytest

from audit.edits import edit_cell, swap, swap_in_cell
from audit.small import build_small
from builder.audit.book import read_book
from builder.audit.dependence import Dependence, list_operands
from builder.audit.effects import OTHERS, describe

BOOK = "xl/workbook.xml"
RUN = "xl/worksheets/sheet1.xml"


def endings(report) -> dict[str, str]:
    """Return what each fault of structure says of its effect, by cell."""
    told = (fault for fault in report.faults if "; changes" in fault.text)
    return {fault.cell: fault.text.rpartition("; ")[2] for fault in told}


@pytest.mark.parametrize(
    ("part", "old", "new", "cell"),
    [
        (RUN, "pipe_length_m/", "pipe_length_m*2/", "Pipe run!D8"),
        (RUN, "<v>1000</v>", "<v>900</v>", "Pipe run!D7"),
        (BOOK, "'Pipe run'!$D$7", "'Pipe run'!$D$3", "Pipe run!D7"),
        ("xl/worksheets/sheet2.xml", "<v>25.4</v>", "<v>26</v>", "Lists!B8"),
    ],
    ids=["formula", "constant through its name", "name elsewhere", "factor in a list"],
)
def test_change_is_told_the_result_that_follows_from_it(audit, fresh, part, old, new, cell) -> None:
    assert endings(audit(swap(fresh, part, old, new))) == {cell: "changes: pipe_L"}


def test_each_of_two_changes_is_told_its_own_result(audit, fresh) -> None:
    changed = swap(fresh, RUN, "<v>1000</v>", "<v>900</v>")
    changed = swap_in_cell(changed, "Pipe run!D9", "&gt;=10", "&gt;=20")
    assert endings(audit(changed)) == {
        "Pipe run!D7": "changes: pipe_L",
        "Pipe run!D9": "changes: rinse_ok",
    }


def test_name_of_one_sheet_goes_before_that_of_the_whole_workbook(audit, fresh) -> None:
    own = '<definedName name="mm2m_per_L" localSheetId="0">\'Pipe run\'!$D$3</definedName>'
    report = audit(swap(fresh, BOOK, "<definedNames>", f"<definedNames>{own}"))
    assert endings(report) == {"Pipe run": "changes: pipe_L"}
    assert any("expected 202" in fault.text for fault in report.faults)


def test_what_a_cell_follows_from_is_found_through_dollars_names_and_other_spellings(fresh) -> None:
    book = read_book(
        Path("small.xlsx"), swap_in_cell(fresh, "Pipe run!D8", "D2,", "'PIPE RUN'!$d$2,")
    )
    behind = Dependence(book, book.cells).follow_back(["Pipe run!D8"])
    assert {"Pipe run!D2", "Pipe run!B2", "Lists!B8", "pipe_length_m", "Pipe run!D7"} <= behind
    assert "Pipe run!B4" not in behind


def test_formula_that_only_shows_something_changes_no_result_but_what_is_shown(audit) -> None:
    changed = swap_in_cell(build_small("en", "us", {"B5": 7}), "Pipe run!E5", "B5*1", "B5*2")
    assert endings(audit(changed)) == {"Pipe run!E5": "changes no result, but what is shown"}


@pytest.mark.parametrize(
    ("cell", "told"),
    [('<c r="D3"/>', "changes: pipe_L"), ('<c r="D3"><v>10</v></c>', "changes no result")],
)
def test_deleted_formula_changes_a_result_and_its_value_in_its_place_none(
    audit, fresh, cell, told
) -> None:
    assert endings(audit(edit_cell(fresh, "Pipe run!D3", lambda _: cell))) == {"Pipe run!D3": told}


def test_result_is_compared_on_what_was_typed_and_not_on_the_default(audit, fresh) -> None:
    # ten rinses are as many as the rule of the altered formula asks for, and nine are not
    rule = swap_in_cell(fresh, "Pipe run!D9", "&gt;=10", "&gt;=9.5")
    nine = swap_in_cell(rule, "Pipe run!B4", "<v>12</v>", "<v>10</v>")
    assert endings(audit(nine)) == {"Pipe run!D9": "changes no result"}
    assert endings(audit(swap_in_cell(nine, "Pipe run!D9", "9.5", "10.5"))) == {
        "Pipe run!D9": "changes: rinse_ok"
    }


def test_formula_in_a_typed_cell_is_one_fault_and_its_results_count_as_changed(
    audit, fresh
) -> None:
    report = audit(swap_in_cell(fresh, "Pipe run!B3", "<v>10</v>", "<f>5+5</f><v>10</v>"))
    assert endings(report) == {"Pipe run!B3": "changes: pipe_L"}
    assert (len(report.faults), report.warnings) == (1, [])


@pytest.mark.parametrize(
    ("names", "words"),
    [
        ([], "changes no result"),
        ([OTHERS], "changes no result, but what is shown"),
        (["a_L", OTHERS], "changes: a_L"),
        (list("abcde"), "changes: a, b, c, d, e"),
        (list("abcdefg"), "changes: a, b, c, d, e and 2 more"),
    ],
)
def test_at_most_five_results_are_named(names: list[str], words: str) -> None:
    assert describe(names) == words


def test_operands_are_cells_areas_and_names_but_neither_texts_nor_functions() -> None:
    formula = "=IF(A1=\"B2\",SUM('It''s'!$C$1:$C$9),pipe_L*2)"
    assert list_operands(formula) == ["A1", "'It''s'!$C$1:$C$9", "pipe_L"]
    assert list_operands('="open') == []
