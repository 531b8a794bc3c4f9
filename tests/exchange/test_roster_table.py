import errno
import io
import os
import zipfile

import pytest
from audit.edits import edit_part
from openpyxl import Workbook

from builder.problems import ProblemsError, UserError
from builder.roster.table import Line, Unsolved, open_table


def open_text(folder, data, name="r.csv"):
    path = folder / name
    path.write_bytes(data if isinstance(data, bytes) else data.encode())
    return open_table(path)


def save(folder, *rows, sheets=("first",)):
    book = Workbook()
    book.active.title = sheets[0]
    for row in rows:
        book.active.append(row)
    for title in sheets[1:]:
        book.create_sheet(title, 0 if title == "before" else None).append(["other"])
    path = folder / "r.xlsx"
    book.save(path)
    return path


@pytest.mark.parametrize(
    "data",
    [
        "a,b\n1,é\n",
        "a;b\r\n1;é",
        "\ufeffa,b\n1,é\n",
        "\ufeff\n\na;b\n1;é\n\n",
        '"a","b"\n"1","é"\n',
        '"a";b\n 1 ;" é "\n;\n',
        "a,b,,\n1,é,,\n,,,\n",
    ],
)
def test_comma_or_semicolon_mark_or_none_and_blank_lines_do_not_matter(tmp_path, data):
    table = open_text(tmp_path, data)
    assert table.headings.cells == ["a", "b"]
    assert [line.cells for line in table.lines()] == [["1", "é"]]
    assert (table.count, table.decimal_comma) == (1, ";" in data)


def test_lines_are_counted_where_they_begin(tmp_path):
    table = open_text(tmp_path, 'a,b\n1,"x\ny\nz"\n\n3,4\n')
    assert list(table.lines()) == [Line(2, ["1", "x\ny\nz"]), Line(6, ["3", "4"])]


def test_a_semicolon_in_quotes_does_not_make_a_table_of_semicolons(tmp_path):
    assert open_text(tmp_path, 'a,"b;;;"\n1,2\n').headings.cells == ["a", "b;;;"]


@pytest.mark.parametrize(
    ("data", "told"),
    [
        (b"a,b\n1,2\n3,\xe9\n", ":3 not-utf8 r.csv: byte 3 of this line is not UTF-8."),
        ("a\nb\n".encode("utf-16"), ":1 not-utf8 r.csv: byte 1 of this line is not UTF-8."),
        (b"a\nb\n\0\n", ":3 not-text r.csv: the line holds a byte 0."),
        (b'a,b\n1,2\n3,"open\n', ":3 not-csv r.csv: unexpected end of data."),
        (b'a,b\n1,2\n3,"x"y\n', ":3 not-csv r.csv: ',' expected after '\"'."),
        (b"", ":1 empty r.csv: the file is empty."),
        (b"\n ,\n", ":1 empty r.csv: the file is empty."),
        (b"\na,b\n,\n", ":2 empty r.csv: there is no row below the headings."),
    ],
)
def test_a_file_that_is_no_table_is_told_in_these_words(tmp_path, data, told):
    with pytest.raises(ProblemsError) as error:
        open_text(tmp_path, data)
    assert f"r.csv{told}\n    " in str(error.value)
    assert error.value.exit_code == 3


def test_a_missing_file_is_no_roster(tmp_path):
    for name, told in (("no.csv", "does not exist"), (".", "is no file")):
        with pytest.raises(UserError, match=told) as error:
            open_table(tmp_path / name)
        assert error.value.exit_code == 4


def test_a_workbook_gives_the_values_of_its_first_sheet(tmp_path):
    table = open_table(
        save(tmp_path, ["a", None, "c"], [1, 2.5, " x "], [], [None, True], sheets=["one", "two"])
    )
    assert table.headings == Line(1, ["a", None, "c"])
    assert list(table.lines()) == [Line(2, [1, 2.5, "x"]), Line(4, [None, True])]
    assert (table.count, table.decimal_comma) == (2, False)


