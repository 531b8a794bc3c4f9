"""A missing program is told as a failure, never as a skip, and the rest runs."""

import re
import subprocess
import sys
from pathlib import Path

import pytest

from workbook.engines import Office
from workbook.tools import MissingToolError, is_there, list_missing, require

TESTS = Path(__file__).resolve().parents[1]
NEEDY = "workbook/test_whole_book.py::test_the_office_program_recalculates_only_when_told"
OTHER = "exchange/test_output.py"
OFFICE = "LibreOffice (soffice) is missing; install it with: sudo apt-get install "


def test_each_missing_program_has_a_sentence_with_its_package(monkeypatch):
    monkeypatch.setenv("PATH", "")
    monkeypatch.setattr("workbook.tools.SYSTEM_PYTHON", "/nowhere/python3")
    assert [line.rpartition(" ")[2] for line in list_missing("soffice", "uno", "pdftotext")] == [
        "libreoffice-calc-nogui",
        "python3-uno",
        "poppler-utils",
    ]


def test_a_python_without_the_module_does_not_do(monkeypatch):
    monkeypatch.setattr("workbook.tools.SYSTEM_PYTHON", sys.executable)
    assert not is_there("uno")


def test_the_office_program_is_not_started_where_it_is_missing(monkeypatch):
    monkeypatch.setenv("PATH", "")
    with pytest.raises(MissingToolError, match=r"LibreOffice .* is missing"):
        Office()


def test_what_is_there_is_not_missed():
    require("soffice", "uno", "pdftotext")


def test_a_run_without_it_fails_tells_it_at_the_end_and_runs_the_rest():
    told = subprocess.run(
        [sys.executable, "-m", "pytest", "-p", "no:cacheprovider", NEEDY, OTHER],
        cwd=TESTS,
        env={"PATH": "/nowhere"},
        capture_output=True,
        text=True,
        check=False,
    )
    assert told.returncode == 1
    assert re.search(r"^\d+ passed, 1 error in ", told.stdout, re.MULTILINE)
    _, _, end = told.stdout.partition("! PROGRAMS ARE MISSING, AND WHAT NEEDS THEM FAILS !")
    assert OFFICE in end
    assert f"ERROR {NEEDY}" in end
