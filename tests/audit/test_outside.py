"""What leads out of a workbook: told as a fault, and never followed."""

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import openpyxl
import pytest

from audit.edits import add_part, edit_cell, put, swap
from audit.small import build_small
from builder.audit.book import read_book
from builder.audit.outside import find_outside, leads_outside

SECRET = 918273.6455
PLACE = "Pipe run!D8"
WORKBOOK, RELATIONS = "xl/workbook.xml", "xl/_rels/workbook.xml.rels"
LINK = """<externalLink xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"
 xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships">
<externalBook r:id="rId1"><sheetNames><sheetName val="Sheet1"/></sheetNames></externalBook>
</externalLink>"""
PART = "xl/externalLinks/externalLink1.xml"
KIND = "application/vnd.openxmlformats-officedocument.spreadsheetml.externalLink+xml"
OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
PACKAGE = "http://schemas.openxmlformats.org/package/2006/relationships"


@pytest.fixture
def other(tmp_path) -> Path:
    """Return a workbook of somebody else's, with a number that is nobody's business."""
    path = tmp_path / "other.xlsx"
    book = openpyxl.Workbook()
    book.active.title = "Sheet1"
    book.active["A1"] = SECRET
    book.save(path)
    return path


OPENED: list[str] = []
WATCHING: list[bool] = []


def note(event: str, words: tuple[object, ...]) -> None:
    if event == "open" and WATCHING:
        OPENED.append(str(words[0]))


sys.addaudithook(note)


@contextmanager
def watching() -> Iterator[list[str]]:
    """Yield the list of the files that are opened meanwhile."""
    OPENED.clear()
    WATCHING.append(True)
    try:
        yield OPENED
    finally:
        WATCHING.clear()


def rename(target: str) -> bytes:
    names = '<definedName name="pipe_length_m">{}</definedName>'
    old = names.format("'Pipe run'!$D$3")
    return swap(build_small("en", "metric"), WORKBOOK, old, names.format(target))


def add_name(target: str) -> bytes:
    end = "</definedNames>"
    more = f'<definedName name="more">{target}</definedName>{end}'
    return swap(build_small("en", "metric"), WORKBOOK, end, more)


def link(data: bytes, target: str) -> bytes:
    """Return a workbook in which [1] stands for a file."""
    kind = f"{OFFICE}/externalLink"
    line = f'<Relationship Id="rId91" Type="{kind}" Target="externalLinks/externalLink1.xml"/>'
    data = swap(data, RELATIONS, "</Relationships>", f"{line}</Relationships>")
    entry = '<externalReferences><externalReference r:id="rId91"/></externalReferences>'
    data = swap(data, WORKBOOK, "<definedNames>", f"{entry}<definedNames>")
    more = f'<Override PartName="/{PART}" ContentType="{KIND}"/></Types>'
    data = swap(data, "[Content_Types].xml", "</Types>", more)
    data = add_part(data, PART, LINK)
    file = f'<Relationship Id="rId1" Type="{kind}Path" Target="{target}" TargetMode="External"/>'
    lines = f'<Relationships xmlns="{PACKAGE}">{file}</Relationships>'
    return add_part(data, "xl/externalLinks/_rels/externalLink1.xml.rels", lines)


REFERENCES = [
    "'{0}/[other.xlsx]Sheet1'!A1",
    "[other.xlsx]Sheet1!A1",
    "'{0}/[other.xlsx]Sheet1'!$A$1+D2",
]


def tell(report) -> str:
    return "\n".join(map(str, report.faults + report.warnings))


def judge(audit, data: bytes, other: Path, monkeypatch) -> str:
    """Return the report of a deep audit that has not opened the other workbook."""
    monkeypatch.chdir(other.parent)
    monkeypatch.setattr("tempfile.tempdir", str(other.parent / "temporary"))
    (other.parent / "temporary").mkdir()
    with watching() as opened:
        told = tell(audit(data, deep=True))
    assert [path for path in opened if path.endswith(".xlsx")]  # the watch sees the book itself
    assert not [path for path in opened if path.endswith(other.name)]
    assert "918273" not in told
    return told


@pytest.mark.parametrize("reference", REFERENCES)
def test_a_cell_that_refers_to_another_file_is_a_fault_and_not_followed(
    audit, other, monkeypatch, reference
) -> None:
    told = judge(audit, put(reference.format(other.parent)), other, monkeypatch)
    assert f"{PLACE} pipe_L: reference to another file, found =" in told
    assert f"{PLACE} pipe_L: value, found 3, left out by formulas" in told


@pytest.mark.parametrize("change", [rename, add_name])
def test_a_name_that_refers_to_another_file_is_a_fault_and_not_followed(
    audit, other, monkeypatch, change
) -> None:
    told = judge(audit, change(f"'{other.parent}/[other.xlsx]Sheet1'!$A$1"), other, monkeypatch)
    assert "reference to another file, found " in told


@pytest.mark.parametrize("change", [put, rename])
def test_a_numbered_link_is_a_fault_and_not_followed(audit, other, monkeypatch, change) -> None:
    told = judge(audit, link(change("[1]Sheet1!$A$1"), str(other)), other, monkeypatch)
    assert "reference to another file, found " in told
    assert "a link to another workbook is in the file" in told


def test_an_error_value_that_looks_like_a_reference_is_not_followed(
    audit, other, monkeypatch
) -> None:
    cell = f'<c r="D7" t="e"><v>=\'{other.parent}/[other.xlsx]Sheet1\'!A1</v></c>'
    data = edit_cell(build_small("en", "metric"), "Pipe run!D7", lambda _: cell)
    assert "Pipe run!D7" in judge(audit, data, other, monkeypatch)


@pytest.mark.parametrize(
    "formula",
    [
        "=[1]S!A1",
        "=SUM('C:\\dir\\[x.xlsx]S'!A1:A9)",
        "=x.xlsx!name",
        "='it''s x.xlsx'!name",
        "='S:T'!A1",
        "=S!A1+T!A1",
        "=cmd|'/c calc'!A0",
        "='file:///x.ods'#$S.A1",
        '="\'"&[1]S!A1&"\'"',
    ],
)
def test_a_file_or_a_sheet_that_is_not_there_leads_outside(formula: str) -> None:
    assert leads_outside(formula, {"s", "it's"})


@pytest.mark.parametrize(
    "formula", ["=s!A1+S!#REF!", "='It''s'!$A$1:$B$2&\"[1]T!A1\"", "=#DIV/0!", "=A1", "=$S!A1*S!B2"]
)
def test_own_sheets_texts_and_error_values_lead_nowhere(formula: str) -> None:
    assert not leads_outside(formula, {"s", "it's"})


@pytest.mark.parametrize(("lang", "units"), [("en", "metric"), ("fr", "us")])
def test_nothing_of_our_own_books_leads_outside(built, lang, units) -> None:
    assert list(find_outside(read_book(Path("book.xlsx"), built[lang, units]), {})) == []
