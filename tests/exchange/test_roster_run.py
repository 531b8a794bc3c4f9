import csv
import hashlib
import os
from dataclasses import replace
from email import message_from_bytes
from email.policy import default

import pytest
from openpyxl import load_workbook

from builder.exchange.claim import claim
from builder.problems import UserError
from builder.production import Edition, shorten
from builder.roster.roster import Roster
from builder.roster.run import Plan, run_roster
from builder.roster.workshop import Workshop
from builder.spec.editions import digest_words

TEXT = "site,language,vessels_n\nA,,1\nB,fr,2\nC,,3\n"
FAULTY = TEXT.replace("B,fr,2", "B,xx,0")


class Press:
    """Prints a few words in place of a workbook; `ill` fails, `poison` ends its process."""

    def __init__(self, _spec, lang, units):
        self.about = f"{lang} {units}"

    def build(self, machine):
        if machine.site == "ill":
            raise RuntimeError("no\nengine")
        if machine.site == "poison":
            os._exit(9)
        numbers = [typed.number for typed in machine.given.values()]
        return f"{self.about} {machine.site} {numbers}".encode()


class Never:
    """Builds nothing, and is not to be asked."""

    def __init__(self, *_):
        raise AssertionError("asked to build")


@pytest.fixture
def run(tmp_path, spec):
    """Return a function that runs a roster into out/ and returns status and codes by row."""

    def call(text=TEXT, press=Press, **options):
        path = tmp_path / "r.csv"
        path.write_text(text, encoding="utf-8")
        settings = {"with_mail": False, "jobs": 1, "force": False} | options
        plan = Plan(tmp_path / "out", **settings)
        found = run_roster(Roster(path, spec), plan, Workshop(spec, press))
        told = {d.record.row: [d.record.status, *[p.code for p in d.problems]] for d in found}
        return [told[row] for row in sorted(told)]

    return call


@pytest.fixture
def out(tmp_path):
    return tmp_path / "out"


