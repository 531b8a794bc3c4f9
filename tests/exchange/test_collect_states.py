import pytest

from exchange.collected import FAULT, Sample, refusal, run


def tell(shelf):
    """Return what the findings say of each file, files by name alone."""
    folder = f"{shelf.folder}/"
    return [
        (row["file"], row["severity"], row["text"].replace(folder, ""))
        for row in shelf.read("findings")
    ]


def list_machines(shelf):
    return [row["file"] for row in shelf.read("machines")]


THREE = [run(0), run(1), run(2)]


@pytest.mark.parametrize(
    ("older", "newer"),
    [
        ({"rows": THREE, "modified": "2027-01-01T00:00:00Z"}, {"rows": [*THREE, run(3)]}),
        ({"rows": THREE[1:], "modified": "2027-01-01T00:00:00Z"}, {"rows": THREE}),
        (
            {"rows": THREE, "modified": "2026-04-01T08:00:00Z"},
            {"rows": THREE, "given": {"vessels_n": 2.0}, "modified": "2026-04-01T09:00:00Z"},
        ),
        ({"rows": []}, {"rows": [run(0)]}),
    ],
    ids=["latest day", "most rows", "modified last", "any day"],
)
@pytest.mark.parametrize("names", [("a.xlsx", "b.xlsx"), ("b.xlsx", "a.xlsx")])
def test_only_the_newest_state_of_a_machine_counts(shelf, older, newer, names):
    for name, state in zip(names, (older, newer), strict=True):
        shelf.put(name, Sample(**state))
    assert list_machines(shelf) == [names[1]]
    assert {row["file"] for row in shelf.read("events")} == {names[1]}
    text = f"older state of the same machine, newest is {names[1]}"
    assert tell(shelf) == [(names[0], "info", text)]


def test_the_same_typing_twice_is_the_same_content(shelf):
    for name in ("a.xlsx", "b.xlsx", "c.xlsx"):
        shelf.put(name, Sample(rows=THREE), mark=name)
    assert list_machines(shelf) == ["a.xlsx"]
    wanted = [(name, "info", "same content as a.xlsx") for name in ("b.xlsx", "c.xlsx")]
    assert tell(shelf) == wanted


def test_a_copy_of_an_older_state_is_told_as_a_copy_of_it(shelf):
    shelf.put("a.xlsx", Sample(rows=THREE))
    shelf.put("b.xlsx", Sample(rows=THREE[:1]), mark="b")
    shelf.put("c.xlsx", Sample(rows=THREE[:1]), mark="c")
    assert tell(shelf) == [
        ("b.xlsx", "info", "older state of the same machine, newest is a.xlsx"),
        ("c.xlsx", "info", "same content as b.xlsx"),
    ]


def test_two_copies_of_a_file_that_cannot_be_read_are_called_about_once(shelf):
    for name in ("a.xlsx", "b.xlsx"):
        shelf.put(name, Sample(error=refusal(str(shelf.folder / name))), mark="the same bytes")
    assert [call.file.rpartition("/")[2] for call in shelf.read_calls()] == ["a.xlsx"]
    assert ("b.xlsx", "info", "same content as a.xlsx") in tell(shelf)
    assert list_machines(shelf) == []


def test_a_row_filled_in_later_is_no_contradiction(shelf):
    shelf.put("a.xlsx", Sample(rows=[run(0), run(1)]))
    shelf.put("b.xlsx", Sample(rows=[run(0, initials="ab"), run(1), run(2)]))
    assert [severity for _, severity, _ in tell(shelf)] == ["info"]
    assert [call.reasons[0].kind for call in shelf.read_calls()] == ["nothing"]


def test_a_log_with_fewer_cells_that_was_saved_later_is_no_contradiction(shelf):
    shelf.put("a.xlsx", Sample(rows=[run(0, initials="ab")]))
    shelf.put("b.xlsx", Sample(rows=[run(0)], modified="2026-04-02T00:00:00Z"))
    text = "older state of the same machine, newest is b.xlsx"
    assert tell(shelf) == [("a.xlsx", "info", text)]


def test_the_latest_day_counts_more_than_the_number_of_entries(shelf):
    shelf.put("a.xlsx", Sample(rows=[run(0), run(1), run(2)]))
    shelf.put("b.xlsx", Sample(rows=[run(0), run(9)]))
    assert list_machines(shelf) == ["b.xlsx"]


def test_logs_that_contradict_each_other_are_told_and_not_mixed(shelf):
    shelf.put("a.xlsx", Sample(rows=[run(0), run(5, hours_h=8.0)]))
    shelf.put("b.xlsx", Sample(rows=[run(0), run(6, hours_h=7.0)]))
    assert [row["hours_h"] for row in shelf.read("events") if row["hours_h"] > 0] == [7.0]
    (file, severity, text) = tell(shelf)[1]
    assert (file, severity) == ("a.xlsx", "warning")
    assert text.startswith("the log contradicts that of b.xlsx: neither holds all entries")
    ((call,),) = [shelf.read_calls()]
    assert [reason.kind for reason in call.reasons] == ["contest"]
    assert call.reasons[0].names[0].endswith("a.xlsx")


def test_findings_of_older_states_are_kept(shelf):
    shelf.put("a.xlsx", Sample(rows=THREE[:1], faults=[FAULT]))
    shelf.put("b.xlsx", Sample(rows=THREE))
    assert ("a.xlsx", "fault", FAULT.text) in tell(shelf)
    assert [call.reasons[0].kind for call in shelf.read_calls()] == ["nothing"]