def test_the_first_sheet_is_the_leftmost(tmp_path):
    with pytest.raises(ProblemsError, match="no row below"):
        open_table(save(tmp_path, ["a"], [1], sheets=["one", "before"]))


def test_a_formula_without_value_is_no_blank(tmp_path):
    table = open_table(save(tmp_path, ["a"], ["=1+1"]))
    assert list(table.lines()) == [Line(2, [Unsolved("=1+1")])]


def test_a_bomb_a_text_and_half_a_workbook_are_refused(tmp_path):
    whole = save(tmp_path, ["a"], [1]).read_bytes()
    bomb = io.BytesIO(whole)
    with zipfile.ZipFile(bomb, "a", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("xl/worksheets/sheet9.xml", b" " * 60_000_000)
    for data, told in (
        (bomb.getvalue(), "unpacks to "),
        (b"a,b\n1,2\n", "is not an .xlsx workbook, or it is damaged."),
        (whole[: len(whole) // 2], "is not an .xlsx workbook, or it is damaged."),
        (
            whole.replace(b"xl/worksheets/", b"xl/worksheetz/"),
            "is damaged: the sheet xl/worksheets/sheet1.xml is missing",
        ),
    ):
        with pytest.raises(UserError) as error:
            open_text(tmp_path, data, "r.xlsx")
        assert told in str(error.value)
        assert str(error.value).endswith(
            ". Save it as .xlsx, or as CSV in UTF-8, and look at docs/roster.md."
        )
        assert error.value.exit_code == 3


@pytest.mark.parametrize(
    ("data", "told"),
    [
        (b"a\n" + b"1\n" * 100_001, ":100002 too-large r.csv: more than 100000 rows."),
        (b"a\n" + b"x" * 2_000_000, ":2 too-long r.csv: the line has more than 1000000 bytes."),
        (b"#" * 20_000_001, ":1 too-large r.csv: 20000001 bytes, more than 20000000."),
        (b"a\rb\r", ":1 not-csv r.csv: the line holds a carriage return without a line feed."),
    ],
)
def test_a_table_without_end_is_refused_with_the_place(tmp_path, data, told):
    with pytest.raises(ProblemsError) as error:
        open_text(tmp_path, data)
    assert told in str(error.value)


def test_a_row_of_blank_cells_without_end_takes_no_time(tmp_path):
    table = open_text(tmp_path, b"a\n1" + b"," * 900_000 + b"\n")
    assert list(table.lines()) == [Line(2, ["1"])]


def edit_sheet(folder, old, new):
    path = save(folder, ["a"], [1])
    data = edit_part(path.read_bytes(), "xl/worksheets/sheet1.xml", lambda x: x.replace(old, new))
    path.write_bytes(data)
    return path


def test_a_sheet_that_tells_a_wrong_size_and_a_blank_last_row_are_read_all_the_same(tmp_path):
    lie = edit_sheet(tmp_path, 'ref="A1:A2"', 'ref="A1:XFD1048576"')
    assert [line.cells for line in open_table(lie).lines()] == [[1]]
    last = edit_sheet(tmp_path, "</sheetData>", '<row r="1048576"/></sheetData>')
    assert [line.cells for line in open_table(last).lines()] == [[1]]


def test_a_sheet_as_wide_as_can_be_is_refused_at_its_row(tmp_path):
    wide = edit_sheet(tmp_path, "</sheetData>", '<row r="3"><c r="XFD3"/></row></sheetData>')
    with pytest.raises(ProblemsError, match=r":3 too-large r\.xlsx: 16384 columns, more than 1000"):
        open_table(wide)


def test_a_file_that_breaks_off_is_told_by_its_name(tmp_path, monkeypatch):
    def fail(*_args, **_more):
        raise OSError(errno.EIO, os.strerror(errno.EIO))

    path = tmp_path / "r.csv"
    path.write_bytes(b"a\n1\n")
    monkeypatch.setattr("pathlib.Path.open", fail)
    with pytest.raises(UserError, match=r"r\.csv cannot be read: Input/output error\.") as error:
        open_table(path)
    assert error.value.exit_code == 4