def list_manifest(out):
    with (out / "manifest.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def names(out):
    return sorted(path.name for path in out.iterdir())


def test_each_row_has_its_book_and_its_line_in_the_manifest(run, out, spec):
    assert run() == [["built"]] * 3
    assert names(out) == ["a.xlsx", "b.xlsx", "c.xlsx", "manifest.csv"]
    assert (out / "b.xlsx").read_bytes() == b"fr metric B [2.0]"
    row = list_manifest(out)[1]
    digest = hashlib.sha256(b"fr metric B [2.0]").hexdigest()
    assert (row["row"], row["site"], row["language"], row["units"]) == ("3", "B", "fr", "metric")
    assert (row["file"], row["sha256"], row["size"]) == ("b.xlsx", digest, "17")
    assert (row["status"], row["specs_digest"]) == (
        "built",
        f"{spec.digest} {digest_words(spec, 'fr')}",
    )


def test_a_faulty_row_is_left_out_and_the_others_are_built(run, out):
    assert run(FAULTY) == [["built"], ["faulty", "unknown-choice", "outside-limits"], ["built"]]
    assert names(out) == ["a.xlsx", "c.xlsx", "manifest.csv"]
    row = list_manifest(out)[1]
    assert (row["file"], row["status"]) == ("", "faulty")
    assert row["warnings"] == "unknown-choice language; outside-limits vessels_n"


def test_where_all_rows_are_faulty_only_the_manifest_is_written(run, out):
    assert run("site,vessels_n\na,0\nb,x\n", Never) == [
        ["faulty", "outside-limits"],
        ["faulty", "bad-number"],
    ]
    assert names(out) == ["manifest.csv"]


def test_unchanged_rows_are_not_built_again(run, out):
    run()
    before = {path.name: path.stat().st_mtime_ns for path in out.glob("*.xlsx")}
    assert run(press=Never) == [["kept"]] * 3
    assert run("vessels_n,site,language\n3,C,en\n1,A,\n2,B,FR\n", Never) == [["kept"]] * 3
    assert {path.name: path.stat().st_mtime_ns for path in out.glob("*.xlsx")} == before


def test_only_rows_that_changed_or_lost_their_book_are_built_again(run, out):
    run()
    (out / "c.xlsx").unlink()
    assert run(TEXT.replace("A,,1", "A,,4")) == [["built"], ["kept"], ["built"]]
    assert (out / "a.xlsx").read_bytes() == b"en metric A [4.0]"


@pytest.mark.parametrize("column", ["version", "specs_digest", "input_hash"])
def test_books_of_another_version_or_specs_or_inputs_are_built_again(run, out, column):
    run()
    manifest = out / "manifest.csv"
    old = list_manifest(out)[1][column]
    manifest.write_text(manifest.read_text("utf-8").replace(old, "0"), "utf-8")
    assert run()[1] == ["built"]
    assert list_manifest(out)[1][column] == old


def test_a_book_that_somebody_typed_into_is_kept_until_force(run, out):
    run()
    (out / "a.xlsx").write_bytes(b"typed")
    changed = TEXT.replace("A,,1", "A,,4")
    for text in (TEXT, changed, TEXT):
        assert run(text)[0] == ["failed", "file-changed"]
        assert (out / "a.xlsx").read_bytes() == b"typed"
    assert run(force=True) == [["built"], ["kept"], ["kept"]]
    assert (out / "a.xlsx").read_bytes() == b"en metric A [1.0]"


def test_a_foreign_file_is_kept_until_force(run, out):
    out.mkdir()
    (out / "b.xlsx").write_bytes(b"foreign")
    for _ in range(2):
        assert run()[1] == ["failed", "file-exists"]
        assert (out / "b.xlsx").read_bytes() == b"foreign"
    assert run(force=True) == [["kept"], ["built"], ["kept"]]


def test_a_mended_row_overwrites_its_own_older_book(run, out):
    run()
    assert run(FAULTY)[1][0] == "faulty"
    assert (out / "b.xlsx").exists()
    assert run(TEXT.replace("B,fr,2", "B,fr,5")) == [["kept"], ["built"], ["kept"]]


def test_a_run_cut_short_goes_on_where_it_ended(run, out, tmp_path, spec):
    (tmp_path / "r.csv").write_text(TEXT, encoding="utf-8")
    plan = Plan(out, with_mail=False, jobs=1, force=False)
    begun = run_roster(Roster(tmp_path / "r.csv", spec), plan, Workshop(spec, Press))
    next(begun)
    begun.close()
    (out / "b.xlsx").write_bytes(b"fr metric B [2.0]")
    (out / ".gone.xlsx.rinsebook").mkdir()
    for name in ("lock", "gone.xlsx"):
        (out / ".gone.xlsx.rinsebook" / name).write_bytes(b"half")
    assert run() == [["kept"], ["built"], ["built"]]
    assert names(out) == ["a.xlsx", "b.xlsx", "c.xlsx", "manifest.csv"]


def test_two_runs_do_not_work_in_one_folder(run, out):
    run()
    before = {path.name: path.read_bytes() for path in out.iterdir()}
    with claim(out / ".roster.lock"):
        with pytest.raises(UserError, match=r"Another run is working in .*out") as error:
            run(TEXT.replace("A,,1", "A,,4"))
        (out / ".roster.lock").unlink()
    assert error.value.exit_code == 4
    assert {path.name: path.read_bytes() for path in out.iterdir()} == before


def test_the_manifest_changes_only_when_a_run_is_complete(out, run, tmp_path, spec):
    run(FAULTY)
    before = (out / "manifest.csv").read_bytes()
    plan = Plan(out, with_mail=False, jobs=1, force=False)
    (tmp_path / "r.csv").write_text(TEXT.replace("A,,1", "A,,4"), encoding="utf-8")
    begun = run_roster(Roster(tmp_path / "r.csv", spec), plan, Workshop(spec, Press))
    next(begun)
    begun.close()
    assert (out / "a.xlsx").read_bytes() == b"en metric A [4.0]"
    assert (out / "manifest.csv").read_bytes() == before
    assert run(TEXT.replace("A,,1", "A,,4")) == [["kept"], ["built"], ["kept"]]


def test_a_row_that_cannot_be_made_does_not_end_the_others(run, out):
    out.mkdir()
    (out / "d.xlsx").mkdir()
    assert run("site\nill\nd\nb\n") == [
        ["failed", "not-built"],
        ["failed", "not-written"],
        ["built"],
    ]


def test_several_processes_make_the_same_folder(run, out):
    told = run(FAULTY, jobs=2, with_mail=True)
    books = {path.name: path.read_bytes() for path in out.iterdir()}
    for path in out.iterdir():
        path.unlink()
    assert run(FAULTY, with_mail=True) == told
    assert {path.name: path.read_bytes() for path in out.iterdir()} == books


def test_a_process_that_dies_costs_its_row_alone(run, out):
    told = run("site\na\npoison\nb\nill\nc\n", jobs=2)
    assert told == [["built"], ["failed", "ended"], ["built"], ["failed", "not-built"], ["built"]]
    assert [row["row"] for row in list_manifest(out)] == ["2", "3", "4", "5", "6"]


def test_messages_stand_beside_the_books_for_kept_rows_too(run, out):
    text = "site,mail\nA,a@example.org\nB,\n"
    run(text)
    assert run(text, Never, with_mail=True) == [["kept"]] * 2
    assert names(out) == ["a.eml", "a.xlsx", "b.eml", "b.xlsx", "manifest.csv"]
    message = message_from_bytes((out / "a.eml").read_bytes(), policy=default)
    (book,) = message.iter_attachments()
    assert (message["To"], book.get_content()) == ("a@example.org", b"en metric A []")
    assert [row["warnings"] for row in list_manifest(out)] == [
        "",
        "no mail address: the message has no recipient",
    ]


def test_a_message_that_somebody_changed_is_kept_until_force(run, out):
    run(with_mail=True)
    (out / "a.eml").write_bytes(b"mine")
    other = TEXT.replace("site,", "mail,site,").replace("\n", "\na@example.org,", 3)
    assert run(other, with_mail=True)[0] == ["failed", "file-changed"]
    assert (out / "a.eml").read_bytes() == b"mine"
    assert b"To: a@example.org" in (out / "b.eml").read_bytes()
    assert run(other, with_mail=True, force=True) == [["kept"]] * 3


HOSTILE = [
    "=cmd|'/c calc'!A0",
    '=HYPERLINK("http://x.example")',
    "{=1+1}",
    "=",
    "http://x.example",
    "../../x",
    "C:\\x",
    "CON",
    "@SUM(1)",
    "external:x.xlsx",
    "+1",
    "x" * 120,
]


def test_no_text_becomes_a_formula_a_link_or_a_path(run, out, tmp_path, spec):
    machine = [sheet for sheet in spec.sheets if sheet.key == "machine"]
    cover = replace(shorten(spec), sheets=machine)
    texts = ['"' + text.replace('"', '""') + '"' for text in HOSTILE]
    text = "".join(f"{word},{word},{word},{word}\n" for word in texts)
    head = "producer,site,machine,file\n"

    def press(_spec, lang, units):
        return Edition(cover, lang, units)

    assert run(head + "a,b,c,plain\n" + text, press) == [["built"]] * (len(HOSTILE) + 1)
    assert names(tmp_path) == ["out", "r.csv"]
    plain, *books = [row["file"] for row in list_manifest(out)]
    formulas = list_formulas(out / plain)
    for name, hostile in zip(books, HOSTILE, strict=True):
        assert list_formulas(out / name) == formulas
        cells = [cell.value for row in load(out / name).iter_rows() for cell in row]
        assert cells.count(hostile) == 3
    assert not [c for row in list_manifest(out) for c in row.values() if c[:1] in ("=", "+", "@")]


def load(path):
    return load_workbook(path).worksheets[0]


def list_formulas(path):
    cells = [cell for row in load(path).iter_rows() for cell in row]
    assert not [cell for cell in cells if cell.hyperlink]
    return [(cell.coordinate, cell.value) for cell in cells if cell.data_type == "f"]
