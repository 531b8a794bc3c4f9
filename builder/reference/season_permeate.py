"""Permeate: spread of the test and its verdicts stand here, the rest comes from beside."""

from builder.reference.ranges import require, require_all
from builder.reference.season_permeate_factors import (
    baseline_percent_n,
    baseline_two_branch_n,
    baseline_viscosity_n,
    test_percent_n,
    test_two_branch_n,
    test_viscosity_n,
)
from builder.reference.season_permeate_flow import (
    baseline_ndp_bar,
    corrected_flow_Lph,
    flow_pct,
    temp_gap_degC,
    test_ndp_bar,
)
from builder.reference.season_permeate_sugar import (
    PER_K,
    PER_K2,
    PERMEATE_DENSITY_KGPL,
    sugar_brix,
    sugar_correction_brix,
    sugar_hidden_kgph,
    sugar_loss_kgph,
    sugar_ok,
    sugar_seen_brix,
)
from builder.reference.season_permeate_temperature import (
    COLD_K,
    PERCENT_FRAC,
    REFERENCE_DEGC,
    VISCOSITY,
    VISCOSITY_K,
    WARM_K,
    baseline_tcf_n,
    tcf_percent_n,
    tcf_two_branch_n,
    tcf_viscosity_n,
    test_tcf_n,
)
from builder.reference.verdicts_entries import Verdict, _compared

__all__ = [
    "COLD_K",
    "PERCENT_FRAC",
    "PERMEATE_DENSITY_KGPL",
    "PER_K",
    "PER_K2",
    "REFERENCE_DEGC",
    "VISCOSITY",
    "VISCOSITY_K",
    "WARM_K",
    "baseline_ndp_bar",
    "baseline_percent_n",
    "baseline_tcf_n",
    "baseline_two_branch_n",
    "baseline_viscosity_n",
    "corrected_flow_Lph",
    "flow_ok",
    "flow_pct",
    "flow_spread_pct",
    "sugar_brix",
    "sugar_correction_brix",
    "sugar_hidden_kgph",
    "sugar_loss_kgph",
    "sugar_ok",
    "sugar_seen_brix",
    "tcf_percent_n",
    "tcf_two_branch_n",
    "tcf_viscosity_n",
    "temp_gap_degC",
    "temp_gap_ok",
    "test_ndp_bar",
    "test_percent_n",
    "test_tcf_n",
    "test_two_branch_n",
    "test_viscosity_n",
]

FLOW_MOST_PCT = 1e18  # upper end of the range (rule of this package)


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


def flow_ok(flow_pct: float, flow_wash_pct: float, flow_stop_pct: float) -> Verdict:
    """Return whether the membrane lets enough water through.

    Stop below the stop limit, look below the wash limit, else ok, at 15 digits.

    Parameters
    ----------
    flow_pct : float
        Test flow over baseline flow [pct], 0 to 1e+18.
    flow_wash_pct : float
        Flow below which to wash [pct], 0 to 1000.
    flow_stop_pct : float
        Flow below which to stop [pct], 0 to 1000.

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
    Common practice, no source.
    """
    require_all(flow_wash_pct=flow_wash_pct, flow_stop_pct=flow_stop_pct)
    require("flow_pct", flow_pct, "pct", 0.0, FLOW_MOST_PCT)
    if _compared(flow_pct) < _compared(flow_stop_pct):
        return "stop"
    return "look" if _compared(flow_pct) < _compared(flow_wash_pct) else "ok"


def temp_gap_ok(temp_gap_degC: float, temp_most_gap_degC: float) -> Verdict:
    """Return whether test and baseline can be compared.

    Gap <= most, at 15 digits.

    Parameters
    ----------
    temp_gap_degC : float
        Difference of the two temperatures [degC], 0 to 100.
    temp_most_gap_degC : float
        Largest difference [degC], 0 to 100.

    Returns
    -------
    str
        Verdict, ok or look [ok].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Definition of this project.
    """
    require_all(temp_gap_degC=temp_gap_degC, temp_most_gap_degC=temp_most_gap_degC)
    near = _compared(temp_gap_degC) <= _compared(temp_most_gap_degC)
    return "ok" if near else "look"
