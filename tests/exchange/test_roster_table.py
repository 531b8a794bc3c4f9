import errno
import os

import pytest
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


def test_a_file_that_breaks_off_is_told_by_its_name(tmp_path, monkeypatch):
    def fail(*_args, **_more):
        raise OSError(errno.EIO, os.strerror(errno.EIO))

    path = tmp_path / "r.csv"
    path.write_bytes(b"a\n1\n")
    monkeypatch.setattr("pathlib.Path.open", fail)
    with pytest.raises(UserError, match=r"r\.csv cannot be read: Input/output error\.") as error:
        open_table(path)
    assert error.value.exit_code == 4
