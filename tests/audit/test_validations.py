"""Drop-downs and limits: the same in other areas and spellings, changed, lost, or one too many."""

import pytest
from openpyxl.worksheet.datavalidation import DataValidation

from audit.edits import swap
from builder.audit.normalization import describe_validation, normalize_formula
from builder.audit.pages import Rule
from builder.audit.validations import Gap, compare_rules

RUN = "xl/worksheets/sheet1.xml"
LIST = "list =Lists!$A$7:$A$8, else stop"


def rules(**areas: str) -> list[Rule]:
    return [Rule(area, text, text) for area, text in areas.items()]


def gaps(found: dict[str, str], expected: dict[str, str]) -> list[Gap]:
    return list(compare_rules(rules(**found), rules(**expected)))


def test_same_rule_cut_into_other_areas_is_no_gap() -> None:
    assert gaps({"A1:A3": "x", "A4:B4": "x"}, {"A1:A4": "x", "B4": "x"}) == []


@pytest.mark.parametrize(
    ("found", "expected", "gap"),
    [
        ({"A1:A4": "y"}, {"A1:A4": "x"}, Gap("A1:A4", "y", "x")),
        ({"A1:A2": "x", "A3": "y", "A4": "x"}, {"A1:A4": "x"}, Gap("A3", "y", "x")),
        ({"A1:A2": "x"}, {"A1:A4": "x"}, Gap("A3:A4", "", "x")),
        ({"A1:A4": "x", "C1": "y"}, {"A1:A4": "x"}, Gap("C1", "y", "")),
        ({"A1:XFD1048576": "x"}, {"A1:A4": "x"}, Gap("A1:XFD1048576", "x", "")),
    ],
)
def test_other_rule_is_told_with_its_cells(found, expected, gap: Gap) -> None:
    assert gaps(found, expected) == [gap]


def describe(**settings: object) -> str:
    return describe_validation(DataValidation(showErrorMessage=True, **settings), normalize_formula)


@pytest.mark.parametrize(
    ("ours", "saved"),
    [
        (
            {"type": "list", "formula1": "Lists!$A$1:$A$2"},
            {"type": "list", "formula1": "'lists'!$A$1:$A$2", "operator": "equal", "formula2": "0"},
        ),
        ({"type": None}, {"type": None, "operator": "between", "formula1": "0", "formula2": "0"}),
        (
            {"type": "decimal", "operator": "greaterThan", "formula1": "-1000.0"},
            {"type": "decimal", "operator": "greaterThan", "formula1": "-1000", "formula2": "0"},
        ),
    ],
)
def test_what_programs_fill_in_is_no_change(ours, saved) -> None:
    assert describe(**ours) == describe(**saved, errorStyle="stop")


@pytest.mark.parametrize(
    "change",
    [
        {"type": "whole"},
        {"operator": "notBetween"},
        {"formula1": "1"},
        {"formula2": "8"},
        {"errorStyle": "warning"},
        {"showErrorMessage": False},
    ],
)
def test_other_kind_limit_or_strictness_is_a_change(change) -> None:
    ours = {"type": "decimal", "formula1": "0", "formula2": "9", "showErrorMessage": True}
    told = [
        describe_validation(DataValidation(**rule), normalize_formula)
        for rule in (ours, ours | change)
    ]
    assert told[0] != told[1]


def test_changed_source_of_a_drop_down_is_a_fault_that_changes_no_result(audit, fresh) -> None:
    changed = swap(fresh, RUN, "Lists!$A$7:$A$8<", "Lists!$A$7:$A$9<")
    found = "list =Lists!$A$7:$A$9, else stop"
    text = f"validation of C2, found {found}, expected {LIST}; changes no result"
    assert [str(fault) for fault in audit(changed).faults] == [
        f"Pipe run!C2 pipe_bore_mm_typed_unit: {text}"
    ]


def test_drop_down_moved_to_another_cell_is_lost_and_one_too_many(audit, fresh) -> None:
    report = audit(swap(fresh, RUN, 'sqref="C2"', 'sqref="C9"'))
    text = f"validation of C9, found {LIST}, expected none; changes no result"
    assert [str(fault) for fault in report.faults] == [f"Pipe run!C9: {text}"]
    assert ["lost in C2" in str(warning) for warning in report.warnings] == [True]
