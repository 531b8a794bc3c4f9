import csv
from dataclasses import replace

import pytest

from builder.problems import UserError
from builder.roster.manifest import Manifest, Record

RECORD = Record(2, "p", "s", "m", "fr", "us", "a.xlsx", "ab" * 32, 9, "1", "d", "h", "built")


def run(folder, records):
    manifest = Manifest(folder)
    with manifest.begin() as journal:
        for record in records:
            manifest.add(record, journal)
    return manifest


@pytest.mark.parametrize("sign", ["=", "+", "-", "@", "\t", "\r", "\n", "＝", "'", "'="])
def test_no_text_begins_as_a_formula_does_and_it_is_read_back_as_it_was(tmp_path, sign):
    record = replace(RECORD, producer=f"{sign}1+1", warnings=f'a{sign}"x",y')
    run(tmp_path, [record]).finish()
    with (tmp_path / "manifest.csv").open(encoding="utf-8", newline="") as file:
        (cells,) = csv.DictReader(file)
    assert cells["producer"] == f"'{sign}1+1"
    assert Manifest(tmp_path).known == {"a.xlsx": record}


def test_rows_stand_in_the_order_of_the_roster(tmp_path):
    records = [replace(RECORD, row=row, file=f"{row}.xlsx") for row in (10, 9, 2)]
    run(tmp_path, records).finish()
    assert [record.row for record in Manifest(tmp_path).known.values()] == [2, 9, 10]
    assert [path.name for path in tmp_path.iterdir()] == ["manifest.csv"]


def test_a_run_cut_short_is_remembered_with_what_was_there_before(tmp_path):
    older = replace(RECORD, file="older.xlsx")
    run(tmp_path, [older, RECORD]).finish()
    newer = replace(RECORD, sha256="cd" * 32)
    run(tmp_path, [newer])
    with (tmp_path / ".manifest.part").open("a", encoding="utf-8") as journal:
        journal.write("3,half a li")
    assert Manifest(tmp_path).known == {"older.xlsx": older, "a.xlsx": newer}
    run(tmp_path, [])
    assert Manifest(tmp_path).known == {"older.xlsx": older, "a.xlsx": newer}


@pytest.mark.parametrize("content", [b"", b"name,size\n", b"\xff\xfe\0", b'"'])
def test_a_foreign_manifest_is_refused(tmp_path, content):
    (tmp_path / "manifest.csv").write_bytes(content)
    with pytest.raises(UserError, match=r"manifest\.csv is no manifest of this program"):
        Manifest(tmp_path)
    assert (tmp_path / "manifest.csv").read_bytes() == content
