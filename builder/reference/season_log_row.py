"""State of one row of the log: begun, complete, right."""

from builder.reference.ranges import require, require_all, require_choice, require_given
from builder.reference.season_log_event import ALKALINE, EVENTS, OWING

MISSING, STOP, LOOK, OK = 4.0, 3.0, 2.0, 1.0  # ranks of a row (definition of this project)
DIGITS = 15  # significant digits that spreadsheets compare (measured in one engine)


def begun_n(
    day_d: float | None = None,
    event: str | None = None,
    hours_h: float | None = None,
    sap_L: float | None = None,
    flow_Lph: float | None = None,
    rinse_L: float | None = None,
    rinse_min: float | None = None,
) -> float:
    """Return whether the row is begun.

    1 where any of the columns is filled in.

    Parameters
    ----------
    day_d : float, optional
        Day of the entry, serial number [d], 1 to 1e+06.
    event : str, optional
        Code of the event [choice], "run", "rinse", "alkaline", "acid", "first" or "storage".
    hours_h : float, optional
        Hours run [h], -10000 to 10000.
    sap_L : float, optional
        Sap treated [L], -1e+09 to 1e+09.
    flow_Lph : float, optional
        Permeate flow [Lph], -1e+08 to 1e+08.
    rinse_L : float, optional
        Rinse water read off [L], -1e+09 to 1e+09.
    rinse_min : float, optional
        Time of the rinse [min], -1e+06 to 1e+06.

    Returns
    -------
    float
        1 or 0 [n].

    Raises
    ------
    ValueError
        A value lies outside its range or is no allowed choice.

    References
    ----------
    Definition of this project.
    """
    require_given(
        day_d=day_d,
        hours_h=hours_h,
        sap_L=sap_L,
        flow_Lph=flow_Lph,
        rinse_L=rinse_L,
        rinse_min=rinse_min,
    )
    if event is not None:
        require_choice("event", event, EVENTS)
    columns = (day_d, event, hours_h, sap_L, flow_Lph, rinse_L, rinse_min)
    return float(any(value is not None for value in columns))


def lacking_n(
    begun_n: float,
    day_d: float | None = None,
    event_n: float | None = None,
    done_L: float | None = None,
    begin_pH: float | None = None,
    finish_pH: float | None = None,
) -> float:
    """Return how much is missing in a row that is begun.

    Day, event, rinse where one is owed, both pH readings of an alkaline wash: 1 each.

    Parameters
    ----------
    begun_n : float
        1 where the row is begun [n], 0 to 1.
    day_d : float, optional
        Day of the entry, serial number [d], 1 to 1e+06.
    event_n : float, optional
        Number of the event [n], 1 to 6.
    done_L : float, optional
        Rinse water used [L], -1e+15 to 1e+15.
    begin_pH : float, optional
        Reading at the start of the wash [pH], -100 to 100.
    finish_pH : float, optional
        Reading at the end of the wash [pH], -100 to 100.

    Returns
    -------
    float
        Count [n].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Definition of this project.
    """
    require_all(begun_n=begun_n)
    require_given(
        day_d=day_d, event_n=event_n, done_L=done_L, begin_pH=begin_pH, finish_pH=finish_pH
    )
    missing = {
        "day": day_d is None,
        "event": event_n is None,
        "rinse": event_n in OWING and done_L is None,
        "begin": event_n == ALKALINE and begin_pH is None,
        "finish": event_n == ALKALINE and finish_pH is None,
    }
    return float(sum(missing.values())) if begun_n else 0.0


def bad_n(
    begun_n: float,
    event_n: float | None = None,
    short_L: float | None = None,
    top_margin_pH: float | None = None,
    low_margin_pH: float | None = None,
) -> float:
    """Return how much is wrong in a row that is begun.

    Rinse short, start above the ceiling, end below the floor: 1 each, where told.

    Parameters
    ----------
    begun_n : float
        1 where the row is begun [n], 0 to 1.
    event_n : float, optional
        Number of the event [n], 1 to 6.
    short_L : float, optional
        Rinse water missing [L], 0 to 1e+15.
    top_margin_pH : float, optional
        Ceiling less reading [pH], -200 to 200.
    low_margin_pH : float, optional
        Reading less floor [pH], -200 to 200.

    Returns
    -------
    float
        Count [n].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Definition of this project.
    """
    require_all(begun_n=begun_n)
    require_given(
        event_n=event_n, short_L=short_L, top_margin_pH=top_margin_pH, low_margin_pH=low_margin_pH
    )
    wrong = [event_n in OWING and short_L is not None and short_L > 0]
    if event_n == ALKALINE:
        wrong += [margin is not None and margin < 0 for margin in (top_margin_pH, low_margin_pH)]
    return float(sum(wrong)) if begun_n else 0.0


def watch_n(
    begun_n: float, permeate_brix: float | None = None, sugar_resolution_brix: float | None = None
) -> float:
    """Return whether the permeate of the row shows sugar.

    1 where the reading is above the instrument's resolution at 15 digits, else 0.

    Parameters
    ----------
    begun_n : float
        1 where the row is begun [n], 0 to 1.
    permeate_brix : float, optional
        Sugar of the permeate [brix], -10 to 100.
    sugar_resolution_brix : float, optional
        Least sugar that the instrument tells [brix], 0 to 100.

    Returns
    -------
    float
        1 or 0 [n].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Definition of this project.
    """
    require_all(begun_n=begun_n)
    require_given(permeate_brix=permeate_brix, sugar_resolution_brix=sugar_resolution_brix)
    if not begun_n or permeate_brix is None or sugar_resolution_brix is None:
        return 0.0
    seen, least = (float(f"{v:.{DIGITS}g}") for v in (permeate_brix, sugar_resolution_brix))
    return float(seen > least)


def rank_n(begun_n: float, lacking_n: float, bad_n: float, watch_n: float) -> float:
    """Return the rank of the row.

    4 something is missing, 3 something is wrong, 2 sugar is seen, 1 all is well.

    Parameters
    ----------
    begun_n : float
        1 where the row is begun [n], 1 to 1.
    lacking_n : float
        Things that are missing [n], 0 to 5.
    bad_n : float
        Things that are wrong [n], 0 to 3.
    watch_n : float
        1 where sugar is seen [n], 0 to 1.

    Returns
    -------
    float
        Rank [n].

    Raises
    ------
    ValueError
        A value lies outside its range, or the row is not begun.

    References
    ----------
    Definition of this project.
    """
    require("begun_n", begun_n, "n", 1, 1)
    require_all(lacking_n=lacking_n, bad_n=bad_n, watch_n=watch_n)
    found = {MISSING: lacking_n, STOP: bad_n, LOOK: watch_n, OK: 1.0}
    return max(rank for rank, count in found.items() if count > 0)
