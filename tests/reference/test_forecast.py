"""The forecast: worked by hand, and against sums over made-up seasons."""

import math
import random

import pytest
from scipy.stats import t as student

from builder.reference import forecast

FALLING = ["alkaline", "test", "run", "test", "run", "test", "run", "test"]
HOURS = [None, None, 10.0, None, 10.0, None, 10.0, None]
DAYS = [46082.0, 46082.0, 46083.0, 46083.0, 46084.0, 46084.0, 46085.0, 46085.0]
FLOWS = [None, 100.0, None, 98.0, None, 96.0, None, 94.0]


def look_ahead(events, hours, days, flows, limit=90.0) -> list[float | None]:
    """Return class, unit, earliest, middle and latest."""
    told = [forecast.next_wash_class_n(events, hours, days, flows, limit)]
    told.append(forecast.next_wash_unit_n(events, hours))
    for result in ("from", "middle", "to"):
        function = getattr(forecast, f"next_wash_{result}_n")
        try:
            told.append(function(events, hours, days, flows, limit))
        except ValueError:
            told.append(None)
    return told


def test_four_tests_on_a_falling_line() -> None:
    """Mean 15 h and 97 %, slope -0.2: 20 h; s2 16/6, t 1.43976: 7.02 to 59.72 h."""
    expected = [6, 1, 7.02, 20.0, 59.72]
    assert look_ahead(FALLING, HOURS, DAYS, FLOWS) == pytest.approx(expected, abs=0.006)


def test_a_run_without_hours_makes_the_book_count_in_days() -> None:
    """Mean 1.5 d, slope -2 a day, from 3 d: (97 - 90)/2 + 1.5 - 3 = 2 d."""
    gap = [None, None, 10.0, None, "x", None, 10.0, None]
    for hours in (gap, [None] * 8, [0.0] * 8):
        told = look_ahead(FALLING, hours, DAYS, FLOWS)
        assert told[:2] == [6, 2]
        assert told[3] == pytest.approx(2.0)


def test_the_latest_ends_at_thirty_days_of_the_season_s_own_hours() -> None:
    """30 h in 4 days: 7.5 h a day, 225 h in 30 days."""
    steep = [None, 100.0, None, 98.6, None, 97.2, None, 95.8]
    assert look_ahead(FALLING, HOURS, DAYS, steep, 60.0)[4] == pytest.approx(225.0)


@pytest.mark.parametrize(
    ("flows", "limit", "class_n"),
    [
        ([None] * 8, 90.0, 1),
        ([None, 100.0, None, 95.0, None, 90.0, None, 89.0], 90.0, 2),
        ([None, 100.0, None, 95.0, None, None, None, None], 90.0, 3),
        ([None, 94.0, None, 96.0, None, 98.0, None, 100.0], 90.0, 4),
        ([None, 100.0, None, 99.3, None, 98.6, None, 97.9], 90.0, 4),  # b2 0.0049, q 0.0111
        ([None, 103.0, None, 97.0, None, 91.0, None, 90.5], 90.0, 2),  # the line is there first
        (FLOWS, 10.0, 5),
    ],
)
def test_the_classes_of_the_forecast(flows, limit, class_n) -> None:
    told = look_ahead(FALLING, HOURS, DAYS, flows, limit)
    assert told[0] == class_n
    assert told[2:] == [None] * 3


def test_only_between_has_an_earliest_and_a_latest() -> None:
    with pytest.raises(ValueError, match="a forecast of class 5 has no earliest and latest"):
        forecast.next_wash_to_n(FALLING, HOURS, DAYS, FLOWS, 10.0)


def test_three_tests_at_one_hour_need_more() -> None:
    still = [None, 99.0, 99.5, 98.0]
    assert (
        look_ahead(["alkaline", "test", "test", "test"], [1.0] + [None] * 3, DAYS[:4], still)[0]
        == 3
    )


