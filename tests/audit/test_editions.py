"""A book of another edition: what differs is told by name, and the rest is a fault."""

import re
from dataclasses import replace
from functools import partial
from pathlib import Path

import pytest

from audit.edits import drop_stored, edit_part, swap, swap_in_cell
from audit.small import small_spec
from builder import __version__
from builder.audit.book import read_design
from builder.audit.changes import compare_editions, take_side
from builder.audit.identity import list_newer
from builder.audit.report import audit_file
from builder.exchange.demo import read_demo
from builder.production import build_workbook
from builder.spec.editions import digest_words
from builder.spec.records import Edition, Limits, Place, Text

CUSTOM, BOOK = "docProps/custom.xml", "xl/workbook.xml"
WORDS = digest_words(small_spec(), "en")


def as_older(data: bytes) -> bytes:
    return swap(data, CUSTOM, f">{__version__}<", ">0.0.7<")


def as_reworded(data: bytes) -> bytes:
    return swap(data, CUSTOM, f">{WORDS}<", ">older words<")


def rename(data: bytes) -> bytes:
    return swap(data, BOOK, '"end_pH"', '"last_pH"')


@pytest.mark.parametrize(
    ("edit", "told"),
    [
        (lambda data: data, "no formula, constant, limit or name differs"),
        (
            lambda data: swap_in_cell(data, "Pipe run!D8", "pipe_length_m/", "pipe_length_m*2/"),
            "formulas that differ: 1 (pipe_L)",
        ),
        (
            lambda data: swap_in_cell(data, "Pipe run!D7", "<v>1000<", "<v>500<"),
            "constants that differ: 1 (mm2m_per_L 500 (here 1000))",
        ),
        (
            lambda data: swap_in_cell(data, "Lists!B8", "<v>25.4<", "<v>25<"),
            "limits or numbers behind that differ: 1 (pipe_bore_mm)",
        ),
        (rename, "names that are new: 1 (end_pH); names that are gone: 1 (last_pH)"),
    ],
    ids=["nothing", "formula", "constant", "limit", "name"],
)
def test_what_another_edition_has_otherwise_is_told_and_no_fault(audit, fresh, edit, told) -> None:
    report = audit(drop_stored(as_older(edit(fresh))))
    lines = [str(finding) for finding in report.warnings if finding.name == "version"]
    assert lines[0].startswith("version: built by version 0.0.7 with specs 0123456789ab; this is")
    assert f"version: compared by names, not cell by cell: {told}" in lines
    assert ("the rinsebook 0.0.7 that built it can tell" in lines[-1]) == ("differs" not in told)
    assert report.faults == []


def test_results_that_follow_from_a_difference_are_named(audit, fresh) -> None:
    changed = swap_in_cell(fresh, "Pipe run!D7", "<v>1000<", "<v>500<")
    lines = [str(finding) for finding in audit(drop_stored(as_older(changed))).warnings]
    wanted = "version: values that differ from this edition's for these reasons: 1 (pipe_L)"
    assert wanted in lines


def test_result_that_no_difference_explains_is_a_fault_in_any_edition(audit, fresh) -> None:
    formula = swap_in_cell(fresh, "Pipe run!B3", "<v>10</v>", "<f>5+5</f><v>10</v>")
    faults = [str(fault) for fault in audit(as_older(formula)).faults]
    assert faults[0].startswith("Pipe run!B3 pipe_length_m: typed cell, found =5+5, expected a ")
    assert faults[1].startswith("Pipe run!D8 pipe_L: value, found 20.2")
    assert len(faults) == 2


@pytest.mark.parametrize(
    ("own", "claimed", "told"),
    [
        (f">{__version__}<", ">0.0.9<", "version: built by version 0.0.9 with specs 0123456789ab"),
        (">0123456789ab<", ">beef<", f"specs: built by version {__version__} with specs beef"),
    ],
)
def test_edition_that_is_not_listed_is_a_fault(audit, fresh, own, claimed, told) -> None:
    (fault,) = audit(swap(fresh, CUSTOM, own, claimed)).faults
    assert str(fault).startswith(f"{told}, an edition that is not known here; this is version ")


def test_what_the_editions_since_have_told_is_shown(audit, fresh) -> None:
    older = swap(fresh, CUSTOM, f">{__version__}<", ">0.0.6<")
    told = [finding.text for finding in audit(older).warnings if "tells" in finding.text]
    wanted = [f"edition {name} (not out yet) tells: More." for name in (__version__, "0.0.7")]
    assert told == wanted


