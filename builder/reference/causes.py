"""Why a row is not in order: every cause in the order of its weight, and the rank of each.

All are definitions of this project. Every comparison allows 1e-9.
"""

from collections.abc import Callable

from builder.reference.case import Case
from builder.reference.cleanwater import has_wrong_pressures, is_drop_high
from builder.reference.comparison import TINY
from builder.reference.rinsing import ACID, COUNTING, FIRST, RUN, STORAGE, TEST, WASHES
from builder.reference.shape import DOUBT_PH
from builder.reference.sugar import ALARM, TRACE

STOP, INCOMPLETE, LOOK, OK = "stop", "incomplete", "look", "ok"
ACID_LEAST_PH = 2.0  # that an element bears (data sheet of elements, second hand)
ACID_MOST_PH = 4.0  # above it an acid dissolves little (common practice, no source)
HIGH_PCT = 115.0  # this project's judgement, as the next five
TEMP_GAP_DEGC = 3.0
PREFILTER_BAR = 1.0
STORAGE_D = 300.0
GAP_D = 60.0
DIFFERENCE_SHARE = 0.1
DAY_H = 24.0  # hours of a day (definition)


def _is_below(value: float | None, limit: float) -> bool:
    return value is not None and value < limit - TINY


def _is_above(value: float | None, limit: float) -> bool:
    return value is not None and value > limit + TINY


def _flow(case: Case) -> float | None:
    return case.tested.pct if case.tested else None


def _acid(case: Case) -> float | None:
    return case.row.number("begin_pH") if case.event == ACID else None


def _falls(case: Case) -> bool:
    above = case.above
    return above is not None and _is_below(case.row.number("date"), above.day_d)


def _is_other_product(case: Case) -> bool:
    product, approved = case.row.word("product"), case.limits.approved.get(case.event or "")
    if product is None or approved is None or not str(approved).strip():
        return False
    return product.casefold().split() != str(approved).casefold().split()


def _is_stored_long(case: Case) -> bool:
    last = case.find_above()
    return last is not None and last.event == STORAGE and _is_above(case.gap_d(last), STORAGE_D)


def _has_date_gap(case: Case) -> bool:
    last = case.find_above()
    stored = last is not None and last.event == STORAGE
    return not stored and _is_above(case.gap_d(case.above), GAP_D)


def _works_over_a_day(case: Case) -> bool:
    return bool(case.row.number("hours_h")) and _is_above(case.sum_day(), DAY_H)


def _differs(case: Case) -> bool:
    volume, flow, time = map(case.row.number, ("rinse_L", "rinse_Lpmin", "rinse_min"))
    if volume is None or flow is None or time is None:
        return False
    larger = max(volume, flow * time)
    return _is_above(abs(volume - flow * time), DIFFERENCE_SHARE * larger)


def _is_far(case: Case) -> bool:
    temp, usual = case.row.number("water_degC"), case.limits.baseline.temp_degC
    if case.event != TEST or temp is None or usual is None:
        return False
    return _is_above(abs(temp - usual), TEMP_GAP_DEGC)


CAUSES: dict[str, Callable[[Case], bool]] = {
    "sap_on_owing": lambda c: c.event == RUN and c.stand.left_L > 0.0,
    "acid_on_owing": lambda c: c.event == ACID and c.stand.above_L > 0.0,
    "sugar_alarm": lambda c: c.reading.class_n == ALARM,
    "sugar_stays": lambda c: c.reading.stays,
    "start_high": lambda c: _is_below(c.margins.top_pH, 0.0),
    "acid_low": lambda c: _is_below(_acid(c), ACID_LEAST_PH),
    "flow_stop": lambda c: _is_below(_flow(c), c.limits.stop_pct),
    "owes": lambda c: c.owes,
    "not_usable": lambda c: bool(c.list_bad()),
    "date_falls": _falls,
    "missing": lambda c: bool(c.list_missing()),
    "pressures": lambda c: has_wrong_pressures(c.row),
    "trace": lambda c: c.reading.class_n == TRACE,
    "recheck": lambda c: c.event == RUN and c.reading.was_open and c.reading.class_n is None,
    "flow_wash": lambda c: _is_below(_flow(c), c.limits.wash_pct),
    "drop_high": lambda c: bool(c.tested and is_drop_high(c.tested, c.limits.baseline)),
    "prefilter": lambda c: (c.row.number("prefilter_bar") or 0.0) >= PREFILTER_BAR - TINY,
    "end_low": lambda c: _is_below(c.margins.low_pH, 0.0),
    "end_above_start": lambda c: _is_above(c.margins.rise_pH, DOUBT_PH),
    "start_low": lambda c: _is_below(c.margins.begin_pH, 0.0),
    "pH_close": lambda c: any(_is_below(m, DOUBT_PH) for m in (c.margins.top_pH, c.margins.low_pH)),
    "acid_first": lambda c: c.event == ACID and c.has_no_alkaline(),
    "acid_weak": lambda c: _is_above(_acid(c), ACID_MOST_PH),
    "product_other": lambda c: c.event in WASHES and _is_other_product(c),
    "storage_long": _is_stored_long,
    "date_gap": _has_date_gap,
    "day_over_24": _works_over_a_day,
    "rinse_not_counted": lambda c: c.event not in COUNTING and (c.row.volume_L or 0.0) > 0.0,
    "rinse_differs": _differs,
    "nothing_owed": lambda c: c.event == FIRST and c.stand.above_L == 0.0,
    "water_other": lambda c: c.row.counted_L > 0.0 and c.row.word("water_kind") == "other",
    "test_on_owing": lambda c: c.event == TEST and c.stand.left_L > 0.0,
    "temp_gap": _is_far,
    "flow_high": lambda c: _is_above(_flow(c), HIGH_PCT),
    "made_good": lambda c: c.made_good,
    "ok": lambda _: True,
}
WORDS = tuple(CAUSES)
FIRST_OF_RANK = {STOP: 1, INCOMPLETE: 9, LOOK: 13, OK: 35}


def number(*words: str) -> frozenset[int]:
    """Return the numbers of causes."""
    return frozenset(WORDS.index(word) + 1 for word in words)


def find_cause(case: Case) -> int:
    """Return the number of the first cause that applies to a row, from 1.

    A row that is judged by what nobody knows lacks something, if nothing worse is known of it.
    """
    least = WORDS.index("missing") + 1 if case.is_unknown() else len(CAUSES)
    found = next(n for n, applies in enumerate(CAUSES.values(), start=1) if applies(case))
    return min(found, least)


def rank(cause_n: float) -> str:
    """Return the rank of a cause: stop, incomplete, look or ok."""
    return next(word for word, first in reversed(FIRST_OF_RANK.items()) if cause_n >= first)