def make_season(seed: int) -> tuple[list, list, list, list]:
    noise = random.Random(seed)  # noqa: S311 - nothing secret hangs on it
    events, hours, days, flows = [], [], [], []
    flow = 100.0
    for day in range(noise.randint(6, 40)):
        kind = noise.choice(["run", "run", "run", "alkaline", "replacement"])
        flow = 100.0 if kind != "run" else flow - 1.2
        test = noise.random() < 0.7
        hours += [round(noise.uniform(4, 12), 1) if kind == "run" else None, *[None] * test]
        events += [kind, *["test"] * test]
        flows += [None, *[flow + noise.gauss(0, 1)] * test]
        days += [46082.0 + day] * (1 + test)
    return events, hours, days, flows


def sum_up(pairs) -> tuple[float, float, float, float, float]:
    """Return means of x and y, and sums of squares and products around them."""
    x, y = (math.fsum(column) / len(pairs) for column in zip(*pairs, strict=True))
    squares = [((a - x) ** 2, (a - x) * (b - y), (b - y) ** 2) for a, b in pairs]
    return x, y, *(math.fsum(column) for column in zip(*squares, strict=True))


def forecast_by_sums(events, hours, flows, limit) -> tuple[int, float]:
    """Return 4 or 6, and the earliest, by the sums of the definition; 0 for any other class."""
    cycles, clock, x = [[]], 0.0, 0.0
    for event, hour, flow in zip(events, hours, flows, strict=True):
        clock += hour or 0.0
        if event in {"alkaline", "replacement"}:
            cycles.append([])
            x = clock
        if flow is not None:
            cycles[-1].append((clock - x, flow))
    if not cycles[-1] or cycles[-1][-1][1] < limit:
        return 0, 0.0
    sums = [sum_up(cycle) for cycle in cycles if cycle]
    mean_x, mean_y, sxx, sxy, _ = sums[-1]
    txx, txy, tyy = (math.fsum(s[i] for s in sums) for i in (2, 3, 4))
    exx, exy, n = txx - sxx, txy - sxy, len(cycles[-1])
    freedom = max(0, sum(map(len, cycles)) - len(sums) - (txx > 0))
    s2 = ((tyy - txy**2 / txx if txx else tyy) + 16) / (freedom + 4)
    e = exy / exx if exx > 1e-9 else 0.0
    weight = 1 / (1 / exx + (0.4 * e) ** 2 / s2) if e < 0 else 0.0
    if weight == 0 and (n < 3 or sxx == 0):
        return 0, 0.0
    total = sxx + weight
    b, noise = (sxy + weight * e) / total, student.ppf(0.9, freedom + 4) ** 2 * s2
    a, q = mean_y - limit, noise / total
    if b >= 0 or b**2 <= q:
        return 4, 0.0
    root = math.sqrt((a * b) ** 2 - (b**2 - q) * (a**2 - noise / n))
    return 6, max(0.0, (-a * b - root) / (b**2 - q) + mean_x - (clock - x))


def test_fits_agree_with_sums_over_made_up_seasons() -> None:
    seen = {4: 0, 6: 0}
    for seed in range(300):
        events, hours, days, flows = make_season(seed)
        class_n, earliest = forecast_by_sums(events, hours, flows, 80.0)
        told = look_ahead(events, hours, days, flows, 80.0)
        if class_n == 4 or (class_n == 6 and told[0] == 6):
            seen[class_n] += 1
            assert told[0] == class_n
            assert class_n == 4 or told[2] == pytest.approx(earliest, rel=1e-7, abs=1e-7)
    assert min(seen.values()) > 20


