"""Lines of the rinse record: how a debt is followed to its end."""

import pytest

from . import stories
from .test_log import DAY_D, play

WASH = {"event": "alkaline wash"}


def write(*rows: dict, lines: int, **given) -> list[dict]:
    """Return the first lines of the record, by the names of its columns."""
    known = play(*rows, **given)
    names = [name for name in known if name.startswith("record_") and name.endswith("_list")]
    assert known["record_lines_n"] == known["record_shown_n"] == lines
    return [{name[7:-5]: known[name][n] for name in names} for n in range(lines)]


def test_the_line_of_the_start_has_no_day_product_water_or_initials() -> None:
    rinse = {"event": "first rinse", "rinse": 2000}
    (start,) = write(rinse, lines=1, start="stored or new")
    blank = ("day_d", "product", "product_kg", "water", "initials", "mended")
    assert [start[name] for name in blank] == [None] * 6
    assert (start["row_n"], start["kind"], start["line_n"]) == (0, "start", 0)
    assert (start["owed_L"], start["done_L"], start["state_n"]) == (1500, 2000, 3)


def test_a_start_that_a_wash_follows_at_once_is_carried_on() -> None:
    start, wash = write({**WASH, "rinse": 5000}, lines=2, start="stored or new")
    assert (start["done_L"], start["cleared_d"], start["state_n"]) == (0, None, 4)
    assert (wash["owed_L"], wash["done_L"], wash["state_n"]) == (4000, 5000, 2)


def test_rinses_after_the_row_that_clears_are_not_done_for_the_debt() -> None:
    rinse = {"event": "rinse", "rinse": 4000}
    (wash,) = write(WASH, rinse, rinse, lines=1)
    assert (wash["done_L"], wash["cleared_d"], wash["state_n"]) == (4000, DAY_D, 3)


def test_sap_before_the_next_debt_is_worse_than_carried_on() -> None:
    first, second = write(WASH, {"event": "run"}, {**WASH, "rinse": 4000}, lines=2)
    assert (first["state_n"], first["done_L"], second["state_n"]) == (1, 0, 2)


def test_days_that_are_not_known_are_blank() -> None:
    (wash,) = write({**WASH, "date": "", "rinse": 4000}, lines=1)
    assert (wash["day_d"], wash["cleared_d"], wash["row_n"]) == (None, None, 1)


def test_a_line_repeats_what_its_row_says() -> None:
    told = {"product": "x", "mass": "much", "water": "well", "initials": "ab", "done": "called"}
    (wash,) = write({**WASH, "rinse": 4000, **told}, lines=1)
    names = ("product", "product_kg", "water", "initials", "mended", "kind", "day_d")
    assert [wash[n] for n in names] == ["x", None, None, "ab", "called", "alkaline", DAY_D]


@pytest.mark.parametrize("event", ["storage", "replacement"])
def test_storage_and_replacement_ask_for_a_first_rinse(event) -> None:
    (line,) = write({"event": event}, lines=1)
    assert (line["owed_L"], line["state_n"]) == (1500, 5)


@pytest.mark.parametrize(
    ("event", "unknown"),
    [
        ("alkaline wash", "rinse_target_L"),
        ("acid wash", "rinse_target_L"),
        ("storage", "first_rinse_target_L"),
        ("replacement", "first_rinse_target_L"),
    ],
)
def test_a_debt_of_a_volume_that_nobody_knows_is_neither_cleared_nor_owed(event, unknown) -> None:
    counted = 0 if event == "storage" else 900
    rows = [{"event": event, "rinse": 900}, {"event": "run"}]
    line, _ = write(*rows, {"event": event}, lines=2, unknown=[unknown])
    assert (line["owed_L"], line["cleared_d"], line["state_n"]) == (None, None, 6)
    assert (line["done_L"], line["row_n"], line["day_d"]) == (counted, 1, DAY_D)


def test_sap_on_a_debt_of_unknown_volume_is_not_known_either() -> None:
    rows = [WASH, {"event": "storage"}, {"event": "run"}]  # 4000 L stand below the storage too
    wash, storage = write(*rows, lines=2, unknown=["first_rinse_target_L"])
    assert (wash["owed_L"], wash["state_n"]) == (4000, 4)
    assert (storage["owed_L"], storage["state_n"]) == (None, 6)


def test_a_wash_does_not_hang_on_the_first_rinse_nor_a_storage_on_the_rinse() -> None:
    (wash,) = write({**WASH, "rinse": 4000}, lines=1, unknown=["first_rinse_target_L"])
    (storage,) = write({"event": "storage"}, lines=1, unknown=["rinse_target_L"])
    assert (wash["state_n"], storage["state_n"], storage["owed_L"]) == (2, 5, 1500)


def test_a_start_of_unknown_volume_has_no_line() -> None:
    rows = [{"event": "run"}, {**WASH, "rinse": 4000}]
    (wash,) = write(*rows, lines=1, start="stored or new", unknown=["first_rinse_target_L"])
    assert (wash["row_n"], wash["state_n"]) == (2, 2)


def test_the_record_has_a_line_for_each_row_and_one() -> None:
    assert len(play(WASH)["record_row_n_list"]) == stories.ROWS_N + 1
