"""Counts over the season log."""

from collections import Counter

from builder.reference.ranges import require_all, require_columns
from builder.reference.season_log_event import FIRST, WASHES
from builder.reference.season_log_row import MISSING


def season_washes_n(log_entries_n: float, log_event_n_list: list[float | None]) -> float:
    """Return the washes of the season.

    Alkaline and acid washes, undefined for an empty log.

    Parameters
    ----------
    log_entries_n : float
        Rows begun [n], 1 to 1e+06.
    log_event_n_list : list of float or None
        Number of the event, by row [n], 1 to 6.

    Returns
    -------
    float
        Washes [n].

    Raises
    ------
    ValueError
        A value lies outside its range, or the log is empty.

    References
    ----------
    Definition of this project.
    """
    require_all(log_entries_n=log_entries_n)
    require_columns(log_event_n_list=log_event_n_list)
    events = Counter(log_event_n_list)
    return float(sum(events[wash] for wash in WASHES))


def season_first_rinses_n(log_entries_n: float, log_event_n_list: list[float | None]) -> float:
    """Return the first rinses of the season.

    Rows of that event, undefined for an empty log.

    Parameters
    ----------
    log_entries_n : float
        Rows begun [n], 1 to 1e+06.
    log_event_n_list : list of float or None
        Number of the event, by row [n], 1 to 6.

    Returns
    -------
    float
        Rinses [n].

    Raises
    ------
    ValueError
        A value lies outside its range, or the log is empty.

    References
    ----------
    Definition of this project.
    """
    require_all(log_entries_n=log_entries_n)
    require_columns(log_event_n_list=log_event_n_list)
    return float(Counter(log_event_n_list)[FIRST])


def washes_low_n(
    log_entries_n: float,
    log_alkaline_n_list: list[float | None],
    log_low_margin_pH_list: list[float | None],
) -> float:
    """Return the alkaline washes that ended below the floor.

    Alkaline rows with a margin below 0, undefined for an empty log.

    Parameters
    ----------
    log_entries_n : float
        Rows begun [n], 1 to 1e+06.
    log_alkaline_n_list : list of float or None
        1 for an alkaline wash, by row [n], 0 to 1.
    log_low_margin_pH_list : list of float or None
        Reading less floor, by row [pH], -200 to 200.

    Returns
    -------
    float
        Washes [n].

    Raises
    ------
    ValueError
        A value lies outside its range, or the log is empty.

    References
    ----------
    Definition of this project.
    """
    require_all(log_entries_n=log_entries_n)
    require_columns(
        log_alkaline_n_list=log_alkaline_n_list, log_low_margin_pH_list=log_low_margin_pH_list
    )
    rows = zip(log_alkaline_n_list, log_low_margin_pH_list, strict=True)
    return float(len([1 for wash, margin in rows if wash and margin is not None and margin < 0]))


def rinses_short_n(log_entries_n: float, log_short_L_list: list[float | None]) -> float:
    """Return the rinses that fell short.

    Rows with water missing, undefined for an empty log.

    Parameters
    ----------
    log_entries_n : float
        Rows begun [n], 1 to 1e+06.
    log_short_L_list : list of float or None
        Rinse water missing, by row [L], 0 to 1e+15.

    Returns
    -------
    float
        Rinses [n].

    Raises
    ------
    ValueError
        A value lies outside its range, or the log is empty.

    References
    ----------
    Definition of this project.
    """
    require_all(log_entries_n=log_entries_n)
    require_columns(log_short_L_list=log_short_L_list)
    return float(len([short for short in log_short_L_list if short]))


def rows_missing_n(log_entries_n: float, log_rank_n_list: list[float | None]) -> float:
    """Return the rows that lack something.

    Rows of rank 4, undefined for an empty log.

    Parameters
    ----------
    log_entries_n : float
        Rows begun [n], 1 to 1e+06.
    log_rank_n_list : list of float or None
        Rank of the row, by row [n], 1 to 4.

    Returns
    -------
    float
        Rows [n].

    Raises
    ------
    ValueError
        A value lies outside its range, or the log is empty.

    References
    ----------
    Definition of this project.
    """
    require_all(log_entries_n=log_entries_n)
    require_columns(log_rank_n_list=log_rank_n_list)
    return float(log_rank_n_list.count(MISSING))


def rows_today_n(log_entries_n: float, log_today_n_list: list[float | None]) -> float:
    """Return the rows that lean on today's inputs.

    Rows whose flag is 1, undefined for an empty log.

    Parameters
    ----------
    log_entries_n : float
        Rows begun [n], 1 to 1e+06.
    log_today_n_list : list of float or None
        1 where today's inputs stand in, by row [n], 0 to 1.

    Returns
    -------
    float
        Rows [n].

    Raises
    ------
    ValueError
        A value lies outside its range, or the log is empty.

    References
    ----------
    Definition of this project.
    """
    require_all(log_entries_n=log_entries_n)
    require_columns(log_today_n_list=log_today_n_list)
    return float(log_today_n_list.count(1))
