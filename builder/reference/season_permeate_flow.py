"""Clean-water test: driving pressure, and flow brought to baseline conditions."""

from builder.reference.ranges import require_all
from builder.reference.verdicts_entries import _compared

WHOLE_PCT = 100.0  # shares of one whole (definition)


def _driving_bar(feed_bar: float, concentrate_bar: float, permeate_bar: float) -> float:
    mean_bar = (feed_bar + concentrate_bar) / 2.0
    if _compared(mean_bar) <= _compared(permeate_bar):
        raise ValueError(f"permeate of {permeate_bar} bar is not below the mean of {mean_bar} bar")
    return mean_bar - permeate_bar


def baseline_ndp_bar(
    baseline_feed_bar: float, baseline_concentrate_bar: float, baseline_permeate_bar: float
) -> float:
    """Return the pressure that drives the permeate of the baseline.

    Mean of feed and concentrate less permeate, clean water without osmotic pressure; above 0 only.

    Parameters
    ----------
    baseline_feed_bar : float
        Feed pressure of the baseline [bar], 0 to 200.
    baseline_concentrate_bar : float
        Concentrate pressure of the baseline [bar], 0 to 200.
    baseline_permeate_bar : float
        Permeate pressure of the baseline [bar], 0 to 200.

    Returns
    -------
    float
        Pressure [bar].

    Raises
    ------
    ValueError
        A value lies outside its range, or nothing drives the permeate.

    References
    ----------
    Scheme of ASTM D4516 (second hand: secondary page).
    """
    require_all(
        baseline_feed_bar=baseline_feed_bar,
        baseline_concentrate_bar=baseline_concentrate_bar,
        baseline_permeate_bar=baseline_permeate_bar,
    )
    return _driving_bar(baseline_feed_bar, baseline_concentrate_bar, baseline_permeate_bar)


def test_ndp_bar(
    test_feed_bar: float, test_concentrate_bar: float, test_permeate_bar: float
) -> float:
    """Return the pressure that drives the permeate of the test.

    Mean of feed and concentrate less permeate, clean water without osmotic pressure; above 0 only.

    Parameters
    ----------
    test_feed_bar : float
        Feed pressure of the test [bar], 0 to 200.
    test_concentrate_bar : float
        Concentrate pressure of the test [bar], 0 to 200.
    test_permeate_bar : float
        Permeate pressure of the test [bar], 0 to 200.

    Returns
    -------
    float
        Pressure [bar].

    Raises
    ------
    ValueError
        A value lies outside its range, or nothing drives the permeate.

    References
    ----------
    Scheme of ASTM D4516 (second hand: secondary page).
    """
    require_all(
        test_feed_bar=test_feed_bar,
        test_concentrate_bar=test_concentrate_bar,
        test_permeate_bar=test_permeate_bar,
    )
    return _driving_bar(test_feed_bar, test_concentrate_bar, test_permeate_bar)


def corrected_flow_Lph(
    test_flow_Lph: float,
    test_tcf_n: float,
    baseline_tcf_n: float,
    test_ndp_bar: float,
    baseline_ndp_bar: float,
) -> float:
    """Return the flow that the test would give at baseline temperature and pressure.

    Test flow times the ratios of factor and of driving pressure, baseline over test.

    Parameters
    ----------
    test_flow_Lph : float
        Permeate flow of the test [Lph], 0 to 1e+08.
    test_tcf_n : float
        Chosen temperature factor of the test [n], 1e-06 to 1000.
    baseline_tcf_n : float
        Chosen temperature factor of the baseline [n], 1e-06 to 1000.
    test_ndp_bar : float
        Driving pressure of the test [bar], 1e-09 to 1000.
    baseline_ndp_bar : float
        Driving pressure of the baseline [bar], 1e-09 to 1000.

    Returns
    -------
    float
        Flow [Lph].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Scheme of ASTM D4516 (second hand: secondary page).
    """
    require_all(
        test_flow_Lph=test_flow_Lph,
        test_tcf_n=test_tcf_n,
        baseline_tcf_n=baseline_tcf_n,
        test_ndp_bar=test_ndp_bar,
        baseline_ndp_bar=baseline_ndp_bar,
    )
    factors = baseline_tcf_n / test_tcf_n  # exactly 1 at the same temperature
    return test_flow_Lph * factors * (baseline_ndp_bar / test_ndp_bar)


def flow_pct(corrected_flow_Lph: float, baseline_flow_Lph: float) -> float:
    """Return the corrected flow as a share of the baseline.

    100 corrected over baseline.

    Parameters
    ----------
    corrected_flow_Lph : float
        Test flow at baseline conditions [Lph], 0 to 1e+18.
    baseline_flow_Lph : float
        Permeate flow of the baseline [Lph], 1e-09 to 1e+08.

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
    require_all(corrected_flow_Lph=corrected_flow_Lph, baseline_flow_Lph=baseline_flow_Lph)
    return corrected_flow_Lph / (baseline_flow_Lph / WHOLE_PCT)


def temp_gap_degC(test_temp_degC: float, baseline_temp_degC: float) -> float:
    """Return how far test and baseline lie apart in temperature.

    Absolute difference.

    Parameters
    ----------
    test_temp_degC : float
        Water temperature of the test [degC], 0 to 60.
    baseline_temp_degC : float
        Water temperature of the baseline [degC], 0 to 60.

    Returns
    -------
    float
        Difference [degC].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Definition of this project.
    """
    require_all(test_temp_degC=test_temp_degC, baseline_temp_degC=baseline_temp_degC)
    return max(test_temp_degC, baseline_temp_degC) - min(test_temp_degC, baseline_temp_degC)
