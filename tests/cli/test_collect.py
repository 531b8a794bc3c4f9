import csv
import json
import os
import re
from pathlib import Path

import openpyxl
import pytest
from exchange.collected import DAY, FAULT, Sample, Shelf, refusal, run

from builder.exchange.demo import read_demo
from builder.exchange.machine import Machine
from builder.production import build_workbook

ROOT = Path(__file__).resolve().parents[2]


def die(path):
    if path.name == "b.xlsx":
        os._exit(1)
    raise RuntimeError("no such part")


@pytest.fixture
def shelf(folder, spec, monkeypatch):
    """Return a shelf in the folder `in`, which the command audits."""
    shelf = Shelf(folder / "in", spec)
    monkeypatch.setattr("builder.cli.collect.audit_book", shelf.audit)
    return shelf


def collect(tell, *options):
    return tell("collect", "in", "--jobs", "1", *options)


def test_sound_books_end_with_0_and_a_summary(tell, shelf):
    shelf.put("a.xlsx", Sample(rows=[run(0, left_L=9.0)]))  # filled in since: b calls for nothing
    shelf.put("b.xlsx", Sample(rows=[run(0), run(1)]))
    shelf.put("c.xlsx", Sample(rows=[run(0), run(1)]), mark="copy")
    shelf.put("d.xlsx", Sample(title="RO 2", rows=[run(0, left_L=5.0)]))
    code, out, err = collect(tell, "--out", "fleet.json")
    assert (code, err) == (0, "")
    assert out.splitlines() == [
        "books: 4",
        "machines: 2",
        "older states: 1",
        "duplicates: 1",
        "unreadable: 0",
        "books with faults: 0",
        "to call first: 1",
        "fleet.json",
    ]
    machines = json.loads(Path("fleet.json").read_text())["machines"]
    assert [row["file"] for row in machines] == ["in/b.xlsx", "in/d.xlsx"]


@pytest.mark.parametrize(
    "bad", [{"faults": [FAULT]}, {"error": refusal("in/b.xlsx")}, {"error": ValueError("x")}]
)
def test_a_faulty_book_ends_with_1_and_the_others_are_collected(tell, shelf, bad):
    shelf.put("a.xlsx", Sample(title="RO 9"))
    shelf.put("b.xlsx", Sample(**bad))
    code, out, _ = collect(tell, "--out", "fleet.csv")
    assert (code, "books with faults: 1" in out) == (1, True)
    with Path("fleet.csv").open(encoding="utf-8", newline="") as file:
        assert "RO 9" in [row["machine"] for row in csv.DictReader(file)]


@pytest.mark.parametrize("old", ["fleet.csv", "fleet-events.csv", "fleet-findings.csv"])
def test_existing_files_are_kept_and_force_overwrites_them(tell, shelf, old):
    shelf.put("a.xlsx", Sample())
    Path(old).write_text("older")
    code, out, err = collect(tell, "--out", "fleet.csv")
    assert (code, out) == (4, "")
    assert err.startswith(f"{old} exists already.")
    assert Path(old).read_text() == "older"
    assert collect(tell, "--out", "fleet.csv", "--force")[0] == 0
    assert Path(old).read_text() != "older"


def test_words_of_the_fleet_follow_the_language(tell, shelf):
    shelf.put("a.xlsx", Sample())
    collect(tell, "--out", "fleet.xlsx", "--lang", "fr")
    assert openpyxl.load_workbook("fleet.xlsx").sheetnames[:2] == ["parc", "débit"]


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        (["in", "--out", "no/fleet.csv"], "no does not exist. Make it, or choose another --out."),
        (["in", "--out", "fleet.csv"], "in: no .xlsx workbook found."),
        (["gone", "--out", "fleet.csv"], "gone does not exist."),
    ],
)
def test_trouble_with_files_ends_with_4_before_any_audit(tell, folder, arguments, told):
    (folder / "in").mkdir()
    code, out, err = tell("collect", *arguments)
    assert (code, out) == (4, "")
    assert err.startswith(told)


@pytest.mark.parametrize(
    "wrong",
    [
        ["in"],
        ["--out", "fleet.csv"],
        ["in", "--out", "fleet.ods"],
        ["in", "--out", "fleet.csv", "--jobs", "0"],
        ["in", "--out", "fleet.csv", "--lang", "de"],
    ],
)
def test_wrong_use_ends_with_2_and_writes_nothing(tell, shelf, wrong):
    shelf.put("a.xlsx", Sample())
    code, out, err = tell("collect", *wrong)
    assert (code, out, sorted(os.listdir())) == (2, "", ["in"])  # noqa: PTH208
    assert "Error: " in err


