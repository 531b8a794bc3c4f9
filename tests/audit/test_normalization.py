"""Spellings that programs change when they save, and those that change the meaning."""

from datetime import datetime

import pytest

from builder.audit.normalization import normalize_formula, normalize_target, normalize_value


@pytest.mark.parametrize(
    ("found", "expected"),
    [
        ("=IF(TRUE(),1,0)", "=IF(TRUE,1,0)"),
        ("=0.00000000000001008*2", "=1.008E-14*2"),
        ("=1E5+x_n", "=100000+x_n"),
        ("=Entrées!$B$5", "='Entrées'!$B$5"),
        ("='Pipe run'!B5", "='pipe run'!b5"),
        ("= SUM( A1, A2 )", "=SUM(A1,A2)"),
        ("=_xlfn.IFNA(A1,0)", "=IFNA(A1,0)"),
        ("=sum(pipe_l)", "=SUM(pipe_L)"),
    ],
)
def test_same_formula_in_two_spellings(found: str, expected: str) -> None:
    assert normalize_formula(found) == normalize_formula(expected)


@pytest.mark.parametrize(
    ("found", "expected"),
    [
        ("=A1+B1", "=A1-B1"),
        ("=A1*1000", "=A1*1000.0000001"),
        ("=$A$1", "=A1"),
        ('=IF(A1="TRUE",1,0)', "=IF(A1=TRUE,1,0)"),
        ('="a b"', '="ab"'),
        ('="OK"', '="ok"'),
        ("=A1<2", "=A1<=2"),
        ("=MAX(A1,0)", "=MIN(A1,0)"),
    ],
)
def test_another_formula_stays_another(found: str, expected: str) -> None:
    assert normalize_formula(found) != normalize_formula(expected)


def test_formula_that_no_tokenizer_reads_stays_as_it_is() -> None:
    assert normalize_formula('="open') == '="open'


@pytest.mark.parametrize(
    ("target", "expected"),
    [
        ("'Pipe run'!$B$5", "Pipe run!B5"),
        ("Entrées!$B$5", "Entrées!B5"),
        ("'It''s'!$B$5", "It's!B5"),
        ("Lists!$A$1:$A$3", "Lists!$A$1:$A$3"),
        ("0.5", "0.5"),
    ],
)
def test_target_of_a_name_has_one_spelling(target: str, expected: str) -> None:
    assert normalize_target(target) == expected


def test_relative_target_is_not_taken_for_the_absolute_cell() -> None:
    assert normalize_target("Lists!A$1") == "Lists!A$1"
    assert normalize_target("Lists!A1") != normalize_target("Lists!$A$1")


def test_date_typed_by_accident_is_its_serial_number() -> None:
    assert normalize_value(datetime(2026, 3, 1)) == 46082.0
