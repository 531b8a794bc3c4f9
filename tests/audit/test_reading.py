"""What comes back with a report: typed values by name, and what the reference makes of them."""

from pathlib import Path

import pytest

from audit.edits import edit_cell, swap, swap_in_cell
from audit.small import build_small, small_spec
from builder import __version__
from builder.audit.report import Auditor

CUSTOM = "docProps/custom.xml"
BOOK = "xl/workbook.xml"
NAMES = "<definedNames>"
PIPE_L = 20.26829916389991


def test_typed_values_come_back_in_canonical_units_and_codes(audit, fresh) -> None:
    reading = audit(fresh).reading
    assert reading.given == {
        "pipe_bore_mm": 50.8,
        "pipe_length_m": 10.0,
        "rinse_volumes_n": 12.0,
        "end_pH": None,
        "rinse_rule": "holdup",
    }
    assert reading.values == {"pipe_L": pytest.approx(PIPE_L, rel=1e-12), "rinse_ok": "ok"}
    assert (reading.language, reading.units, reading.version) == ("en", "metric", __version__)


def test_results_are_those_of_the_reference_whatever_the_formulas_say(audit, fresh) -> None:
    changed = swap_in_cell(fresh, "Pipe run!D8", "pipe_length_m/", "pipe_length_m*2/")
    assert audit(changed).reading.values["pipe_L"] == pytest.approx(PIPE_L, rel=1e-12)


@pytest.mark.parametrize("typed", ["ten", None, -1])
def test_unusable_input_is_none(audit, typed) -> None:
    reading = audit(build_small("en", "metric", {"B3": typed})).reading
    assert (reading.given["pipe_length_m"], reading.values["pipe_L"]) == (None, None)


def test_formula_in_a_typed_cell_is_no_value_whatever_it_shows(audit, fresh) -> None:
    changed = swap_in_cell(fresh, "Pipe run!B3", "<v>10</v>", "<f>5+5</f><v>10</v>")
    reading = audit(changed).reading
    assert (reading.given["pipe_length_m"], reading.values["pipe_L"]) == (None, None)


def name_cells(data: bytes, **cells: str) -> bytes:
    more = "".join(f'<definedName name="{n}">{to}</definedName>' for n, to in cells.items())
    return swap(data, BOOK, NAMES, f"{NAMES}{more}")


@pytest.mark.parametrize(
    ("cell", "text"),
    [
        ('t="inlineStr"><is><t>Érablière &amp; fils</t></is></c>', "Érablière & fils"),
        ("><v>12</v></c>", "12"),
        ("/>", ""),
        ("><f>1+1</f><v>2</v></c>", ""),
    ],
)
def test_who_it_is_for_is_read_as_typed(audit, fresh, cell: str, text: str) -> None:
    data = edit_cell(fresh, "Pipe run!B5", lambda _: f'<c r="B5" s="1" {cell}')
    names = dict.fromkeys(("machine_title_typed", "producer_typed", "site_typed"), END)
    reading = audit(name_cells(as_other_edition(data), **names)).reading
    assert {reading.title, reading.producer, reading.site} == {text}


END = "'Pipe run'!$B$5"


def as_other_edition(data: bytes) -> bytes:
    return swap(data, CUSTOM, f">{__version__}<", ">0.0.9<")


def test_other_edition_is_read_by_its_own_names(audit, fresh) -> None:
    moved = swap(as_other_edition(fresh), BOOK, "'Pipe run'!$B$3", "'Pipe run'!$B$4")
    reading = audit(moved).reading
    assert (reading.given["pipe_length_m"], reading.version) == (12.0, "0.0.9")


def test_this_edition_is_read_where_it_has_its_cells_whatever_its_names_say(audit, fresh) -> None:
    moved = swap(fresh, BOOK, "'Pipe run'!$B$3", "'Pipe run'!$B$4")
    assert audit(moved).reading.given["pipe_length_m"] == 10.0


def test_input_that_another_edition_does_not_have_is_missing(audit, fresh) -> None:
    older = swap(as_other_edition(fresh), BOOK, '"rinse_volumes_n_typed"', '"volumes_n_typed"')
    assert audit(older).reading.given["rinse_volumes_n"] is None


@pytest.mark.parametrize(
    "target", ["#REF!", "0.5", "Lists!$A:$A", "Lists!$A$1:$XFD$1048576", "Lists!$A$1:$A$1048576"]
)
def test_odd_names_of_another_edition_are_not_followed(audit, fresh, target: str) -> None:
    odd = name_cells(as_other_edition(fresh), log_day_d_list=target, site_typed=target)
    reading = audit(odd).reading
    assert (reading.site, reading.given["pipe_length_m"]) == ("", 10.0)


def test_workbook_that_does_not_say_what_it_is_has_no_reading(audit, fresh) -> None:
    assert audit(swap(fresh, CUSTOM, ">en<", ">de<")).reading is None


def test_auditor_builds_each_language_and_units_once(tmp_path: Path) -> None:
    built = []

    def build(lang: str, units: str) -> bytes:
        built.append((lang, units))
        return build_small(lang, units)

    auditor = Auditor(small_spec(), build)
    for lang in ("en", "fr", "en"):
        path = tmp_path / "back.xlsx"
        path.write_bytes(build_small(lang, "us"))
        assert auditor.audit(path, deep=False).faults == []
    assert built == [("en", "us"), ("fr", "us")]
