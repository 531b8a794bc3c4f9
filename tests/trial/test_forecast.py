"""Next wash, and what washing no longer brings back: numbers worked out by hand.

t, two-sided 80 %: 1.533 with 4 degrees of freedom, 1.476 with 5 (any printed table of Student's t).
"""

import pytest

from trial.seasons import clean_test, on, run, wash

FALL = [(0, 100), (20, 98), (40, 96)]  # 0.1 % an hour, on a line
STEEP = [(0, 100), (20, 96), (40, 92)]  # 0.2 % an hour, on a line


def cycle(day, points, run_h=20.0):
    """Return a wash, and tests with runs of 20 h between, each two days after the last."""
    rows = [wash(day), clean_test(day, points[0][1])]
    for number, (_, pct) in enumerate(points[1:], start=1):
        rows += [run(day + 2 * number, run_h), clean_test(day + 2 * number, pct)]
    return rows


def test_three_tests_on_a_line_tell_the_earliest_the_expected_and_the_latest(book):
    # b = -0.1, Sxx = 800, s2 = 16/5, t2s2 = 6.97, q = 0.00871; from the mean, x = 20, the limit
    # is 80 h away, 60 h after the end. Earliest (0.8 - 0.7487)/0.001287 = 39.8 less 20; latest
    # far off, so 30 days of 40 h in 5 days.
    book.play(*cycle(0, FALL))
    assert book.tell("next_wash_class_n") == 6
    assert book.tell("next_wash_unit_n") == 1
    assert book.tell("next_wash_from_n") == pytest.approx(19.8, abs=0.2)
    assert book.tell("next_wash_middle_n") == pytest.approx(60)
    assert book.tell("next_wash_to_n") == pytest.approx(240)


def test_a_run_without_hours_turns_hours_into_days_for_the_whole_book(book):
    # 1 % a day: Sxx = 8, q = 0.871, b2 = 1; the same line in days, ten to one: 1.98, 6 and 30 days.
    book.play(*cycle(0, FALL, run_h=None))
    assert book.tell("next_wash_unit_n") == 2
    assert book.tell("next_wash_from_n") == pytest.approx(1.98, abs=0.02)
    assert book.tell("next_wash_middle_n") == pytest.approx(6)
    assert book.tell("next_wash_to_n") == pytest.approx(30)


def test_one_test_after_a_wash_borrows_the_fall_of_the_wash_before(book):
    # e = -0.2, P = 1/(1/800 + 0.08^2/3.2) = 307.7, q = 6.97/307.7 = 0.02265: (2 -+ 1.5448)/0.01735.
    book.play(*cycle(0, STEEP), *cycle(4, [(0, 100)]))
    assert book.tell("next_wash_from_n") == pytest.approx(26.2, abs=0.2)
    assert book.tell("next_wash_middle_n") == pytest.approx(50)
    assert book.tell("next_wash_to_n") == pytest.approx(204.4, abs=0.5)


@pytest.mark.parametrize(
    ("rows", "told"),
    [
        ([], 1),
        ([*cycle(0, FALL), wash(5)], 1),
        (cycle(0, [(0, 100), (20, 89.9)]), 2),
        ([*cycle(0, STEEP), run(4, 20.0)], 2),
        (cycle(0, FALL[:2]), 3),
        (cycle(0, [(0, 100), (20, 100), (40, 100)]), 4),
        ([*cycle(0, STEEP), on(5, "first", rinse_L=0.0)], 6),
    ],
    ids=[
        "empty",
        "washed since",
        "under the limit",
        "line at the limit",
        "two tests",
        "level",
        "between",
    ],
)
def test_the_next_wash_is_told_in_words(book, rows, told):
    book.play(*rows)
    assert book.tell("next_wash_class_n") == told
    assert (book.tell("next_wash_from_n") is None) == (told != 6)


def test_an_earliest_that_has_passed_is_told_as_0(book):
    # b = -0.2, q = 0.00871, A = 6: (1.2 - 0.6216)/0.03129 = 18.5 from the mean, the end is at 20.
    book.play(*cycle(0, STEEP))
    assert book.tell("next_wash_from_n") == 0
    assert book.tell("next_wash_middle_n") == pytest.approx(10)


def test_a_test_at_the_limit_is_not_under_it(book):
    assert book.play(*cycle(0, [(0, 100), (20, 90)])).tell("next_wash_class_n") == 3


def washes(*flows, hours=8.0):
    return [
        row
        for day, pct in enumerate(flows)
        for row in (wash(day), run(day, hours), clean_test(day, pct))
    ]


@pytest.mark.parametrize(
    ("rows", "told", "lost"),
    [
        (washes(100, 95), 1, None),
        (washes(100, 95, 91), 3, 4.5),
        (washes(100, 100, 100), 4, None),
        (washes(100, 89, 89), 2, None),
        (washes(100, 89, 89, hours=11.0), 1, None),
        ([*washes(89, 89), on(3, "replacement"), clean_test(3, 100)], 1, None),
        ([on(0, "replacement"), clean_test(0, 100), *washes(95, 91)], 3, 4.5),
    ],
    ids=[
        "two washes",
        "falls",
        "level",
        "twice under",
        "too late after the wash",
        "replaced",
        "counted from there",
    ],
)
def test_what_washing_no_longer_brings_back(book, rows, told, lost):
    # 100, 95, 91 by the number of the wash: -4.5; residue 1/6, s2 = 16.17/5; t2s2/Sxx = 3.52
    # against 20.25. A replacement's own first test is the first of those that count.
    book.play(*rows)
    assert book.tell("lasting_class_n") == told
    assert book.tell("lasting_fall_pct") == (lost and pytest.approx(lost))


def test_only_two_washes_in_a_row_under_the_limit_ask_to_look(book):
    assert book.play(*washes(89, 100, 89)).tell("lasting_ok") == "ok"
    assert book.play(*washes(100, 89, 89)).tell("lasting_ok") == "check this"
