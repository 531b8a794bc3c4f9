import math

import pytest

from builder.audit.findings import Finding
from exchange.collected import DAY, FAULT, Sample, refusal, run


def gather(shelf, sample, name="a.xlsx"):
    shelf.put(name, sample)
    return shelf.gather(name)


def test_a_sound_book_gives_its_machine_inputs_results_and_checks(shelf):
    values = {"rinse_owed_L": 900.0, "rinse_ok": "ok"}
    sample = Sample(rows=[run(0)], given={"vessels_n": 2.0}, values=values)
    book = gather(shelf, sample)
    assert (book.producer, book.site, book.machine) == ("Érablière du Lac", "camp", "RO 1")
    assert (book.state, book.version, book.language, book.units) == ("sound", "0.1.0", "fr", "us")
    wanted = {"vessels_n": 2.0, "rinse_owed_L": 900.0, "rinse_ok": "ok"}
    assert {key: value for key, value in book.values.items() if value is not None} == wanted
    assert len(book.sha256) == 64
    assert book.modified == "2026-04-01T00:00:00Z"


def test_events_stand_in_the_order_of_the_rows_with_the_hours_run_so_far(shelf):
    rows = [run(2, hours_h=5.0), run(0, hours_h=3.0), run(1), {"event": "rinse"}, run(3)]
    events = gather(shelf, Sample(rows=rows)).events
    assert [event["row"] for event in events] == [1, 2, 3, 4, 5]
    assert [event["run_hours_h"] for event in events] == [5, 8, 8, 8, 8]


def test_rows_without_anything_typed_are_no_events(shelf):
    events = gather(shelf, Sample(rows=[{"begun_n": 0.0}, run(1), {}])).events
    assert [event["row"] for event in events] == [2]


def test_what_is_no_finite_number_is_blank(shelf):
    book = gather(shelf, Sample(values={"rinse_owed_L": math.inf}, rows=[run(1, sap_L=math.nan)]))
    assert (book.values["rinse_owed_L"], book.events[0]["sap_L"]) == (None, None)


def test_a_file_that_cannot_be_read_is_a_finding_without_its_path(shelf):
    book = gather(shelf, Sample(error=refusal(str(shelf.folder / "a.xlsx"))))
    assert (book.state, book.values, book.outlook.reasons[0].kind) == (
        "unreadable",
        None,
        "unreadable",
    )
    told = [(f.severity, f.text) for f in book.findings]
    assert told == [("fault", "is damaged (BadZipFile). Audit a workbook of ours.")]


def test_an_audit_that_breaks_down_on_one_file_is_a_finding_of_it(shelf):
    book = gather(shelf, Sample(error=RuntimeError("no\nsuch part")))
    text = "the audit failed on this file: RuntimeError: no such part"
    assert (book.state, [f.text for f in book.findings]) == ("unreadable", [text])


def test_a_missing_file_is_a_finding(shelf):
    shelf.samples["gone.xlsx"] = Sample()
    book = shelf.gather("gone.xlsx")
    assert (book.state, book.sha256) == ("unreadable", "")


def test_a_workbook_of_somebody_else_keeps_the_words_of_the_audit(shelf):
    strange = Finding("", "", "not a workbook of this program")
    book = gather(shelf, Sample(foreign=True, faults=[strange]))
    assert (book.state, [f.text for f in book.findings]) == ("unreadable", [strange.text])


@pytest.mark.parametrize(
    ("faults", "state", "kinds"),
    [
        ([], "empty", ["silent"]),
        ([FAULT, FAULT], "altered", ["altered", "silent"]),
        ([Finding("", "version", "built by version 0.0.9")], "edition", ["edition", "silent"]),
        ([Finding("", "specs", "built with other specs"), FAULT], "edition", ["edition", "silent"]),
        ([Finding("A!B1", "version", "constant")], "altered", ["altered", "silent"]),
    ],
)
def test_the_state_tells_altered_books_from_those_of_another_edition(shelf, faults, state, kinds):
    book = gather(shelf, Sample(faults=faults, warnings=[FAULT]))
    assert (book.state, [r.kind for r in book.outlook.reasons]) == (state, kinds)
    assert (book.count("fault"), book.count("warning")) == (len(faults), 1)


@pytest.mark.parametrize(
    ("faults", "state", "kinds"),
    [
        ([], "edition", ["silent", "earlier"]),
        ([FAULT], "altered", ["altered", "silent", "earlier"]),
    ],
)
def test_an_earlier_edition_that_is_sound_is_a_remark_and_no_call(shelf, faults, state, kinds):
    lead = Finding("", "version", "built by version 0.0.9 with specs beef; this is version 0.1.0")
    book = gather(shelf, Sample(faults=faults, warnings=[lead]))
    assert (book.state, [r.kind for r in book.outlook.reasons]) == (state, kinds)


@pytest.mark.parametrize(
    ("found", "state"),
    [
        ([], "empty"),
        ([{"rank_n": 4.0}, {"rank_n": 2.0}], "unfinished"),
        ([{"rank_n": 1.0, "bad_column_n": 8.0}], "unfinished"),
        ([{"rank_n": 4.0, "bad_column_n": 0.0}, {"rank_n": 3.0}], "sound"),
    ],
)
def test_only_a_log_that_is_kept_and_complete_is_sound(shelf, found, state):
    rows = [run(day, **cells) for day, cells in enumerate(found)]
    assert gather(shelf, Sample(rows=rows)).state == state


def test_other_words_of_this_edition_leave_a_book_sound(shelf):
    lead = Finding("", "words", "built with other words or looks")
    assert gather(shelf, Sample(rows=[run(0)], warnings=[lead])).state == "sound"


def test_case_and_runs_of_spaces_make_no_other_machine(shelf):
    one = gather(shelf, Sample(title="RO  1 ", producer="ÉRABLIÈRE du lac"))
    two = gather(shelf, Sample(title="ro 1"))
    assert one.identity == two.identity
    assert one.identity != gather(shelf, Sample(title="RO 2")).identity


def test_books_that_nobody_named_are_one_machine_only_if_their_content_is_the_same(shelf):
    nobody = {"title": "", "producer": " ", "site": ""}
    one, same, other = (
        gather(shelf, Sample(**nobody, given={"vessels_n": n}), f"{i}.xlsx")
        for i, n in enumerate((1.0, 1.0, 2.0))
    )
    assert one.identity == same.identity != other.identity


@pytest.mark.parametrize(
    ("change", "same"),
    [
        ({"modified": "2026-05-01T00:00:00Z", "values": {"rinse_owed_L": 1.0}}, True),
        ({"rows": [run(0, note="x"), {}, {}]}, True),
        ({"rows": [run(0, note="y")]}, False),
        ({"given": {"vessels_n": 1.0}}, False),
        ({"site": "other"}, False),
    ],
)
def test_content_is_what_was_typed_and_nothing_else(shelf, change, same):
    plain = Sample(rows=[run(0, note="x")])
    changed = Sample(**{"rows": plain.rows, **change})
    found = gather(shelf, plain).content == gather(shelf, changed).content
    assert found is same


def test_last_day_and_entries_are_those_of_the_log(shelf):
    book = gather(shelf, Sample(rows=[run(9), run(4), {"event": "rinse"}]))
    assert (book.outlook.last_day, len(book.events)) == (DAY + 9, 3)
