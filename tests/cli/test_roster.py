import re
import subprocess
import sys
from pathlib import Path

import pytest

from builder.roster.roster import Roster

ROOT = Path(__file__).resolve().parents[2]
DEALER = ROOT / "examples" / "dealer"
TEXT = "site,vessels_n\nA,1\nB,2\n"


class Press:
    """Prints a word in place of a workbook."""

    def __init__(self, *edition):
        self.edition = edition[1:]

    def build(self, machine):
        return f"{self.edition} {machine.site}".encode()


@pytest.fixture(autouse=True)
def press(monkeypatch):
    monkeypatch.setattr("builder.production.Edition", Press)


@pytest.fixture
def roster(folder):
    path = folder / "r.csv"
    path.write_text(TEXT)
    return path


@pytest.mark.usefixtures("roster")
def test_summary_stands_on_stdout_and_nothing_on_stderr(tell, folder):
    told = tell("roster", "r.csv", "--out", "out", "--jobs", 1)
    assert told == (0, "r.csv: 2 built, 0 kept, 0 failed; out/manifest.csv\n", "")
    told = tell("roster", "r.csv", "--out", "out")
    assert told == (0, "r.csv: 0 built, 2 kept, 0 failed; out/manifest.csv\n", "")
    assert (folder / "out" / "a.xlsx").read_bytes() == b"('en', 'metric') A"


@pytest.mark.usefixtures("folder")
def test_faulty_rows_are_told_on_stderr_and_end_with_5(tell, roster):
    roster.write_text("site,vessels_n\nA,0\nB,2\nC,x\n")
    code, out, err = tell("roster", "r.csv", "--out", "out", "--jobs", 1)
    assert (code, out) == (5, "r.csv: 1 built, 0 kept, 2 failed; out/manifest.csv\n")
    assert [line for line in err.splitlines() if not line.startswith("    ")] == [
        "r.csv:2 outside-limits vessels_n: 0.0 is outside 1 to 60.",
        'r.csv:4 bad-number vessels_n: "x" does not begin with one plain number.',
    ]


@pytest.mark.parametrize(
    ("data", "told"),
    [
        (b"site,vessel_n\nA,1\n", "vessel_n: no column has this heading. Did you mean vessels_n?"),
        (b"site,SITE\nA,1\n", "duplicate-heading SITE"),
        (b"site\n", "r.csv:1 empty r.csv: there is no row below the headings."),
        (b"site\nA\n\xe9\n", "r.csv:3 not-utf8 r.csv"),
    ],
)
def test_a_roster_that_is_none_ends_with_3_and_writes_nothing(tell, folder, roster, data, told):
    roster.write_bytes(data)
    code, out, err = tell("roster", "r.csv", "--out", "out")
    assert (code, out) == (3, "")
    assert told in err
    assert [path.name for path in folder.iterdir()] == ["r.csv"]


@pytest.mark.parametrize("wrong", [[], ["--out"], ["--out", "o", "--jobs", "0"]])
def test_wrong_use_ends_with_2(tell, folder, roster, wrong):
    assert tell("roster", "r.csv", *wrong)[0] == 2
    assert list(folder.iterdir()) == [roster]


@pytest.mark.usefixtures("roster")
def test_a_folder_that_cannot_be_one_ends_with_4(tell, folder):
    (folder / "out").write_bytes(b"")
    code, out, err = tell("roster", "r.csv", "--out", "out")
    assert (code, out) == (4, "")
    assert err == "out is not a folder. Choose another folder with --out.\n"


def test_foreign_files_need_force_and_messages_are_asked_for(tell, folder, roster):
    (folder / "out").mkdir()
    (folder / "out" / "a.xlsx").write_bytes(b"foreign")
    options = ["roster", roster, "--out", "out", "--mail", "--jobs", 1]
    code, _, err = tell(*options)
    assert code == 5
    assert f"{roster}:2 file-exists a.xlsx: out/a.xlsx stands there" in err
    assert tell(*options, "--force")[0] == 0
    assert sorted(path.name for path in (folder / "out").glob("*.eml")) == ["a.eml", "b.eml"]


@pytest.mark.usefixtures("folder")
def test_the_example_of_the_page_works(tell):
    page = (ROOT / "docs" / "roster.md").read_text("utf-8")
    table, command = (
        re.search(rf"```{kind}\n(.*?)```", page, re.DOTALL)[1] for kind in ("csv", "sh")
    )
    Path("roster.csv").write_text(table, "utf-8")
    code, out, err = tell(*command.split()[1:])
    assert (code, err) == (0, "")
    assert out == "roster.csv: 2 built, 0 kept, 0 failed; books/manifest.csv\n"


def test_the_dealer_s_roster_is_what_its_script_writes():
    script = [sys.executable, DEALER / "make_roster.py"]
    told = subprocess.run(script, capture_output=True, check=True)
    assert told.stdout == (DEALER / "roster.csv").read_bytes()


def test_the_dealer_s_roster_has_forty_rows_of_all_kinds_without_fault(spec):
    rows = list(Roster(DEALER / "roster.csv", spec).rows())
    assert len(rows) == 40
    assert not [row for row in rows if row.problems or row.warnings]
    assert {row.lang for row in rows} == {"en", "fr"}
    assert {row.units for row in rows} == {"metric", "us", "imperial"}
    given = [row.machine.given for row in rows]
    elements = {g["vessels_n"].number * g["elements_per_vessel_n"].number for g in given}
    assert elements == {1, 2, 3, 4, 5, 6, 7, 8}
    assert {g["vessel_bore_mm"].unit for g in given} == {"in", "mm"}