def test_word_of_a_choice_in_another_edition_is_read_by_its_own_list(audit, fresh) -> None:
    older = swap(as_older(fresh), "xl/sharedStrings.xml", "by volume", "by litres")
    names = {"rinse_rule_words": "Lists!$A$10:$A$11", "rinse_rule_codes": "Lists!$B$10:$B$11"}
    more = "".join(f'<definedName name="{n}">{to}</definedName>' for n, to in names.items())
    older = swap(older, BOOK, "<definedNames>", f"<definedNames>{more}")
    codes = r'\1<c r="B{0}" t="inlineStr"><is><t>{1}</t></is></c></row>'
    for row, code in ((10, "holdup"), (11, "elements")):
        change = partial(re.sub, rf'(<row r="{row}".*?)</row>', codes.format(row, code))
        older = edit_part(older, "xl/worksheets/sheet2.xml", change)
    assert audit(older).reading.given["rinse_rule"] == "holdup"


def test_words_of_an_older_state_are_one_warning_and_the_rest_is_compared(audit, fresh) -> None:
    older = swap(as_reworded(fresh), "xl/sharedStrings.xml", "<t>Pipe</t>", "<t>Hose</t>")
    report = audit(older)
    assert [finding.name for finding in report.warnings] == ["words"]
    assert report.faults == []
    damaged = swap_in_cell(older, "Pipe run!D7", "<v>1000<", "<v>500<")
    faults = [str(fault) for fault in audit(drop_stored(damaged)).faults]
    assert (
        faults[0]
        == "Pipe run!D7 mm2m_per_L: constant, found 500.0, expected 1000.0; changes: pipe_L"
    )


def test_reworded_book_whose_rows_have_moved_is_compared_by_names_with_faults(audit, fresh) -> None:
    moved = swap(as_reworded(fresh), BOOK, "'Pipe run'!$D$5", "'Pipe run'!$E$5")
    damaged = swap_in_cell(moved, "Pipe run!D7", "<v>1000<", "<v>500<")
    faults = [str(fault) for fault in audit(drop_stored(damaged)).faults]
    assert "Pipe run!D7 mm2m_per_L: constant, found 500 (here 1000)" in faults


def test_editions_since_that_of_the_book_are_listed_the_newest_first() -> None:
    place, told = Place("specs/editions.toml", 1), Text({"en": "More.", "fr": "Plus."})
    editions = [Edition(version, f"d{version}", told, place) for version in ("3", "2", "1")]
    since = {
        pair: [edition.version for edition in list_newer(editions, *pair)]
        for pair in (("1", "d1"), ("2", "before it was out"), ("3", "d3"), ("0", "d0"))
    }
    assert list(since.values()) == [["3", "2"], ["3", "2"], [], []]


def test_french_and_english_names_stand_for_the_same(built) -> None:
    english, french = (
        take_side(read_design(Path("book.xlsx"), built[pair]))
        for pair in (("en", "metric"), ("fr", "us"))
    )
    changes = compare_editions(english, french)
    assert (changes.names(), changes.new, changes.gone) == (set(), [], [])


def test_change_of_the_specs_is_told_in_the_book_of_the_edition_before(
    spec, built, tmp_path: Path
) -> None:
    old = dict(spec.quantities)
    old["mm3_per_L"] = replace(old["mm3_per_L"], value=1_000_100.0)
    old["vessel_bore_mm"] = replace(old["vessel_bore_mm"], limits=Limits(1.0, 999.0))
    formula = old["rinse_by_holdup_L"].formula
    old["rinse_by_holdup_L"] = replace(old["rinse_by_holdup_L"], formula=f"2*{formula}")
    path = tmp_path / "older.xlsx"
    older = replace(spec, quantities=old, digest="0" * 12)
    path.write_bytes(build_workbook(older, read_demo(older), "en", "metric"))
    place, told = Place("specs/editions.toml", 1), Text({"en": "Before.", "fr": "Avant."})
    before = Edition(__version__, older.digest, told, place)
    known = replace(spec, editions=[*spec.editions, before])
    report = audit_file(path, known, lambda *pair: built[pair], deep=False)
    lines = [str(finding) for finding in report.warnings if finding.name == "specs"]
    told = "formulas that differ: 1 (rinse_by_holdup_L); constants that differ: 1 "
    told += "(mm3_per_L 1000100 (here 1000000)); limits or numbers behind that differ: 1 "
    assert f"specs: compared by names, not cell by cell: {told}(vessel_bore_mm)" in lines
    (followed,) = [line for line in lines if "for these reasons" in line]
    assert "rinse_owed_L" in followed or "more)" in followed
    assert report.faults == []
