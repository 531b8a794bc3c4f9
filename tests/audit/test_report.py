"""The report as a whole: a sound workbook, strange ones, and the shape that scripts read."""

from pathlib import Path

import pytest

from audit.edits import swap
from audit.small import build_small
from builder import __version__
from builder.audit.findings import Finding
from builder.problems import UserError

CUSTOM = "docProps/custom.xml"


@pytest.mark.parametrize("deep", [False, True])
@pytest.mark.parametrize("lang", ["en", "fr"])
def test_fresh_workbook_has_no_finding_and_every_formula_agrees(audit, lang, deep) -> None:
    report = audit(build_small(lang, "us"), deep=deep)
    assert (report.faults, report.warnings) == ([], [])
    assert report.agree == report.formulas == 12


def test_json_has_exactly_the_shape_of_the_contract(audit, fresh, tmp_path: Path) -> None:
    assert audit(fresh).to_json() == {
        "file": str(tmp_path / "back.xlsx"),
        "version": __version__,
        "faults": [],
        "warnings": [],
        "cells": {"formulas": 12, "agree": 12},
    }


def test_findings_in_json_are_the_lines_a_person_reads(audit) -> None:
    report = audit(build_small("en", "us", {"B3": 200}))
    line = "Pipe run!B3 pipe_length_m: typed value, found 200 m, expected 0 to 100 m"
    assert report.to_json()["warnings"] == [line]


def test_finding_without_cell_or_name_is_its_text_alone() -> None:
    assert str(Finding("", "", "odd")) == "odd"


def test_workbook_without_our_properties_is_not_ours(audit, fresh) -> None:
    report = audit(swap(fresh, CUSTOM, 'name="specs"', 'name="other"'))
    assert "document property specs is missing" in str(report.faults[0])
    assert (report.version, report.agree) == (__version__, 0)


def test_unknown_language_is_named(audit, fresh) -> None:
    report = audit(swap(fresh, CUSTOM, ">en<", ">de<"))
    expected = "language: not a workbook of this program: found 'de', expected en or fr"
    assert [str(fault) for fault in report.faults] == [expected]


def test_version_that_is_none_is_quoted_and_short(audit, fresh) -> None:
    odd = swap(fresh, CUSTOM, f">{__version__}<", f">{'0; rm' * 99}<")
    text = str(audit(odd).faults[0])
    assert text.startswith("version: built by version '0; rm0; rm0; rm0; rm' with specs ")


def test_file_that_is_no_workbook_ends_the_audit_with_exit_code_4(audit) -> None:
    with pytest.raises(UserError, match=r"is not an \.xlsx workbook") as raised:
        audit(b"not a zip")
    assert raised.value.exit_code == 4
