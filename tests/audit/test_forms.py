"""Each distinct formula is compiled once, and reads nothing but cells of its own workbook."""

import pytest

from audit.edits import put
from builder.audit.forms import FormEngine

HELD = {"S!A1": 2.0, "S!A2": 3.0, "Other sheet!B1": 5.0, "S!A3": True, "S!A4": "E5"}


def solve(formulas: dict[str, str]) -> dict[str, object]:
    return FormEngine(formulas, ["S", "Other sheet"]).solve(HELD)


@pytest.mark.parametrize(
    ("formula", "value"),
    [
        ("=A1+$A$2", 5.0),
        ("=s!a1*'other sheet'!b1", 10.0),
        ("=SUM(A$1:A2)", 5.0),
        ("=SUM(A2:A1)", 5.0),
        ('="A1"&A1', "A12"),
        ('=IF(A4="E5",1E+5,0)', 1e5),
        ("=LOG10(A1*50)", 2.0),
        ("=B7+1", 1.0),
        ("=B7", 0.0),
        ("=1/0", "#DIV/0!"),
        ("=A1>A2", False),
    ],
)
def test_a_formula_shows_what_its_cells_give(formula: str, value: object) -> None:
    assert solve({"S!C1": formula}) == {"S!C1": value}


def test_cells_that_differ_only_in_where_they_point_share_a_form() -> None:
    engine = FormEngine({"S!C1": "=A1*A2+A1", "S!C2": "=A2*C1+A2"}, ["S"])
    assert len(engine.forms) == 1
    assert engine.solve(HELD) == {"S!C1": 8.0, "S!C2": 27.0}


def test_a_truth_is_not_taken_for_the_number_one() -> None:
    formulas = {"S!C1": "=COUNT(A1)", "S!C2": "=COUNT(A3)"}
    engine = FormEngine(formulas, ["S"])
    assert engine.solve({"S!A1": 1.0, "S!A3": True}) == {"S!C1": 1.0, "S!C2": 0.0}


@pytest.mark.parametrize(
    "formula",
    [
        "=[1]S!A1",
        "='[1]S'!A1",
        "='/tmp/[book.xlsx]S'!A1",
        "=Missing!A1",
        "=S:Other!A1",
        "=unknown_name",
        "=Table[column]",
        "=SUM(A:A)",
        "=(1",
    ],
)
def test_what_is_no_cell_of_the_workbook_is_left_out(formula: str) -> None:
    assert solve({"S!C1": formula, "S!C2": "=A1"}) == {"S!C2": 2.0}


def test_a_circle_is_told_with_its_cells(audit) -> None:
    text = "formulas cannot calculate the workbook, found a circle through Pipe run!D8"
    assert any(text in str(fault) for fault in audit(put("D8+1"), deep=True).faults)
