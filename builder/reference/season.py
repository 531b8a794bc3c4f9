"""The season by its log: totals, counts, verdicts, the printed record, the element by element.

All are definitions of this project. Columns hold one value for each row, None for a blank.
"""

import math

from builder.reference.comparison import Verdict, round_compared
from builder.reference.log import FIRST, MISSING, WASHES, short_L

ENOUGH, SHORT, NOT_GIVEN = 1.0, 2.0, 3.0  # states of a rinse in the record
OK, LOOK, STOP = 1.0, 2.0, 3.0  # ranks of an element

Column = list[float | None]
Codes = list[str | None]


def log_entries_n(log_begun_n_list: Column) -> float:
    """Return how many rows are begun."""
    return float(log_begun_n_list.count(1.0))


def season_hours_h(log_hours_h_list: Column) -> float:
    """Return the hours run: sum of the column."""
    return _total("log_hours_h_list", log_hours_h_list)


def season_sap_L(log_sap_L_list: Column) -> float:
    """Return the sap treated: sum of the column."""
    return _total("log_sap_L_list", log_sap_L_list)


def season_cleaner_kg(log_product_kg_list: Column) -> float:
    """Return the products used: sum of the column."""
    return _total("log_product_kg_list", log_product_kg_list)


def season_rinse_L(log_done_L_list: Column) -> float:
    """Return the water used for rinses: sum of the column."""
    return _total("log_done_L_list", log_done_L_list)


def _total(name: str, column: Column) -> float:
    """Return the sum of a column, rounded once; a column without a number has none."""
    numbers = [value for value in column if value is not None]
    if not numbers:
        raise ValueError(f"{name} holds no number to total")
    return math.fsum(numbers)


def season_washes_n(log_entries_n: float, log_event_list: Codes) -> float:
    """Return how many washes there were, alkaline and acid."""
    return _count(log_entries_n, [event in WASHES for event in log_event_list])


def season_first_rinses_n(log_entries_n: float, log_event_list: Codes) -> float:
    """Return how many first rinses there were."""
    return _count(log_entries_n, [event == FIRST for event in log_event_list])


def washes_low_n(
    log_entries_n: float, log_alkaline_n_list: Column, log_low_margin_pH_list: Column
) -> float:
    """Return how many alkaline washes ended below the floor, with a margin below 0."""
    rows = zip(log_alkaline_n_list, log_low_margin_pH_list, strict=True)
    return _count(log_entries_n, [bool(wash) and (margin or 0.0) < 0.0 for wash, margin in rows])


def rinses_short_n(log_entries_n: float, log_short_L_list: Column) -> float:
    """Return how many rinses fell short, with water missing."""
    return _count(log_entries_n, [bool(short) for short in log_short_L_list])


def rows_missing_n(log_entries_n: float, log_rank_n_list: Column) -> float:
    """Return how many rows lack something, by their rank."""
    return _count(log_entries_n, [rank == MISSING for rank in log_rank_n_list])


def rows_today_n(log_entries_n: float, log_today_n_list: Column) -> float:
    """Return how many rows lean on today's inputs."""
    return _count(log_entries_n, [flag == 1.0 for flag in log_today_n_list])


def _count(entries_n: float, found: list[bool]) -> float:
    """Return how many rows were found; an empty log has no counts."""
    if not entries_n:
        raise ValueError("log_entries_n = 0 n: the log is empty")
    return float(sum(found))


def first_day_d(log_day_d_list: Column) -> float:
    """Return the first day of the log: the earliest of its days."""
    days = [day for day in log_day_d_list if day is not None]
    if not days:
        raise ValueError("log_day_d_list holds no day")
    return min(days)


def last_wash_d(log_day_d_list: Column, log_event_list: Codes) -> float:
    """Return the day of the last wash, alkaline or acid: the latest, 0 without one."""
    rows = zip(log_day_d_list, log_event_list, strict=True)
    return max((day for day, event in rows if day is not None and event in WASHES), default=0.0)


def washes_ok(washes_low_n: float) -> Verdict:
    """Return stop where a wash ended below the floor, else ok."""
    return "stop" if washes_low_n else "ok"


def rinses_ok(rinses_short_n: float) -> Verdict:
    """Return stop where a rinse fell short, else ok."""
    return "stop" if rinses_short_n else "ok"


def log_complete_ok(rows_missing_n: float) -> Verdict:
    """Return look where a row lacks something, else ok."""
    return "look" if rows_missing_n else "ok"


def entry_row_n(row_n: float, log_owing_n_list: Column) -> float:
    """Return the log's row of one rinse of the record: all rows that owe one, listed in order.

    The record numbers them as it goes along the log instead.
    """
    places = [place for place, owing in enumerate(log_owing_n_list, start=1) if owing]
    if row_n > len(places):
        raise ValueError(f"row_n = {row_n} n is more than the rinses owed")
    return float(places[int(row_n) - 1])


def record_rinse_n(entry_row_n: float, log_owed_L_list: Column, log_done_L_list: Column) -> float:
    """Return the state of one rinse of the record: 1 enough, 2 short, 3 not filled in."""
    owed_L, done_L = (column[int(entry_row_n) - 1] for column in (log_owed_L_list, log_done_L_list))
    if owed_L is None:
        raise ValueError(f"entry_row_n = {entry_row_n} n is no row with a volume owed")
    if done_L is None:
        return NOT_GIVEN
    return SHORT if short_L(owed_L, done_L) else ENOUGH


def element_brix(reading_brix: float, sugar_zero_brix: float) -> float:
    """Return the sugar of one element's permeate: reading less clean water's, never below 0."""
    return max(0.0, reading_brix - sugar_zero_brix)


def element_rank_n(
    element_brix: float, sugar_resolution_brix: float, sugar_alarm_brix: float
) -> float:
    """Return the rank of one element: 1 up to the resolution, 2 up to the alarm, 3 above."""
    if round_compared(element_brix) <= round_compared(sugar_resolution_brix):
        return OK
    return LOOK if round_compared(element_brix) <= round_compared(sugar_alarm_brix) else STOP


def in_log_row(entry_row_n: float, column: list[float | str | None]) -> float | str:
    """Return what a column of the log holds in the row of an entry (definition)."""
    found = column[int(entry_row_n) - 1]
    if found is None:
        raise ValueError("nothing stands there")
    return found
