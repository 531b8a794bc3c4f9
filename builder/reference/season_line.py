"""Straight line through the flow since the last wash, and when it says to wash."""

from fractions import Fraction

import numpy as np
from numpy.typing import NDArray

from builder.reference.ranges import require, require_all, require_columns

# smallest fall that forecasts a wash [pctpd]; a smaller one is shown as 0 (definition of this
# project)
FALL_LEAST_PCTPD = 0.0005
STEEPEST = -1e9  # falling slope (common practice, no source)


def _numbers(column: list[float | None]) -> NDArray[np.float64]:
    """Return a column as numbers, 0 for a blank."""
    return np.array([value or 0.0 for value in column], dtype=np.float64)


def trend_points_n(trend_weight_n_list: list[float | None]) -> float:
    """Return the rows that count in the trend.

    Sum of the weights.

    Parameters
    ----------
    trend_weight_n_list : list of float or None
        1 where the row counts, by row [n], 0 to 1.

    Returns
    -------
    float
        Rows [n].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Definition of this project.
    """
    require_columns(trend_weight_n_list=trend_weight_n_list)
    return float(_numbers(trend_weight_n_list).sum())


def flow_slope_pctpd(
    trend_points_n: float,
    trend_weight_n_list: list[float | None],
    trend_since_d_list: list[float | None],
    trend_shown_pct_list: list[float | None],
) -> float:
    """Return the slope of the flow since the last wash.

    Least squares over all pairs of rows: sum w w dx dy / sum w w dx dx.

    Parameters
    ----------
    trend_points_n : float
        Rows that count [n], 3 to 1e+06.
    trend_weight_n_list : list of float or None
        1 where the row counts, by row [n], 0 to 1.
    trend_since_d_list : list of float or None
        Days since the first day, by row [d], -1e+06 to 1e+06.
    trend_shown_pct_list : list of float or None
        Flow as a share of the baseline, by row [pct], -1e+09 to 1e+09.

    Returns
    -------
    float
        Slope [pctpd].

    Raises
    ------
    ValueError
        A value lies outside its range, or all rows are of one day.

    References
    ----------
    Least squares, identity of pairs (definition).
    """
    require_all(trend_points_n=trend_points_n)
    require_columns(
        trend_weight_n_list=trend_weight_n_list,
        trend_since_d_list=trend_since_d_list,
        trend_shown_pct_list=trend_shown_pct_list,
    )
    weight, day, flow = map(
        _numbers, (trend_weight_n_list, trend_since_d_list, trend_shown_pct_list)
    )
    pair = np.multiply.outer(weight, weight)
    days, flows = np.subtract.outer(day, day), np.subtract.outer(flow, flow)
    spread = float((pair * days * days).sum())
    if spread == 0:
        raise ValueError("trend_since_d_list holds one day only; two are needed")
    return float((pair * days * flows).sum()) / spread


def flow_start_pct(
    trend_points_n: float,
    trend_weight_n_list: list[float | None],
    trend_since_d_list: list[float | None],
    trend_shown_pct_list: list[float | None],
    flow_slope_pctpd: float,
) -> float:
    """Return where the line starts on the first day of the log.

    Weighted mean of what the slope leaves of each row's flow.

    Parameters
    ----------
    trend_points_n : float
        Rows that count [n], 3 to 1e+06.
    trend_weight_n_list : list of float or None
        1 where the row counts, by row [n], 0 to 1.
    trend_since_d_list : list of float or None
        Days since the first day, by row [d], -1e+06 to 1e+06.
    trend_shown_pct_list : list of float or None
        Flow as a share of the baseline, by row [pct], -1e+09 to 1e+09.
    flow_slope_pctpd : float
        Slope of the flow [pctpd], -1e+09 to 1e+09.

    Returns
    -------
    float
        Share [pct].

    Raises
    ------
    ValueError
        A value lies outside its range, or too few rows count.

    References
    ----------
    Least squares (definition).
    """
    require_all(trend_points_n=trend_points_n, flow_slope_pctpd=flow_slope_pctpd)
    require_columns(
        trend_weight_n_list=trend_weight_n_list,
        trend_since_d_list=trend_since_d_list,
        trend_shown_pct_list=trend_shown_pct_list,
    )
    weight, day, flow = map(
        _numbers, (trend_weight_n_list, trend_since_d_list, trend_shown_pct_list)
    )
    return float(np.average(flow - flow_slope_pctpd * day, weights=weight))


def next_wash_d(
    first_day_d: float, flow_slope_pctpd: float, flow_start_pct: float, flow_wash_pct: float
) -> float:
    """Return the day on which the line reaches the wash limit.

    First day + (limit - start) / slope, undefined unless the flow falls by 0.0005 % a day.

    Parameters
    ----------
    first_day_d : float
        First day of the log, serial number [d], 1 to 1e+06.
    flow_slope_pctpd : float
        Slope of the flow [pctpd], -1e+09 to -0.0005.
    flow_start_pct : float
        Flow on the first day by the line [pct], -1e+12 to 1e+12.
    flow_wash_pct : float
        Flow at which to wash [pct], 0 to 1000.

    Returns
    -------
    float
        Day [d].

    Raises
    ------
    ValueError
        A value lies outside its range, or the flow does not fall.

    References
    ----------
    Definition of this project.
    """
    require("flow_slope_pctpd", flow_slope_pctpd, "pctpd", STEEPEST, -FALL_LEAST_PCTPD)
    require_all(first_day_d=first_day_d, flow_start_pct=flow_start_pct, flow_wash_pct=flow_wash_pct)
    rise = Fraction(flow_wash_pct) - Fraction(flow_start_pct)
    return float(Fraction(first_day_d) + rise / Fraction(flow_slope_pctpd))
