"""When to wash next, and what washing no longer brings back, from clean-water tests alone.

Where no source is named, the definition is this project's own. Fits are least squares by an
orthogonal solver, with what earlier cycles lend as one more observation.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.polynomial import Polynomial
from scipy.special import stdtrit

from builder.reference.comparison import TINY, Verdict
from builder.reference.force import Column, Typed
from builder.reference.rinsing import REPLACEMENT, RUN, WASHES

REPEAT_PCT, REPEAT_TESTS_N = 2.0, 4.0  # repeatability of a test, worth so many tests (judgement)
SPREAD_FRAC = 0.4  # by which washes differ (this project's judgement)
LEVEL = 0.8  # share of the truth between earliest and latest, two-sided (this project's judgement)
HORIZON_D = 30.0  # this project's judgement, as the next two
SOON = {1.0: 10.0, 2.0: 1.0}  # hours or days after a wash that a first test may take
LEAST_N = 3
HOURS, DAYS = 1.0, 2.0
NO_TEST, NOW, MORE, NO_FALL, FAR, BETWEEN = 1.0, 2.0, 3.0, 4.0, 5.0, 6.0
GONE, FALLS = 2.0, 3.0  # classes of the line over the season, beside 1 more tests and 4 no fall


@dataclass(frozen=True, slots=True)
class Point:
    """One test: its cycle, hours or days since that began, and flow in per cent."""

    cycle: int
    x: float
    pct: float


@dataclass(frozen=True, slots=True)
class Course:
    """The tests of a season: unit of x, the last cycle, the last replacement's, x at the end."""

    unit_n: float
    points: list[Point]
    cycle: int
    replaced: int
    end_x: float
    horizon_x: float

    @property
    def current(self) -> list[Point]:
        """Return the tests of the cycle that still runs."""
        return [point for point in self.points if point.cycle == self.cycle]


@dataclass(frozen=True, slots=True)
class Fit:
    """Parallel lines, one a cycle: their slope, the spread of x, and the residue about them."""

    slope: float
    spread: float
    residue: float


@dataclass(frozen=True, slots=True)
class Outlook:
    """The class of the forecast and, between, earliest, middle and latest from the log's end."""

    class_n: float
    reach: tuple[float, float, float] | None = None


def next_wash_unit_n(row_event_code_list: Typed, row_used_hours_h_list: Typed) -> float:
    """Return 1 where the season counts in hours, 2 where it counts in days.

    Days if a run row has no usable hours, or if the hours of all rows come to nothing.
    """
    hours = [_hours(cell) for cell in row_used_hours_h_list]
    runs = zip(row_event_code_list, row_used_hours_h_list, strict=True)
    gap = any(e == RUN and not isinstance(h, int | float) for e, h in runs)
    return DAYS if gap or sum(hours) == 0.0 else HOURS


def _hours(cell: float | str | None) -> float:
    return float(cell) if isinstance(cell, int | float) else 0.0


def next_wash_class_n(
    row_event_code_list: Typed,
    row_used_hours_h_list: Typed,
    row_day_d_list: Column,
    row_tested_pct_list: Column,
    flow_wash_pct: float,
) -> float:
    """Return the class of the forecast.

    1 no test since the wash, 2 now, 3 more tests needed, 4 no fall seen, 5 not within 30 days,
    6 between.
    """
    course = follow_tests(
        row_event_code_list, row_used_hours_h_list, row_day_d_list, row_tested_pct_list
    )
    return forecast(course, flow_wash_pct).class_n


def next_wash_from_n(
    row_event_code_list: Typed,
    row_used_hours_h_list: Typed,
    row_day_d_list: Column,
    row_tested_pct_list: Column,
    flow_wash_pct: float,
) -> float:
    """Return the earliest next wash, counted from the log's end, not below 0."""
    course = follow_tests(
        row_event_code_list, row_used_hours_h_list, row_day_d_list, row_tested_pct_list
    )
    return _reach(forecast(course, flow_wash_pct))[0]


def next_wash_middle_n(
    row_event_code_list: Typed,
    row_used_hours_h_list: Typed,
    row_day_d_list: Column,
    row_tested_pct_list: Column,
    flow_wash_pct: float,
) -> float:
    """Return where the line meets the limit, counted from the log's end."""
    course = follow_tests(
        row_event_code_list, row_used_hours_h_list, row_day_d_list, row_tested_pct_list
    )
    return _reach(forecast(course, flow_wash_pct))[1]


