import csv
import json
from pathlib import Path

import pytest

from builder.collection.output import tell_day, write_csv, write_json
from builder.collection.store import open_store
from builder.problems import UserError
from exchange.collected import DAY, FAULT, Sample, run

HOSTILE = ("=cmd|'/c calc'!A0", '=HYPERLINK("http://x")', "+1", "-1", "@SUM(A1)", "\tx", "\ry")


def write(shelf, out, writer):
    with open_store(shelf.tables) as store:
        shelf.fill(store)
        writer(out, store)


def read_csv(path: Path):
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def test_csv_holds_a_table_a_file(shelf, tmp_path):
    rows = [run(1, hours_h=5.0, left_L=2.5), run(0, note="é")]
    values = {"rinse_owed_L": -900.25, "rinse_ok": "look", "last_wash_d": 0.0}
    shelf.put("a.xlsx", Sample(rows=rows, values=values, faults=[FAULT]))
    write(shelf, tmp_path / "out.csv", write_csv)
    ((machine,), events, (finding,)) = (
        read_csv(tmp_path / name) for name in ("out.csv", "out-events.csv", "out-findings.csv")
    )
    assert (machine["machine"], machine["state"], machine["faults"]) == ("RO 1", "altered", "1")
    assert (machine["rinse_owed_L"], machine["rinse_ok"], machine["last_wash_d"]) == (
        "-900.25",
        "look",
        "",
    )
    told = [(row["day_d"], row["row"], row["note"], row["hours_h"]) for row in events]
    assert told == [("2026-03-02", "1", "", "5.0"), ("2026-03-01", "2", "é", "")]
    assert (finding["severity"], finding["cell"], finding["name"]) == (
        "fault",
        "Rinse!B5",
        "rinse_owed_L",
    )


def test_no_text_of_a_csv_begins_like_a_formula(shelf, tmp_path):
    for number, text in enumerate(HOSTILE):
        rows = [run(0, note=text, hours_h=-4.0)]
        shelf.put(f"{number}.xlsx", Sample(title=text, rows=rows, faults=[FAULT]))
    write(shelf, tmp_path / "out.csv", write_csv)
    for name in ("out.csv", "out-events.csv", "out-findings.csv"):
        assert [row["machine"] for row in read_csv(tmp_path / name)] == ["'" + t for t in HOSTILE]
    events = read_csv(tmp_path / "out-events.csv")
    assert [row["note"] for row in events] == ["'" + text for text in HOSTILE]
    assert {row["hours_h"] for row in events} == {"-4.0"}


def test_a_table_without_rows_keeps_its_headings(shelf, tmp_path):
    shelf.put("a.xlsx", Sample())
    write(shelf, tmp_path / "out.csv", write_csv)
    headings = (tmp_path / "out-events.csv").read_bytes().decode()
    assert headings == ",".join(shelf.tables.events) + "\r\n"


def test_json_holds_the_three_tables_with_numbers_days_and_nulls(shelf, tmp_path):
    shelf.put("a.xlsx", Sample(title="=1", rows=[run(0, hours_h=5.0, note="+")]))
    shelf.put("b.xlsx", Sample(title="no log", faults=[FAULT]))
    write(shelf, tmp_path / "out.json", write_json)
    found = json.loads((tmp_path / "out.json").read_text(encoding="utf-8"))
    assert list(found) == ["version", "machines", "events", "findings"]
    assert [row["machine"] for row in found["machines"]] == ["=1", "no log"]
    (event,) = found["events"]
    assert list(event) == list(shelf.tables.events)
    shown = [event[name] for name in ("day_d", "hours_h", "note", "sap_L", "row")]
    assert shown == ["2026-03-01", 5.0, "+", None, 1]
    assert [row["text"] for row in found["findings"]] == [FAULT.text]


def test_chunks_of_rows_join_without_a_seam(shelf, tmp_path, monkeypatch):
    monkeypatch.setattr("builder.collection.store.CHUNK", 2)
    for number in range(5):
        shelf.put(f"{number}.xlsx", Sample(title=f"RO {number}"))
    write(shelf, tmp_path / "out.json", write_json)
    write(shelf, tmp_path / "out.csv", write_csv)
    titles = [f"RO {number}" for number in range(5)]
    found = json.loads((tmp_path / "out.json").read_text(encoding="utf-8"))
    assert [row["machine"] for row in found["machines"]] == titles
    assert [row["machine"] for row in read_csv(tmp_path / "out.csv")] == titles


@pytest.mark.parametrize("writer", [write_csv, write_json])
def test_a_failure_in_the_middle_leaves_older_files_and_nothing_else(shelf, tmp_path, writer):
    shelf.put("a.xlsx", Sample())
    out = tmp_path / "out.dat"
    out.write_text("older")

    def fail(name):
        raise KeyError(name)

    with open_store(shelf.tables) as store:
        store.read_frames = fail
        with pytest.raises(KeyError, match="machines"):
            writer(out, store)
    assert sorted(path.name for path in tmp_path.iterdir()) == ["in", "out.dat"]
    assert out.read_text() == "older"


def test_a_missing_folder_is_told_with_its_reason(shelf, tmp_path):
    shelf.put("a.xlsx", Sample())
    with pytest.raises(UserError, match=r"no/out\.json cannot be written: No such file") as error:
        write(shelf, tmp_path / "no" / "out.json", write_json)
    assert error.value.exit_code == 4


@pytest.mark.parametrize(
    ("serial", "day"),
    [
        (DAY, "2026-03-01"),
        (DAY + 0.99, "2026-03-01"),
        (0.0, ""),
        (-1.0, ""),
        (1e9, ""),
        (None, ""),
        (float("nan"), ""),
    ],
)
def test_serial_numbers_of_days_become_dates(serial, day):
    assert tell_day(serial) == day
