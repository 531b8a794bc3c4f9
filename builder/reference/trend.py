"""The flow of permeate since the last wash: brought to the baseline, its line, the next wash.

Where no source is named, the definition is this project's own.
"""

from numpy.polynomial import Polynomial

from builder.reference.permeate import ndp_bar, percent_n, two_branch_n, viscosity_n

COLDEST_DEGC, WARMEST_DEGC = -20.0, 110.0  # ends of the viscosity's formula; IAPWS SR6-08 (read)
POINTS_LEAST_N = 3
FALL_LEAST_PCTPD = 0.0005  # smallest fall that forecasts a wash; a smaller one is shown as 0


def drive_bar(feed_bar: float, out_bar: float, back_bar: float | None = None) -> float:
    """Return the driving pressure, as in the clean-water test; a blank of the permeate is 0."""
    return ndp_bar(feed_bar, out_bar, back_bar or 0.0)


def tcf_n(water_degC: float, flow_correction: str) -> float:
    """Return the temperature factor, relative to 25 degC, as in the clean-water test.

    No answer beyond -20 to 110 degC, where the viscosity's formula ends: IAPWS SR6-08 (read).
    """
    if not COLDEST_DEGC <= water_degC <= WARMEST_DEGC:
        limits = f"{COLDEST_DEGC:g} to {WARMEST_DEGC:g} degC"
        raise ValueError(f"water_degC = {water_degC} degC is beyond the model, {limits}")
    forms = {"two_branch": two_branch_n, "percent": percent_n, "viscosity": viscosity_n}
    return forms[flow_correction](water_degC)


def flow_pct(
    flow_Lph: float,
    tcf_n: float,
    drive_bar: float,
    baseline_tcf_n: float,
    baseline_ndp_bar: float,
    baseline_flow_Lph: float,
) -> float:
    """Return the flow as a share of the baseline, both per bar and at 25 degC.

    100 x Q / (TCF p) over that of the baseline; scheme of ASTM D4516 (second hand).
    """
    today = flow_Lph / (tcf_n * drive_bar)
    return 100.0 * today / (baseline_flow_Lph / (baseline_tcf_n * baseline_ndp_bar))


def since_d(day_d: float | None = None, first_day_d: float | None = None) -> float:
    """Return the days since the first of the log: day less first, 0 where one is missing."""
    return 0.0 if day_d is None or first_day_d is None else day_d - first_day_d


def shown_pct(flow_pct: float | None = None) -> float:
    """Return the flow as the trend shows it: 0 where it is missing."""
    return flow_pct or 0.0


def weight_n(
    day_d: float | None = None, flow_pct: float | None = None, last_wash_d: float | None = None
) -> float:
    """Return the flag of a row that counts: it has a flow and a day after that of the last wash.

    A run logged on the day of a wash usually came before it.
    """
    if day_d is None or flow_pct is None:
        return 0.0
    return float(day_d > (last_wash_d or 0.0))


def trend_points_n(trend_weight_n_list: list[float | None]) -> float:
    """Return how many rows count."""
    return float(trend_weight_n_list.count(1.0))


def flow_slope_pctpd(
    trend_points_n: float,
    trend_weight_n_list: list[float | None],
    trend_since_d_list: list[float],
    trend_shown_pct_list: list[float],
) -> float:
    """Return the slope of the line through the rows that count.

    Least squares, solved by an orthogonal fit instead of sums.
    """
    line = _fit_line(trend_weight_n_list, trend_since_d_list, trend_shown_pct_list, trend_points_n)
    return float(line.deriv()(0.0))


def flow_start_pct(
    trend_points_n: float,
    trend_weight_n_list: list[float | None],
    trend_since_d_list: list[float],
    trend_shown_pct_list: list[float],
) -> float:
    """Return that line on the first day of the log, where days since are 0."""
    line = _fit_line(trend_weight_n_list, trend_since_d_list, trend_shown_pct_list, trend_points_n)
    return float(line(0.0))


def _fit_line(
    weights: list[float | None], days: list[float], flows: list[float], points_n: float
) -> Polynomial:
    """Return the line through the points that count: three at least, on two days at least."""
    if points_n < POINTS_LEAST_N:
        raise ValueError(f"trend_points_n = {points_n} n: a line needs {POINTS_LEAST_N} points")
    rows = zip(weights, days, flows, strict=True)
    day, flow = zip(*[(d, f) for weight, d, f in rows if weight], strict=True)
    if len(set(day)) == 1:
        raise ValueError("trend_since_d_list holds one day only; two are needed")
    return Polynomial.fit(day, flow, 1)


def line_d(
    row_n: float, last_wash_d: float, first_day_d: float, trend_since_d_list: list[float | None]
) -> float:
    """Return the day of an end of the line drawn, counted from the first day of the log.

    Row 1: max(0, last wash - first day); row 2: the last day in the list (definition).
    """
    if row_n == 1.0:
        return max(0.0, last_wash_d - first_day_d)
    return max(day for day in trend_since_d_list if day is not None)


def line_pct(line_d: float, flow_start_pct: float, flow_slope_pctpd: float) -> float:
    """Return the flow of the line on that day: start + slope x days (definition)."""
    return flow_start_pct + flow_slope_pctpd * line_d


def next_wash_d(
    first_day_d: float, flow_slope_pctpd: float, flow_start_pct: float, flow_wash_pct: float
) -> float:
    """Return the day on which the line meets the limit: first day + (limit - start) / slope.

    No answer unless the flow falls by 0.0005 % a day.
    """
    if flow_slope_pctpd > -FALL_LEAST_PCTPD:
        text = f"flow_slope_pctpd = {flow_slope_pctpd} pctpd is no fall of {FALL_LEAST_PCTPD} pctpd"
        raise ValueError(text)
    return first_day_d + (flow_wash_pct - flow_start_pct) / flow_slope_pctpd
