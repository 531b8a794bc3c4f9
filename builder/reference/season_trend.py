"""One row of the flow's trend: numbers only, 0 where there is nothing."""

from builder.reference.ranges import require_given


def since_d(day_d: float | None = None, first_day_d: float | None = None) -> float:
    """Return the days since the first day of the log.

    Day less first day, 0 where one is missing.

    Parameters
    ----------
    day_d : float, optional
        Day of the entry, serial number [d], 1 to 1e+06.
    first_day_d : float, optional
        First day of the log, serial number [d], 1 to 1e+06.

    Returns
    -------
    float
        Days [d].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Definition of this project.
    """
    require_given(day_d=day_d, first_day_d=first_day_d)
    return 0.0 if day_d is None or first_day_d is None else float(day_d - first_day_d)


def shown_pct(flow_pct: float | None = None) -> float:
    """Return the flow's share as the trend shows it.

    The share, 0 where it is missing.

    Parameters
    ----------
    flow_pct : float, optional
        Flow as a share of the baseline [pct], -1e+09 to 1e+09.

    Returns
    -------
    float
        Share [pct].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Definition of this project.
    """
    require_given(flow_pct=flow_pct)
    return 0.0 if flow_pct is None else float(flow_pct)


def weight_n(
    day_d: float | None = None, flow_pct: float | None = None, last_wash_d: float | None = None
) -> float:
    """Return whether the row counts in the trend.

    1 where day and flow are there and the day is after that of the last wash, else 0; a run logged
    on the day of a wash usually came before it.

    Parameters
    ----------
    day_d : float, optional
        Day of the entry, serial number [d], 1 to 1e+06.
    flow_pct : float, optional
        Flow as a share of the baseline [pct], -1e+09 to 1e+09.
    last_wash_d : float, optional
        Day of the last wash, serial number [d], 0 to 1e+06.

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
    require_given(day_d=day_d, flow_pct=flow_pct, last_wash_d=last_wash_d)
    if day_d is None or flow_pct is None:
        return 0.0
    return float(day_d > (last_wash_d or 0.0))