def wash_daily(firsts, event="alkaline", late_h=0.0) -> tuple[list, list, list, list]:
    """Return a season that washes each day and tests at once, or after some hours."""
    events, hours, flows = [], [], []
    for flow in firsts:
        events += [event, "run", "test", "run"]
        hours += [None, late_h, None, 8.0]
        flows += [None, None, flow, None]
    return events, hours, [46082.0 + n // 4 for n in range(len(events))], flows


def last(firsts, **kind) -> float:
    return forecast.lasting_class_n(*wash_daily(firsts, **kind), 90.0)


def test_the_line_over_the_season_has_four_classes() -> None:
    assert last([100.0, 99.0]) == 1
    assert last([95.0, 89.0, 89.0]) == 2
    assert last([89.0, 89.9]) == 2  # two are enough to say so
    assert last([100.0, 89.0, 90.0]) == 3  # equal to the limit is not under it; b2 25, q 8.7
    assert last([100.0, 97.0, 94.0, 91.0]) == 3
    assert last([100.0, 99.9, 99.8, 99.7]) == 4


def test_the_fall_of_a_wash_is_the_slope_over_washes() -> None:
    season = wash_daily([100.0, 97.0, 94.0, 91.0])
    assert forecast.lasting_fall_pct(3.0, *season) == pytest.approx(3.0)
    with pytest.raises(ValueError, match="no fall is seen"):
        forecast.lasting_fall_pct(4.0, *season)


def test_a_first_test_counts_within_ten_hours_of_its_wash() -> None:
    assert last([89.0, 89.0], late_h=10.0) == 2
    assert last([89.0, 89.0], late_h=10.1) == 1


@pytest.mark.parametrize(("late_d", "class_n"), [(1.0, 2), (2.0, 1)])
def test_without_hours_a_first_test_counts_within_a_day(late_d, class_n) -> None:
    days = [46082.0, 46082.0 + late_d, 46092.0, 46092.0 + late_d]
    season = (["alkaline", "test"] * 2, [None] * 4, days, [None, 89.0] * 2)
    assert forecast.lasting_class_n(*season, 90.0) == class_n


def test_a_replacement_begins_the_count_anew_with_its_own_first_test() -> None:
    old, new = wash_daily([89.0, 89.0]), wash_daily([89.0], event="replacement")
    events, hours, days, flows = (a + b for a, b in zip(old, new, strict=True))
    assert forecast.lasting_class_n(*old, 90.0) == 2
    assert forecast.lasting_class_n(events, hours, days, flows, 90.0) == 1
    later = (a + b + c for a, b, c in zip(old, new, wash_daily([89.0]), strict=True))
    assert forecast.lasting_class_n(*later, 90.0) == 2


def test_a_test_before_the_first_wash_is_no_point() -> None:
    before = (["test"], [None], [46082.0], [89.0])
    season = (a + b for a, b in zip(before, wash_daily([89.0]), strict=True))
    assert forecast.lasting_class_n(*season, 90.0) == 1


def test_only_washing_in_vain_is_a_look() -> None:
    assert [forecast.lasting_ok(float(n)) for n in (1, 2, 3, 4)] == ["ok", "look", "ok", "ok"]


def simulate(seed: int) -> list[tuple[float, forecast.Outlook]]:
    """Return, for each test of a season, the hours truly left and the outlook of that moment.

    30 days, a quarter without sap, 4 to 12 h a day, a test each day with noise 2 %; the flow falls
    by 10 % in 40 h, washes differ by 30 %, and the machine is washed once the limit is passed.
    """
    noise = random.Random(seed)  # noqa: S311 - nothing secret hangs on it
    log: list[tuple] = []
    moments = []
    flow, fall = 0.0, 0.25
    for day in range(30):
        run_h = noise.uniform(4, 12) if noise.random() > 0.25 else 0.0
        flow -= fall * run_h
        if flow < 90:
            flow, fall = 100.0, 0.25 * math.exp(noise.gauss(0, 0.3))
            log.append(("alkaline", None, 46082.0 + day, None))
        else:
            log.append(("run", run_h, 46082.0 + day, None))
        log.append(("test", None, 46082.0 + day, flow + noise.gauss(0, 2)))
        course = forecast.follow_tests(*map(list, zip(*log, strict=True)))
        moments.append(((flow - 90) / fall, forecast.forecast(course, 90.0)))
    return moments


def test_about_four_of_five_washes_fall_between_earliest_and_latest() -> None:
    """80 % by definition; moments of one season hang together, so 75 to 90 %."""
    moments = [moment for seed in range(60) for moment in simulate(seed)]
    offered = [(truth, outlook.reach) for truth, outlook in moments if outlook.reach]
    inside = sum(from_h <= truth <= to_h for truth, (from_h, _, to_h) in offered)
    assert len(offered) > 0.5 * len(moments)
    assert 0.75 < inside / len(offered) < 0.90
