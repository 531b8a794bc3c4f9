"""Flow of the test as a share of the baseline, by each temperature correction."""

from builder.reference.ranges import require_all
from builder.reference.season_permeate_flow import WHOLE_PCT, corrected_flow_Lph, flow_pct


def flow_pressure_pct(
    test_flow_Lph: float, baseline_flow_Lph: float, baseline_ndp_bar: float, test_ndp_bar: float
) -> float:
    """Return the flow, corrected for pressure only, as a share of the baseline.

    100 times the ratio of flow for each bar, test over baseline.

    Parameters
    ----------
    test_flow_Lph : float
        Permeate flow of the test [Lph], 0 to 1e+08.
    baseline_flow_Lph : float
        Permeate flow of the baseline [Lph], 1e-09 to 1e+08.
    baseline_ndp_bar : float
        Driving pressure of the baseline [bar], 1e-09 to 1000.
    test_ndp_bar : float
        Driving pressure of the test [bar], 1e-09 to 1000.

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
    Scheme of ASTM D4516 (second hand: secondary page).
    """
    require_all(
        test_flow_Lph=test_flow_Lph,
        baseline_flow_Lph=baseline_flow_Lph,
        baseline_ndp_bar=baseline_ndp_bar,
        test_ndp_bar=test_ndp_bar,
    )
    return WHOLE_PCT * (test_flow_Lph / test_ndp_bar) / (baseline_flow_Lph / baseline_ndp_bar)


def flow_two_branch_pct(
    flow_pressure_pct: float, baseline_two_branch_n: float, test_two_branch_n: float
) -> float:
    """Return the flow, corrected by the two-branch form, as a share of the baseline.

    Share corrected for pressure times the ratio of factors, baseline over test.

    Parameters
    ----------
    flow_pressure_pct : float
        Flow corrected for pressure over that of the baseline [pct], 0 to 1e+18.
    baseline_two_branch_n : float
        Factor of two branches at the baseline's temperature [n], 1e-06 to 1000.
    test_two_branch_n : float
        Factor of two branches at the test's temperature [n], 1e-06 to 1000.

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
    Two-branch Arrhenius form, 3020 and 2640 K: design text in a public repository (second hand).
    """
    require_all(
        flow_pressure_pct=flow_pressure_pct,
        baseline_two_branch_n=baseline_two_branch_n,
        test_two_branch_n=test_two_branch_n,
    )
    factors = baseline_two_branch_n / test_two_branch_n  # exactly 1 at the same temperature
    return flow_pressure_pct * factors


def flow_percent_pct(
    flow_pressure_pct: float, baseline_percent_n: float, test_percent_n: float
) -> float:
    """Return the flow, corrected at 3 per cent for each degC, as a share of the baseline.

    Share corrected for pressure times the ratio of factors, baseline over test.

    Parameters
    ----------
    flow_pressure_pct : float
        Flow corrected for pressure over that of the baseline [pct], 0 to 1e+18.
    baseline_percent_n : float
        Factor of 3 % per degC at the baseline's temperature [n], 1e-06 to 1000.
    test_percent_n : float
        Factor of 3 % per degC at the test's temperature [n], 1e-06 to 1000.

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
    3 per cent for each degC, ASTM D4516 (from memory).
    """
    require_all(
        flow_pressure_pct=flow_pressure_pct,
        baseline_percent_n=baseline_percent_n,
        test_percent_n=test_percent_n,
    )
    factors = baseline_percent_n / test_percent_n  # exactly 1 at the same temperature
    return flow_pressure_pct * factors


def flow_viscosity_pct(
    flow_pressure_pct: float, baseline_viscosity_n: float, test_viscosity_n: float
) -> float:
    """Return the flow, corrected by the viscosity of water, as a share of the baseline.

    Share corrected for pressure times the ratio of factors, baseline over test.

    Parameters
    ----------
    flow_pressure_pct : float
        Flow corrected for pressure over that of the baseline [pct], 0 to 1e+18.
    baseline_viscosity_n : float
        Factor of viscosity at the baseline's temperature [n], 1e-06 to 1000.
    test_viscosity_n : float
        Factor of viscosity at the test's temperature [n], 1e-06 to 1000.

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
    IAPWS SR6-08, equation of viscosity (read in an open library).
    """
    require_all(
        flow_pressure_pct=flow_pressure_pct,
        baseline_viscosity_n=baseline_viscosity_n,
        test_viscosity_n=test_viscosity_n,
    )
    factors = baseline_viscosity_n / test_viscosity_n  # exactly 1 at the same temperature
    return flow_pressure_pct * factors


def flow_spread_pct(
    test_flow_Lph: float,
    test_ndp_bar: float,
    baseline_ndp_bar: float,
    baseline_flow_Lph: float,
    test_two_branch_n: float,
    test_percent_n: float,
    test_viscosity_n: float,
    baseline_two_branch_n: float,
    baseline_percent_n: float,
    baseline_viscosity_n: float,
) -> float:
    """Return how far the three temperature corrections lie apart.

    Largest less smallest of the three flows as shares of the baseline.

    Parameters
    ----------
    test_flow_Lph : float
        Permeate flow of the test [Lph], 0 to 1e+08.
    test_ndp_bar : float
        Driving pressure of the test [bar], 1e-09 to 1000.
    baseline_ndp_bar : float
        Driving pressure of the baseline [bar], 1e-09 to 1000.
    baseline_flow_Lph : float
        Permeate flow of the baseline [Lph], 1e-09 to 1e+08.
    test_two_branch_n : float
        Factor of two branches at the test's temperature [n], 1e-06 to 1000.
    test_percent_n : float
        Factor of 3 % per degC at the test's temperature [n], 1e-06 to 1000.
    test_viscosity_n : float
        Factor of viscosity at the test's temperature [n], 1e-06 to 1000.
    baseline_two_branch_n : float
        Factor of two branches at the baseline's temperature [n], 1e-06 to 1000.
    baseline_percent_n : float
        Factor of 3 % per degC at the baseline's temperature [n], 1e-06 to 1000.
    baseline_viscosity_n : float
        Factor of viscosity at the baseline's temperature [n], 1e-06 to 1000.

    Returns
    -------
    float
        Difference of shares [pct].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Definition of this project.
    """
    require_all(
        test_flow_Lph=test_flow_Lph,
        test_ndp_bar=test_ndp_bar,
        baseline_ndp_bar=baseline_ndp_bar,
        baseline_flow_Lph=baseline_flow_Lph,
        test_two_branch_n=test_two_branch_n,
        test_percent_n=test_percent_n,
        test_viscosity_n=test_viscosity_n,
        baseline_two_branch_n=baseline_two_branch_n,
        baseline_percent_n=baseline_percent_n,
        baseline_viscosity_n=baseline_viscosity_n,
    )
    pairs = (
        (test_two_branch_n, baseline_two_branch_n),
        (test_percent_n, baseline_percent_n),
        (test_viscosity_n, baseline_viscosity_n),
    )
    flows = [
        corrected_flow_Lph(test_flow_Lph, test, baseline, test_ndp_bar, baseline_ndp_bar)
        for test, baseline in pairs
    ]
    return flow_pct(max(flows) - min(flows), baseline_flow_Lph)
