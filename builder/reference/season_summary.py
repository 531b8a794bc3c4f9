"""Summary of the season log: totals, counts, trend and verdicts."""

from builder.reference.ranges import require_all, require_columns
from builder.reference.season_counts import (
    rinses_short_n,
    rows_missing_n,
    rows_today_n,
    season_first_rinses_n,
    season_washes_n,
    washes_low_n,
)
from builder.reference.season_line import (
    flow_slope_pctpd,
    flow_start_pct,
    next_wash_d,
    trend_points_n,
)
from builder.reference.season_log_event import WASHES
from builder.reference.season_totals import (
    log_entries_n,
    season_cleaner_kg,
    season_hours_h,
    season_rinse_L,
    season_sap_L,
)
from builder.reference.verdicts_entries import Verdict

__all__ = [
    "first_day_d",
    "flow_slope_pctpd",
    "flow_start_pct",
    "last_wash_d",
    "log_complete_ok",
    "log_entries_n",
    "next_wash_d",
    "rinses_ok",
    "rinses_short_n",
    "rows_missing_n",
    "rows_today_n",
    "season_cleaner_kg",
    "season_first_rinses_n",
    "season_hours_h",
    "season_rinse_L",
    "season_sap_L",
    "season_washes_n",
    "trend_points_n",
    "washes_low_n",
    "washes_ok",
]


def first_day_d(log_day_d_list: list[float | None]) -> float:
    """Return the first day of the log.

    Smallest day, undefined without one.

    Parameters
    ----------
    log_day_d_list : list of float or None
        Day of the entry, serial number, by row [d], 1 to 1e+06.

    Returns
    -------
    float
        Day [d].

    Raises
    ------
    ValueError
        A value lies outside its range, or no row has a day.

    References
    ----------
    Definition of this project.
    """
    require_columns(log_day_d_list=log_day_d_list)
    days = sorted(day for day in log_day_d_list if day is not None)
    if not days:
        raise ValueError("log_day_d_list holds no day")
    return float(days[0])


def last_wash_d(log_day_d_list: list[float | None], log_event_n_list: list[float | None]) -> float:
    """Return the day of the last wash.

    Latest day of an alkaline or acid wash, 0 without one.

    Parameters
    ----------
    log_day_d_list : list of float or None
        Day of the entry, serial number, by row [d], 1 to 1e+06.
    log_event_n_list : list of float or None
        Number of the event, by row [n], 1 to 6.

    Returns
    -------
    float
        Day [d].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Definition of this project.
    """
    require_columns(log_day_d_list=log_day_d_list, log_event_n_list=log_event_n_list)
    rows = zip(log_day_d_list, log_event_n_list, strict=True)
    days = sorted(day for day, event in rows if day is not None and event in WASHES)
    return float(days[-1]) if days else 0.0


def washes_ok(washes_low_n: float) -> Verdict:
    """Return whether every alkaline wash ended above the floor.

    ok for none below, else stop.

    Parameters
    ----------
    washes_low_n : float
        Washes that ended below the floor [n], 0 to 1e+06.

    Returns
    -------
    str
        Verdict [ok].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Definition of this project.
    """
    require_all(washes_low_n=washes_low_n)
    return "stop" if washes_low_n else "ok"


def rinses_ok(rinses_short_n: float) -> Verdict:
    """Return whether every rinse was long enough.

    ok for none short, else stop.

    Parameters
    ----------
    rinses_short_n : float
        Rinses that fell short [n], 0 to 1e+06.

    Returns
    -------
    str
        Verdict [ok].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Definition of this project.
    """
    require_all(rinses_short_n=rinses_short_n)
    return "stop" if rinses_short_n else "ok"


def log_complete_ok(rows_missing_n: float) -> Verdict:
    """Return whether no row of the log lacks anything.

    ok for none, else look.

    Parameters
    ----------
    rows_missing_n : float
        Rows that lack something [n], 0 to 1e+06.

    Returns
    -------
    str
        Verdict [ok].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Definition of this project.
    """
    require_all(rows_missing_n=rows_missing_n)
    return "look" if rows_missing_n else "ok"
