"""Every kind of fault in a spec is found, at its line, in the words that are promised here.

A case is a folder that is laid over the clean specs in `base`; `expected.txt` holds all findings.
"""

from pathlib import Path

import pytest

from builder.problems import ProblemsError
from builder.spec.load import load_spec
from builder.spec.rules import ENTRIES, RELATIONS, Rule

from .folders import BAD, BASE, find_faults, lay_over

CASES = sorted(folder.name for folder in BAD.iterdir())


@pytest.mark.parametrize("case", CASES)
def test_findings_are_exactly_the_expected_ones(case: str, tmp_path: Path) -> None:
    folder = lay_over(BAD / case, tmp_path / "specs")
    assert find_faults(folder) == (BAD / case / "expected.txt").read_text(encoding="utf-8")


def test_specs_that_the_cases_lie_over_are_clean() -> None:
    assert find_faults(BASE) == ""


def test_there_are_at_least_thirty_cases_and_only_the_good_sheet_is_clean() -> None:
    clean = [case for case in CASES if not (BAD / case / "expected.txt").read_text("utf-8")]
    assert len(CASES) >= 30
    assert clean == ["sheet_clean"]


@pytest.mark.parametrize("rule", [*ENTRIES, *RELATIONS], ids=lambda rule: rule.__name__)
def test_each_rule_is_broken_by_some_case(rule: Rule, tmp_path: Path) -> None:
    cases = [case for case in CASES if not case.startswith(("load_", "formula_unreadable"))]
    folders = (lay_over(BAD / case, tmp_path / case) for case in cases)
    assert any(any(rule(load_spec(folder))) for folder in folders)


def test_missing_files_and_folders_are_named(tmp_path: Path) -> None:
    with pytest.raises(ProblemsError, match=r"specs/units.toml:1 no-file units.toml: the file"):
        load_spec(tmp_path)


def test_line_of_a_key_is_that_of_the_nearest_one_around_it() -> None:
    place = load_spec(BASE).quantities["tank_short_L"].place
    assert place.at("arguments", "wash_tank_L") == place.at("arguments") == place.line + 7
    assert place.at("nowhere") == place.line
