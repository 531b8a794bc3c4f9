"""The season by its log: what to fix first, facts of now, counts, sums, the element by element.

All are definitions of this project. Columns hold one value for each row, None for a blank.
"""

import math

from builder.reference.causes import INCOMPLETE, LOOK, OK, STOP, rank
from builder.reference.comparison import Verdict
from builder.reference.force import Column, Typed
from builder.reference.rinsing import FIRST, WASHES
from builder.reference.sugar import class_sugar
from builder.reference.units import choose_units

ROOM_N = 10.0  # rows left at which the log says so (this project's judgement)


def still_to_rinse_L(
    row_left_L_list: Column,
    row_begun_n_list: Column,
    row_in_line_n_list: Column,
    held_rinse_L_list: Column,
    held_first_L_list: Column,
) -> float:
    """Return what is still to rinse after the last row.

    Nobody knows while a row, or an empty log, leans on today's rinses and one of them is blank.
    """
    rows = zip(row_begun_n_list, row_in_line_n_list, strict=True)
    lines = [line for begun, line in rows if begun]
    leans = not lines or 0.0 in lines
    if leans and None in {held_rinse_L_list[0], held_first_L_list[0]}:
        raise ValueError("held_rinse_L_list or held_first_L_list holds nothing for today")
    return row_left_L_list[-1] or 0.0


def first_to_fix_n(row_open_n_list: Column, row_cause_n_list: Column) -> float:
    """Return the row to fix first: of the open rows the newest of the worst rank, 0 without one."""
    rows = enumerate(zip(row_open_n_list, row_cause_n_list, strict=True), start=1)
    ranks = {n: rank(cause) for n, (flag, cause) in rows if flag and cause is not None}
    for worst in (STOP, INCOMPLETE, LOOK):
        if worst in ranks.values():
            return float(max(n for n, found in ranks.items() if found == worst))
    return 0.0


def first_to_fix_cause_n(first_to_fix_n: float, row_cause_n_list: Column) -> float:
    """Return the cause of the row to fix first, none without one."""
    return _look_up(first_to_fix_n, row_cause_n_list)


def first_to_fix_column_n(first_to_fix_n: float, row_bad_column_n_list: Column) -> float:
    """Return the column that the row to fix first names, 0 for no column, none without a row."""
    return _look_up(first_to_fix_n, row_bad_column_n_list)


def _look_up(first_to_fix_n: float, column: Column) -> float:
    if not first_to_fix_n:
        raise ValueError("first_to_fix_n = 0 n: there is nothing to fix")
    return column[int(first_to_fix_n) - 1] or 0.0


def last_wash_d(row_event_code_list: Typed, row_day_d_list: Column) -> float:
    """Return the day of the last row with a wash; none without one, or if it has no day."""
    rows = zip(row_event_code_list, row_day_d_list, strict=True)
    days = [day for event, day in rows if event in WASHES]
    if not days or not days[-1]:
        raise ValueError("row_event_code_list holds no wash with a day")
    return days[-1]


def wash_days_d(last_wash_d: float, row_day_d_list: Column) -> float:
    """Return the days since the last wash: day of the log's last row less that of the wash."""
    return (row_day_d_list[-1] or 0.0) - last_wash_d


def reading_last_brix(row_sugar_row_brix_list: Column) -> float:
    """Return the last usable reading of the permeate, as sugar."""
    return row_sugar_row_brix_list[_find_reading(row_sugar_row_brix_list)] or 0.0


def reading_last_d(row_sugar_row_brix_list: Column, row_day_d_list: Column) -> float:
    """Return the day of the last usable reading of the permeate, none if its row has no day."""
    day = row_day_d_list[_find_reading(row_sugar_row_brix_list)]
    if not day:
        raise ValueError("the last reading stands before the first date")
    return day


def _find_reading(column: Column) -> int:
    places = [place for place, value in enumerate(column) if value is not None]
    if not places:
        raise ValueError("row_sugar_row_brix_list holds no reading")
    return places[-1]


def record_lines_n(row_debt_n_list: Column) -> float:
    """Return how many debts the season opened: the lines of the record."""
    return row_debt_n_list[-1] or 0.0


def record_shown_n(record_row_n_list: Column) -> float:
    """Return how many lines the record shows."""
    return float(len(record_row_n_list) - record_row_n_list.count(None))


def rows_begun_n(row_begun_n_list: Column) -> float:
    """Return how many rows are begun."""
    return float(row_begun_n_list.count(1.0))


def rows_ok_n(row_cause_n_list: Column) -> float:
    """Return how many rows are ok, made good or nothing to say."""
    return float(sum(cause is not None and rank(cause) == OK for cause in row_cause_n_list))


