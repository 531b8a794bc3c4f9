"""Formulas without bound reach no engine; all of our own do."""

from pathlib import Path

import pytest

from audit.edits import put
from builder.audit.book import read_book
from builder.audit.hazards import count_cells, keep_safe
from builder.audit.names import spell_out


@pytest.mark.parametrize(
    "formula",
    [
        "=COMBIN(1E15,5E14)",
        "=bessely(1,1E9)",
        "=_xlfn.BASE(1E15,2,1E9)",
        "=SUM(A1:XFD1048576)",
        "=SUM(A:A)",
        "=SUM($A:$XFD)",
        "=SUM(1:9)",
        "=SUM(a1:b999999)",
        "=SUMPRODUCT(A1:A9000*B1:Z1)",
        f"={'(' * 65}1{')' * 65}",
        f"={'{' * 65}1{'}' * 65}",
        f"={'-' * 257}1",
        *(f"=1{link * 257}" for link in ("+1", "^1", "%", "=1")),
        "=LEN(" + '"' + "x" * 8_200 + '")',
        "=cmd|'/c calc'!A0+NOW()",
    ],
)
def test_a_formula_without_bound_is_left_out(formula: str) -> None:
    assert keep_safe({"S!A1": formula, "S!A2": "=1+1"}) == {"S!A2": "=1+1"}


@pytest.mark.parametrize(
    "formula",
    [
        "=IF(COUNT(B3)<1,\"COMBIN(1:2\",SUM('Sheet (1:9)'!A1:B200))",
        "=" + "+".join(["(1)"] * 200),
        "=_xlfn.SUM(1)",
    ],
)
def test_texts_sheets_and_many_brackets_side_by_side_are_no_hazard(formula: str) -> None:
    assert keep_safe({"S!A1": formula}) == {"S!A1": formula}


def test_areas_across_each_other_span_a_table() -> None:
    assert count_cells("=A1:A100*B1:Z1") == 2_500
    assert count_cells("=SUM(A1:A100)+SUM(B1:B100)") == 200
    assert count_cells("=A1+B1") == 1


def test_many_formulas_that_are_each_bounded_are_bounded_together() -> None:
    formulas = {f"S!A{n}": "=SUM(A1:J2000)" for n in range(2_000)}
    assert len(keep_safe(formulas)) == 1_000


def test_no_formula_of_our_own_books_is_left_out(built) -> None:
    formulas = spell_out(read_book(Path("book.xlsx"), built["en", "metric"]))
    assert keep_safe(formulas) == formulas


def test_an_audit_tells_of_the_cell_and_of_all_that_it_leaves_out(audit) -> None:
    faults = [str(f) for f in audit(put("COMBIN(1E15,5E14)"), deep=True).faults]
    assert any("COMBIN" in fault for fault in faults)
    assert any("value, found 3, left out by ironcalc" in fault for fault in faults)
    assert any("value, found 3, left out by formulas" in fault for fault in faults)


@pytest.mark.parametrize("formula", [")(", "((", "{1", '"'])
def test_what_is_no_formula_is_a_fault_and_no_end_of_the_audit(audit, formula: str) -> None:
    assert any("Pipe run!D8" in str(fault) for fault in audit(put(formula)).faults)