def next_wash_to_n(
    row_event_code_list: Typed,
    row_used_hours_h_list: Typed,
    row_day_d_list: Column,
    row_tested_pct_list: Column,
    flow_wash_pct: float,
) -> float:
    """Return the latest next wash, counted from the log's end, not beyond 30 days."""
    course = follow_tests(
        row_event_code_list, row_used_hours_h_list, row_day_d_list, row_tested_pct_list
    )
    return _reach(forecast(course, flow_wash_pct))[2]


def _reach(outlook: Outlook) -> tuple[float, float, float]:
    if outlook.reach is None:
        raise ValueError(f"a forecast of class {outlook.class_n:g} has no earliest and latest")
    return outlook.reach


def follow_tests(
    events: Typed, hours: Typed, days: Column, tested_pct: Sequence[float | None]
) -> Course:
    """Return the tests of a season along its clock, which starts anew at a wash or replacement.

    A day of run is the hours logged over the days from the earliest date to the last row's, both
    counted, one at least; days are counted from that date.
    """
    unit_n = next_wash_unit_n(events, hours)
    first_d = min((day for day in days if day), default=0.0)
    day_d = [day or 0.0 for day in days]
    clock = np.cumsum([_hours(h) for h in hours]) if unit_n == HOURS else np.array(day_d)
    began_x, cycle, replaced = (0.0 if unit_n == HOURS else first_d), 0, 0
    points = []
    for event, x, pct in zip(events, clock.tolist(), tested_pct, strict=True):
        if event in {*WASHES, REPLACEMENT}:
            began_x, cycle = x, cycle + 1
            replaced = cycle if event == REPLACEMENT else replaced
        if pct is not None:
            points.append(Point(cycle, x - began_x, pct))
    end_x = float(clock[-1]) - began_x
    length_d = max(1.0, day_d[-1] - first_d + 1.0)
    per_day = float(clock[-1]) / length_d if unit_n == HOURS else 1.0
    return Course(unit_n, points, cycle, replaced, end_x, HORIZON_D * per_day)


def fit_parallel(points: Sequence[Point]) -> Fit:
    """Return the lines of one slope, each through its own cycle's tests."""
    cycles = sorted({point.cycle for point in points})
    x, y = np.array([p.x for p in points]), np.array([p.pct for p in points])
    own = np.array([[float(point.cycle == cycle) for cycle in cycles] for point in points])
    level = np.linalg.lstsq(own, x, rcond=None)[0]
    spread = float(np.sum((x - own @ level) ** 2))
    design = own if spread <= TINY else np.column_stack([own, x])
    found = np.linalg.lstsq(design, y, rcond=None)[0]
    residue = float(np.sum((y - design @ found) ** 2))
    return Fit(0.0 if spread <= TINY else float(found[-1]), spread, residue)


def find_scatter(fit: Fit, freedom_n: int) -> tuple[float, float]:
    """Return the variance of a test, held by its repeatability, and Student's t with it.

    s2 = (residue + 4 x 2^2)/(df + 4).
    """
    whole = max(freedom_n, 0) + REPEAT_TESTS_N
    quantile = float(stdtrit(whole, (1.0 + LEVEL) / 2.0))
    return (fit.residue + REPEAT_TESTS_N * REPEAT_PCT**2) / whole, quantile


def weigh_earlier(course: Course, variance: float) -> tuple[float, float]:
    """Return the slope of the earlier cycles and its weight, 0 unless they fall.

    P = 1/(1/Exx + (0.4 e)^2/s2).
    """
    earlier = [point for point in course.points if point.cycle != course.cycle]
    if not earlier:
        return 0.0, 0.0
    lent = fit_parallel(earlier)
    if lent.spread <= TINY or lent.slope >= 0.0:
        return 0.0, 0.0
    return lent.slope, 1.0 / (1.0 / lent.spread + (SPREAD_FRAC * lent.slope) ** 2 / variance)