def rows_today_n(row_begun_n_list: Column, row_in_line_n_list: Column) -> float:
    """Return how many begun rows have no line in force: line 0; an empty log has no count."""
    rows = zip(row_begun_n_list, row_in_line_n_list, strict=True)
    return _count([not line for begun, line in rows if begun])


def rows_left_n(row_begun_n_list: Column) -> float:
    """Return how many rows of the log are not begun."""
    return float(len(row_begun_n_list)) - rows_begun_n(row_begun_n_list)


def season_washes_n(rows_begun_n: float, row_event_code_list: Typed) -> float:
    """Return how many washes there were, alkaline and acid; an empty log has no count."""
    return _count([event in WASHES for event in row_event_code_list] if rows_begun_n else [])


def season_first_rinses_n(rows_begun_n: float, row_event_code_list: Typed) -> float:
    """Return how many first rinses there were; an empty log has no count."""
    return _count([event == FIRST for event in row_event_code_list] if rows_begun_n else [])


def _count(found: list[bool]) -> float:
    if not found:
        raise ValueError("the log is empty")
    return float(sum(found))


def season_hours_h(row_used_hours_h_list: Typed) -> float:
    """Return the hours run: sum of what is usable."""
    return _total("row_used_hours_h_list", row_used_hours_h_list)


def season_cleaner_kg(row_used_product_kg_list: Typed) -> float:
    """Return the products used: sum of what is usable."""
    return _total("row_used_product_kg_list", row_used_product_kg_list)


def season_rinse_L(row_volume_L_list: Column, row_counted_L_list: Column) -> float:
    """Return the water used for rinses: sum of those that count; none without any volume."""
    rows = zip(row_volume_L_list, row_counted_L_list, strict=True)
    return _total("row_volume_L_list", [counted for volume, counted in rows if volume is not None])


def season_sap_L(
    log_sap_L_list: Typed,
    row_in_line_n_list: Column,
    force_line_volume_list: Typed,
    reader_units: str | None = None,
) -> float:
    """Return the sap treated: sum of the numbers typed, each in the unit of its row's line."""
    words = [None, *force_line_volume_list]
    units = [choose_units(reader_units, (word, None, None, None)) for word in words]
    rows = zip(log_sap_L_list, row_in_line_n_list, strict=True)
    litres = [
        units[int(line or 0.0)].convert(sap, "volume")
        for sap, line in rows
        if isinstance(sap, int | float)
    ]
    return _total("log_sap_L_list", litres)


def _total(name: str, column: Typed) -> float:
    """Return the sum of a column, rounded once; a column without a number has none."""
    numbers = [value for value in column if isinstance(value, int | float)]
    if not numbers:
        raise ValueError(f"{name} holds no number to total")
    return math.fsum(numbers)


def first_day_d(row_day_d_list: Column) -> float:
    """Return the first day of the log: the earliest of its days."""
    days = [day for day in row_day_d_list if day]
    if not days:
        raise ValueError("row_day_d_list holds no day")
    return min(days)


def log_stop_ok(first_to_fix_cause_n: float | None = None) -> Verdict:
    """Return stop where the first thing to fix is a stop, else ok."""
    return "stop" if _ranks(first_to_fix_cause_n, STOP) else "ok"


def log_complete_ok(first_to_fix_cause_n: float | None = None) -> Verdict:
    """Return look where the first thing to fix is incomplete, else ok."""
    return "look" if _ranks(first_to_fix_cause_n, INCOMPLETE) else "ok"


def log_look_ok(first_to_fix_cause_n: float | None = None) -> Verdict:
    """Return look where the first thing to fix is a look, else ok."""
    return "look" if _ranks(first_to_fix_cause_n, LOOK) else "ok"


def _ranks(cause_n: float | None, word: str) -> bool:
    return cause_n is not None and rank(cause_n) == word


def rinse_known_ok(still_to_rinse_L: float | None = None) -> Verdict:
    """Return look where nobody knows what is still to rinse, else ok."""
    return "look" if still_to_rinse_L is None else "ok"


def log_room_ok(rows_left_n: float) -> Verdict:
    """Return look where fewer than 10 rows are left, else ok."""
    return "look" if rows_left_n < ROOM_N else "ok"


def element_brix(reading_brix: float, sugar_zero_brix: float) -> float:
    """Return the sugar of one element's permeate: reading less clean water's, never below 0."""
    return max(0.0, reading_brix - sugar_zero_brix)


def element_rank_n(
    element_brix: float, sugar_resolution_brix: float, sugar_alarm_brix: float
) -> float:
    """Return the rank of one element: 3 from the alarm up, 2 from the step up, else 1."""
    return class_sugar(element_brix, sugar_resolution_brix, sugar_alarm_brix) + 1.0
