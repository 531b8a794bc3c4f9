"""The Python reference against results, verdicts and constants."""

from dataclasses import replace
from pathlib import Path

import pytest

from audit.edits import swap
from audit.small import build_small, small_spec
from builder.audit.reference import is_near
from builder.audit.report import audit_file
from builder.spec.records import Result, Tolerance
from builder.spec.specification import Spec


def change_spec(name: str, **changes) -> Spec:
    spec = small_spec()
    changed = replace(spec.quantities[name], **changes)
    return replace(spec, quantities={**spec.quantities, name: changed})


def audit_against(spec: Spec, folder: Path) -> list[str]:
    path = folder / "back.xlsx"
    path.write_bytes(build_small("en", "metric"))
    return [str(fault) for fault in audit_file(path, spec, build_small, deep=False).faults]


def test_formula_that_differs_from_its_reference_is_a_fault(tmp_path: Path) -> None:
    # the workbook, pristine or not, works out a volume; this reference gives another
    spec = change_spec(
        "pipe_L",
        reference="rinse.rinse_by_holdup_L",
        arguments={"rinse_factor_n": "pipe_length_m", "holdup_adopted_L": "pipe_length_m"},
    )
    found = audit_against(spec, tmp_path)
    expected = "value, found 20.2682991639, expected 100 (Python reference)"
    assert found == [f"Pipe run!D8 pipe_L: {expected}"]


def test_verdict_that_differs_from_its_reference_is_shown_in_the_books_words(
    tmp_path: Path,
) -> None:
    # this reference asks for a ratio that the small spec has not: missing, where the book says ok
    found = audit_against(change_spec("rinse_ok", reference="element.wound_ok"), tmp_path)
    expected = "value, found 'ok', expected 'to fill in' (Python reference)"
    assert found == [f"Pipe run!D9 rinse_ok: {expected}"]


def test_changed_verdict_word_is_a_fault(audit, fresh) -> None:
    words = swap(fresh, "xl/sharedStrings.xml", ">look<", ">glance<")
    assert [str(fault) for fault in audit(words).faults] == [
        "Lists!A2 word_look_txt: constant, found 'glance', expected 'look'; changes no result"
    ]


def test_blank_verdict_word_is_a_fault(audit, fresh) -> None:
    blank = swap(fresh, "xl/sharedStrings.xml", ">stop<", "><")
    text = "Lists!A3 word_stop_txt: word for stop, found nothing, expected a text"
    assert text in [str(fault) for fault in audit(blank).faults]


def test_constant_that_differs_from_its_reference_is_a_fault(tmp_path: Path) -> None:
    found = audit_against(change_spec("mm2m_per_L", value=1001.0), tmp_path)
    text = "constant, found 1001.0, expected 1000.0 (Python reference)"
    assert f"Pipe run!D7 mm2m_per_L: {text}" in found


def test_constant_without_reference_is_a_fault(tmp_path: Path) -> None:
    found = audit_against(change_spec("mm2m_per_L", reference="holdup.NOWHERE"), tmp_path)
    text = "constant, found 1000, expected none (Python reference)"
    assert f"Pipe run!D7 mm2m_per_L: {text}" in found


def test_quantity_that_no_cell_bears_is_a_fault(tmp_path: Path) -> None:
    spec = small_spec()
    twin = replace(spec.quantities["pipe_L"], name="twin_L")
    assert isinstance(twin, Result)
    wider = replace(spec, quantities={**spec.quantities, "twin_L": twin})
    expected = ["twin_L: defined name, found none, expected one: not compared"]
    assert audit_against(wider, tmp_path) == expected


@pytest.mark.parametrize(
    ("found", "expected", "tolerance", "near"),
    [
        (11.7, 11.7 + 1e-8, None, True),
        (11.7, 11.7 + 1e-7, None, False),
        (11.7, 11.7009, Tolerance(abs=0.001), True),
        (11.7, 11.7011, Tolerance(abs=0.001), False),
        (1e6, 1e6 + 9, Tolerance(rel=1e-5), True),
        (0.0, 1e-13, None, True),
        (None, None, None, True),
        (None, 0.0, Tolerance(abs=1.0), False),
        ("#N/A", "#N/A", None, False),
        (float("nan"), 1.0, None, False),
    ],
)
def test_result_is_near_within_nine_digits_or_its_own_tolerance(
    found, expected, tolerance, near
) -> None:
    assert is_near(found, expected, tolerance) is near
