import pytest
from openpyxl import Workbook

from builder.exchange.machine import Machine, Typed
from builder.roster.roster import Roster


def read(folder, spec, text):
    path = folder / "r.csv"
    path.write_text(text, encoding="utf-8")
    return list(Roster(path, spec).rows())


def tell(rows):
    return [f"{p.line} {p.code} {p.name}: {p.text}" for row in rows for p in row.problems]


def test_a_row_says_machine_language_units_file_and_address(tmp_path, spec):
    (row,) = read(
        tmp_path,
        spec,
        "Producteur;Site;Machine;Langue;Unités;Fichier;Courriel;vessels_n\n"
        "Érablière X;Rang 1;Nº 2;FR;us;Livre 7.xlsx;a@example.org;3\n",
    )
    given = {"vessels_n": Typed(3.0, unit="n")}
    assert row.machine == Machine("Nº 2", "Érablière X", "Rang 1", given)
    assert (row.line, row.lang, row.units) == (2, "fr", "us")
    assert (row.stem, row.recipient) == ("livre-7", "a@example.org")
    assert (row.problems, row.warnings) == ([], [])


def test_what_is_left_out_or_blank_keeps_the_value_of_the_specs(tmp_path, spec):
    row, other = read(tmp_path, spec, "producer,language,units,vessels_n,file\np,,,,\nq\n")
    assert (row.machine, other.machine) == (Machine("", "p"), Machine("", "q"))
    assert (row.lang, row.units, row.stem, row.recipient) == ("en", "metric", "p", "")


def test_units_follow_the_reader_s_where_the_column_is_blank(tmp_path, spec):
    rows = read(tmp_path, spec, "site,units,reader_units\na,,us\nb,imperial,us\n")
    assert [row.units for row in rows] == ["us", "imperial"]


@pytest.mark.parametrize(
    ("heading", "sign", "cell", "number", "unit"),
    [
        ("vessel_bore_mm", ",", "203", 203, "mm"),
        ("vessel_bore_mm", ",", "8 in", 8, "in"),
        ("vessel_bore_mm [in]", ",", "8", 8, "in"),
        ("vessel_bore_mm [in]", ",", "205.5 mm", 205.5, "mm"),
        ("vessel_bore_mm", ";", "203,5", 203.5, "mm"),
        ("vessel_bore_mm [in]", ";", "8,125", 8.125, "in"),
        ("vessel_bore_mm", ";", "8,125 in", 8.125, "in"),
        ("vessel_bore_mm", ";", "203.5", 203.5, "mm"),
        ("wash_temp_degC [degF]", ",", "104", 104, "degF"),
    ],
)
def test_a_number_is_in_its_own_unit_or_the_heading_s_or_the_name_s(
    tmp_path, spec, heading, sign, cell, number, unit
):
    (row,) = read(tmp_path, spec, f"site{sign}{heading}\nx{sign}{cell}\n")
    (typed,) = row.machine.given.values()
    assert (typed, row.problems) == (Typed(number, unit=unit), [])