def test_a_file_that_kills_its_process_is_a_finding(tell, shelf, monkeypatch):
    monkeypatch.setattr("builder.cli.collect.audit_book", die)
    for name in ("a.xlsx", "b.xlsx", "c.xlsx"):
        shelf.put(name, Sample(), mark=name)
    assert tell("collect", "in", "--jobs", "2", "--out", "fleet.json")[0] == 1
    found = json.loads(Path("fleet.json").read_text())["findings"]
    told = {row["file"]: row["text"][:28] for row in found}
    assert told == {
        "in/a.xlsx": "the audit failed on this file"[:28],
        "in/b.xlsx": "the program died while it read"[:28],
        "in/c.xlsx": "the audit failed on this file"[:28],
    }


def find_cell(book, name):
    sheet, _, cell = book.defined_names[name].attr_text.replace("$", "").rpartition("!")
    return book[sheet.strip("'")][cell]


def save_changed(source, target, changes):
    """Save a book as another program would, with other values in cells found by their names."""
    book = openpyxl.load_workbook(source)
    for name, value in changes.items():
        find_cell(book, name).value = value
    book.save(target)


@pytest.mark.usefixtures("folder")
def test_real_books_are_read_compared_and_called_about(tell, spec):
    wash = {"event": "alkaline", "begin_pH": 11.8, "finish_pH": 11.9, "rinse_L": 80.0}
    typed = {"event": "run", "hours_h": 6.0, "water_kind": "permeate"}
    rows = [{"date": DAY, **typed}, {"date": DAY + 1, **wash}]
    given = read_demo(spec).given
    machine = Machine("Osmose 1", "Érablière du Lac", "camp", given, {"log": rows})
    Path("in").mkdir()
    Path("in/a.xlsx").write_bytes(build_workbook(spec, machine, "fr", "us"))
    Path("in/c.xlsx").write_bytes(b"no workbook")
    renamed = {"machine_title_typed": "Osmose 2", "vessel_bore_mm_typed": 8}
    bore = {"vessel_bore_mm_typed_unit": "po"}
    save_changed("in/a.xlsx", "in/d.xlsx", {**renamed, **bore, "rinse_owed_L": "=12"})
    code, out, _ = tell("collect", "in", "--out", "fleet.json", "--jobs", "1")
    assert (code, re.findall(r": (\d+)", out)) == (1, ["3", "2", "0", "0", "1", "2", "3"])
    found = json.loads(Path("fleet.json").read_text(encoding="utf-8"))
    first, second = found["machines"]
    assert (first["machine"], first["state"], first["language"]) == ("Osmose 1", "unfinished", "fr")
    assert (second["machine"], second["state"]) == ("Osmose 2", "altered")
    assert second["vessel_bore_mm"] == pytest.approx(203.2, rel=1e-12)
    assert second["rinse_owed_L"] > 1000  # by the reference, not by the formula somebody typed
    events = [row for row in found["events"] if row["machine"] == "Osmose 1"]
    assert [(row["day_d"], row["event"], row["run_hours_h"]) for row in events] == [
        ("2026-03-01", "run", 6.0),
        ("2026-03-02", "alkaline", 6.0),
    ]
    assert events[1]["left_L"] == pytest.approx(first["rinse_target_L"] - 80 * 3.785411784)
    told = {(row["file"], row["severity"], row["name"]) for row in found["findings"]}
    assert {("in/c.xlsx", "fault", ""), ("in/d.xlsx", "fault", "rinse_owed_L")} <= told
    assert not [row for row in told if row[0] == "in/a.xlsx" and row[1] == "fault"]


@pytest.mark.usefixtures("folder")
def test_a_formula_of_thousands_of_signs_is_a_finding_and_the_other_books_go_on(tell, spec):
    Path("in").mkdir()
    Path("in/b.xlsx").write_bytes(build_workbook(spec, Machine("RO 1"), "en", "metric"))
    chain = {"machine_title_typed": "RO 2", "rinse_owed_L": f"={'-' * 20_000}1"}
    save_changed("in/b.xlsx", "in/a.xlsx", chain)
    assert collect(tell, "--out", "fleet.json")[0] == 1
    found = json.loads(Path("fleet.json").read_text(encoding="utf-8"))
    assert {row["machine"] for row in found["machines"]} == {"RO 1", "RO 2"}
    told = [row["text"] for row in found["findings"] if row["name"] == "rinse_owed_L"]
    assert any(text.startswith("formula, found =------") for text in told)
