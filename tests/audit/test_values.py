"""Stored against recalculated values, with and without a second engine."""

import io
from pathlib import Path

import openpyxl
import pytest

from audit.edits import edit_cell, lines, swap_in_cell
from audit.small import write_small
from builder.audit.book import Book, read_book
from builder.audit.normalization import CellValue
from builder.audit.recalculation import run_ironcalc
from builder.audit.values import Values, agree, audit_values, is_error


def test_wrong_stored_number_is_a_fault_naming_both_values(audit, fresh) -> None:
    report = audit(swap_in_cell(fresh, "Pipe run!D8", "<v>20.26", "<v>20.27"))
    place, text = lines(report)[0].split(": ")
    assert place == "Pipe run!D8 pipe_L"
    assert text.startswith("value, found 20.27")
    assert text.endswith("(ironcalc)")
    assert (report.formulas, report.agree) == (12, 11)


def test_wrong_stored_word_is_a_fault(audit, fresh) -> None:
    changed = swap_in_cell(fresh, "Pipe run!D9", "<v>ok</v>", "<v>stop</v>")
    assert lines(audit(changed)) == [
        "Pipe run!D9 rinse_ok: value, found 'stop', expected 'ok' (ironcalc)"
    ]


def test_deep_audit_finds_the_same_fault_with_both_engines(audit, fresh) -> None:
    found = lines(audit(swap_in_cell(fresh, "Pipe run!D9", "<v>ok</v>", "<v>no</v>"), deep=True))
    assert [line.rpartition(" ")[2] for line in found] == ["(ironcalc)", "(formulas)"]


def test_missing_stored_value_of_one_cell_is_a_fault(audit, fresh) -> None:
    changed = swap_in_cell(fresh, "Pipe run!D9", "<v>ok</v>", "")
    text = "value, found nothing, expected 'ok' (ironcalc)"
    assert lines(audit(changed)) == [f"Pipe run!D9 rinse_ok: {text}"]


def test_error_value_is_a_fault_even_where_engines_agree(audit, fresh) -> None:
    cell = '<c r="D10" t="e"><f>1/0</f><v>#DIV/0!</v></c>'
    changed = edit_cell(fresh, "Pipe run!D10", lambda _: cell)
    assert "Pipe run!D10: value, found error #DIV/0!, expected none" in lines(audit(changed))


@pytest.mark.parametrize("deep", [False, True])
def test_file_of_a_library_gets_one_warning_and_is_judged_all_the_same(audit, deep) -> None:
    book = openpyxl.load_workbook(io.BytesIO(write_small("en", "us", {}, {})))
    book["Pipe run"]["B4"] = 5
    book["Pipe run"]["B5"] = None
    target = io.BytesIO()
    book.save(target)
    report = audit(target.getvalue(), deep=deep)
    assert report.faults == []
    assert [str(warning) for warning in report.warnings] == [
        "no stored values: open the file in a spreadsheet program and save it there"
    ]
    assert report.agree == 12


@pytest.mark.parametrize(
    ("found", "expected", "same"),
    [
        (1.0, 1.0 + 9e-10, True),
        (1.0, 1.0 + 2e-9, False),
        (1e9, 1e9 + 2, False),
        (0.0, 9e-13, True),
        (0.0, 2e-12, False),
        (None, 0.0, False),
        (True, 1.0, False),
        ("ok", "OK", False),
        (None, None, True),
    ],
)
def test_numbers_agree_to_nine_digits_and_all_else_exactly(
    found: CellValue, expected: CellValue, same
) -> None:
    assert agree(found, expected) is same


@pytest.mark.parametrize("code", ["#DIV/0!", "#N/A", "#NAME?", "#REF!", "#ERROR!", "#CIRC!"])
def test_error_codes_are_recognised(code: str) -> None:
    assert is_error(code)


@pytest.mark.parametrize("word", ["#1", "no. #2!", "ok", None, 1.0])
def test_words_are_no_errors(word: CellValue) -> None:
    assert not is_error(word)


def recalculate(data: bytes, run) -> Values:
    return audit_values(read_book(Path("back.xlsx"), data), {}, {"other": run})


def test_cell_that_an_engine_leaves_out_is_a_fault(fresh) -> None:
    def leave_out(book: Book) -> dict[str, CellValue]:
        found = run_ironcalc(book)
        del found["Pipe run!D8"]
        return found

    values = recalculate(fresh, leave_out)
    assert [str(fault).split(", ")[-1] for fault in values.faults] == ["left out by other"]
    assert len(values.confirmed) == 11


def test_engine_that_fails_is_a_fault_and_confirms_nothing(fresh) -> None:
    class PanicError(BaseException):
        pass

    def fail(_book: Book) -> dict[str, CellValue]:
        raise PanicError("stuck")

    values = recalculate(fresh, fail)
    text = "other cannot calculate the workbook, found PanicError: stuck, expected values"
    assert [str(fault) for fault in values.faults] == [text]
    assert values.confirmed == set()