@pytest.mark.parametrize(
    ("heading", "cell", "told"),
    [
        ("vessel_bore_mm", "wide", 'bad-number vessel_bore_mm: "wide"'),
        ("vessel_bore_mm", "8 inch", 'unknown-unit vessel_bore_mm: unit "inch"'),
        ("vessel_bore_mm [in]", "203", "outside-limits vessel_bore_mm [in]: \"203 in\" is 5156.2"),
        ("Vessel Bore mm", "9000", "outside-limits Vessel Bore mm: 9000.0 mm is outside 40 to"),
        ("vessel_bore_mm", '"203,5"', 'comma vessel_bore_mm: the number in "203,5" has a comma.'),
        ("vessels_n", "1.5", "not-whole vessels_n: 1.5 is not a whole number."),
        ("rinse_rule", "bigger", 'unknown-choice rinse_rule: "bigger" is not one of'),
        ("langue", "de", 'unknown-choice langue: "de" is not one of en, fr.'),
        ("units", "meters", 'unknown-choice units: "meters" is not one of metric, us,'),
        ("producer", "x" * 121, "too-long producer: 121 characters, more than 120"),
        ("machine", "a\u202eb", "control-character machine: character U+202E in"),
        ("machine", '"a\nb"', "control-character machine: character U+000A in"),
        ("mail", "a@b", 'bad-address mail: "a@b" is no mail address.'),
        ("mail", '"a@example.org\nBcc: b@example.org"', "bad-address mail: "),
        ("mail", "a@example.org; b@example.org", "bad-address mail: "),
        ("mail", "A <a@example.org>", "bad-address mail: "),
        ("mail", "é@example.org", "bad-address mail: "),
        ("mail", f"a@{'b' * 250}.org", "bad-address mail: "),
        ("file", "a,b", "too-many-cells column 3: 3 cells under 2 headings."),
    ],
)  # fmt: skip
def test_a_faulty_cell_is_told_with_line_and_heading(tmp_path, spec, heading, cell, told):
    other = "site" if heading != "site" else "file"
    rows = read(tmp_path, spec, f"{other},{heading}\na,\nb,{cell}\nc,\n")
    (problem,) = tell(rows)
    assert problem.startswith(f"3 {told}")
    assert [bool(row.problems) for row in rows] == [False, True, False]


def test_every_fault_of_every_row_is_told(tmp_path, spec):
    rows = read(tmp_path, spec, "site,vessels_n,vessel_bore_mm,langue\na,0,x,xx\nb,1,1,fr\n")
    assert [line.partition(":")[0] for line in tell(rows)] == [
        "2 outside-limits vessels_n",
        "2 bad-number vessel_bore_mm",
        "2 unknown-choice langue",
        "3 outside-limits vessel_bore_mm",
    ]


def test_a_workbook_is_read_as_it_shows_itself(tmp_path, spec):
    book = Workbook()
    book.active.append(["machine", "vessels_n", "vessel_bore_mm [in]", "recipe_water_L"])
    book.active.append([12, 2, 8, "12 gal_us"])
    book.active.append([12.5, "2", True, "=1+1"])
    book.save(tmp_path / "r.xlsx")
    fine, faulty = Roster(tmp_path / "r.xlsx", spec).rows()
    assert fine.machine.title == "12"
    assert [typed.unit for typed in fine.machine.given.values()] == ["n", "in", "gal_us"]
    assert [line.partition(":")[0] for line in tell([fine, faulty])] == [
        "3 wrong-type vessel_bore_mm [in]",
        "3 no-value recipe_water_L",
    ]


def test_names_of_files_follow_the_rows_and_faulty_rows_keep_theirs(tmp_path, spec):
    rows = read(tmp_path, spec, "producer,site,vessels_n\nP,S,1\nP,S,0\np,s,3\n,,4\n")
    assert [row.stem for row in rows] == ["p-s", "p-s-2", "p-s-3", "book"]
    assert [row.warnings for row in rows] == [
        [],
        ["the same machine as in row 2", "the file name p-s was taken"],
        ["the same machine as in row 2", "the file name p-s was taken"],
        ["no producer, site or machine: the book cannot be told from others"],
    ]


def test_the_fingerprint_of_a_row_follows_what_its_book_shows(tmp_path, spec):
    head = "site,language,units,mail,file,vessel_bore_mm\n"
    texts = ["a,,,,,200", "b,,,,,200", "a,fr,,,,200", "a,,us,,,200", "a,,,,,201", "a,,,,,200 mm"]
    rows = read(tmp_path, spec, head + "\n".join([*texts, "a,en,metric,a@example.org,x,200"]))
    digests = [row.digest for row in rows]
    assert len(set(digests[:5])) == 5
    assert digests[0] == digests[5] == digests[6]
