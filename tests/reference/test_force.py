"""Lines in force: sound or not, their units, and how far today's values have moved from them."""

import pytest

from builder.reference import force

SPRING = (46082.0, 1060.0, 400.0, 11.44, 12.40)
LATER = (46090.0, 1100.0, 400.0, 11.44, 12.40)
TODAY = {
    "rinse_target_L": 4500.0,
    "first_rinse_target_L": 1500.0,
    "floor_for_log_pH": 11.4,
    "ceiling_for_log_pH": 12.3,
}


def hold(*lines, volumes=None, book="metric") -> list[tuple]:
    """Return day, rinse, first rinse, floor and ceiling of today's values and of each line."""
    columns = [list(column) for column in zip(*lines, strict=True)]
    words = volumes or [None] * len(lines)
    return list(zip(*force.held(*columns, words, book, **TODAY).values(), strict=True))


def test_today_stands_in_the_first_row_without_a_day() -> None:
    assert hold(SPRING)[0] == (None, 4500.0, 1500.0, 11.4, 12.3)


@pytest.mark.parametrize(
    ("word", "book", "litres"),
    [
        (None, "metric", 1060.0),
        ("no such unit", "metric", 1060.0),
        (None, "us", 1060 * 3.785411784),
        ("gal_us", "metric", 1060 * 3.785411784),
        (None, "imperial", 1060 * 4.54609),
        ("L", "imperial", 1060.0),
    ],
)
def test_a_rinse_is_read_in_the_unit_of_its_line_or_of_the_book(word, book, litres) -> None:
    assert hold(SPRING, volumes=[word], book=book)[1][1] == litres


@pytest.mark.parametrize("place", range(5))
@pytest.mark.parametrize("cell", [None, "soon", -1.0, 100_001.0])
def test_a_line_that_lacks_a_number_is_not_in_force_nor_any_below(place, cell) -> None:
    broken = [*SPRING[:place], cell, *SPRING[place + 1 :]]
    assert hold(broken, LATER)[1:] == [(None,) * 5] * 2
    assert hold(SPRING, broken, LATER)[1:] == [SPRING, (None,) * 5, (None,) * 5]


def test_a_line_of_the_same_day_is_not_later() -> None:
    assert [line[0] for line in hold(SPRING, SPRING)] == [None, 46082.0, None]


def test_a_row_takes_the_last_line_whose_day_has_come() -> None:
    days = [None, 46082.0, 46090.0, None]
    found = [force.find_line(day, days) for day in (0.0, 46081.0, 46082.0, 46089.0, 46090.0)]
    assert found == [0, 0, 1, 1, 2]


def find_bad(*cells) -> float:
    lines = [list(cell) for cell in zip(*cells, strict=True)]
    return force.line_bad_n(*lines, [None, 46082.0, None, None])


def test_the_first_line_that_holds_something_and_is_not_in_force_is_named() -> None:
    sound, empty = (*SPRING, None, None, None, None, None, None), (None,) * 11
    unit = (*[None] * 10, "lb")
    assert find_bad(sound, empty, empty) == 0
    assert find_bad(sound, empty, unit) == 3
    assert find_bad(sound, unit, unit) == 2


@pytest.mark.parametrize(
    ("today", "differs"),
    [
        ((4000, 1500, 11.44, 12.40), 0),
        ((4020, 1500, 11.44, 12.40), 0),  # 0.5 % of 4000
        ((4020.1, 1500, 11.44, 12.40), 1),
        ((4000, 1492.4, 11.44, 12.40), 1),  # 7.6 of 7.5
        ((4000, 1500, 11.49, 12.40), 0),
        ((4000, 1500, 11.44, 12.46), 1),
        ((None, 1500, None, 12.40), 0),
    ],
)
def test_today_differs_from_the_newest_line_beyond_half_a_per_cent_or_a_step_of_pH(
    today, differs
) -> None:
    old, newest, free = (1, 1, 1, 1), (4000.0, 1500.0, 11.44, 12.40), (None,) * 4
    columns = zip(today, old, newest, free, strict=True)
    assert force.line_differs_n([None, 46082.0, 46090.0, None], *columns) == differs


def test_without_a_line_nothing_differs() -> None:
    assert force.line_differs_n([None, None], [4000, None], *[[1500, None]] * 3) == 0


def test_a_rinse_half_a_per_cent_under_hold_up_times_factor_is_enough() -> None:
    words = [None] * 3
    assert force.line_under_n([3980.0, None, 3979.0], [100.0] * 3, [40.0] * 3, words) == 3
    assert force.line_under_n([3979.0] * 3, [100.0, None, "a"], ["b", 40.0, 40.0], words) == 0
    assert force.line_under_n([0.0] * 3, [-1.0, 100.0, 100.0], [40.0, 1001.0, -1.0], words) == 0
    assert force.line_under_n([1.0], [26_500.0], [1.0], ["gal_us"]) == 0  # over 100,000 L


def test_the_checks_of_the_lines_look_where_something_is_found() -> None:
    for check in (force.line_sound_ok, force.line_today_ok, force.line_rule_ok):
        assert (check(0.0), check(1.0)) == ("ok", "look")