def forecast(course: Course, limit_pct: float) -> Outlook:
    """Return the outlook: the line of the current cycle, with what earlier cycles lend.

    Earliest and latest: the two u with (A + b u)^2 = t^2 s^2 (1/n + u^2/W), after Fieller.
    """
    current = course.current
    if not current:
        return Outlook(NO_TEST)
    if current[-1].pct < limit_pct - TINY:
        return Outlook(NOW)
    whole = fit_parallel(course.points)
    cycles = len({point.cycle for point in course.points})
    variance, quantile = find_scatter(
        whole, len(course.points) - cycles - (1 if whole.spread > TINY else 0)
    )
    slope, weight = weigh_earlier(course, variance)
    few = len(current) < LEAST_N or fit_parallel(current).spread <= TINY
    if weight == 0.0 and few:
        return Outlook(MORE)
    return _meet(course, limit_pct, (slope, weight), quantile**2 * variance)


def _meet(course: Course, limit: float, lent: tuple[float, float], noise: float) -> Outlook:
    """Return where the line meets the limit; `noise` is t^2 s^2."""
    x = np.array([point.x for point in course.current])
    y = np.array([point.pct for point in course.current])
    slope, root = lent[0], np.sqrt(lent[1])
    design = np.vstack([np.column_stack([np.ones_like(x), x - x.mean()]), [0.0, root]])
    level, fall = np.linalg.lstsq(design, np.append(y, root * slope), rcond=None)[0].tolist()
    share = np.linalg.inv(design.T @ design)  # 1/n and 1/W on its diagonal
    if fall >= 0.0 or fall**2 <= noise * share[1, 1]:
        return Outlook(NO_FALL)
    above, back = level - limit, float(course.end_x - x.mean())
    middle = -above / fall - back
    if middle <= TINY:
        return Outlook(NOW)
    line = Polynomial([above, fall]) ** 2
    edge = line - noise * Polynomial([share[0, 0], 0.0, share[1, 1]])
    early, late = (float(u) - back for u in sorted(edge.roots().real))
    if early > course.horizon_x + TINY:
        return Outlook(FAR)
    return Outlook(BETWEEN, (max(0.0, early), middle, min(late, course.horizon_x)))


def lasting_class_n(
    row_event_code_list: Typed,
    row_used_hours_h_list: Typed,
    row_day_d_list: Column,
    row_tested_pct_list: Column,
    flow_wash_pct: float,
) -> float:
    """Return what the first tests after the washes say.

    1 more tests needed, 2 washing no longer brings it back: the last two are under the wash limit,
    3 falls, 4 no fall seen.
    """
    points = list_firsts(
        follow_tests(
            row_event_code_list, row_used_hours_h_list, row_day_d_list, row_tested_pct_list
        )
    )
    if len(points) > 1 and all(p.pct < flow_wash_pct - TINY for p in points[-2:]):
        return GONE
    if len(points) < LEAST_N:
        return NO_TEST
    fit = fit_parallel(points)
    variance, quantile = find_scatter(fit, len(points) - 2)
    seen = fit.slope < 0.0 and fit.slope**2 > quantile**2 * variance / fit.spread
    return FALLS if seen else NO_FALL


def lasting_fall_pct(
    lasting_class_n: float,
    row_event_code_list: Typed,
    row_used_hours_h_list: Typed,
    row_day_d_list: Column,
    row_tested_pct_list: Column,
) -> float:
    """Return how much of the flow a wash no longer brings back: less the slope, where it falls."""
    if lasting_class_n != FALLS:
        raise ValueError(f"lasting_class_n = {lasting_class_n:g}: no fall is seen")
    course = follow_tests(
        row_event_code_list, row_used_hours_h_list, row_day_d_list, row_tested_pct_list
    )
    return -fit_parallel(list_firsts(course)).slope


def list_firsts(course: Course) -> list[Point]:
    """Return the first test of each cycle from 1 on, against the number of the cycle.

    From the cycle that the last replacement began, and within 10 h of run, or 1 day, of its start.
    """
    firsts: dict[int, Point] = {}
    for point in course.points:
        firsts.setdefault(point.cycle, point)
    return [
        Point(0, float(cycle), point.pct)
        for cycle, point in firsts.items()
        if cycle >= max(1, course.replaced) and point.x <= SOON[course.unit_n] + TINY
    ]


def lasting_ok(lasting_class_n: float) -> Verdict:
    """Return look where washing no longer brings the flow back, else ok."""
    return "look" if lasting_class_n == GONE else "ok"
