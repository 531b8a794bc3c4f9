"""Permeate: the verdicts of the test stand here, the rest comes from beside."""

from builder.reference.ranges import require, require_all
from builder.reference.season_permeate_correction import (
    FIT_STEP_BRIX,
    PER_K,
    PER_K2,
    SUGAR_BASE_DEGC,
    sugar_correction_brix,
    sugar_gap_degC,
    sugar_shift_brix,
    sugar_tens_n,
)
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
from builder.reference.season_permeate_shares import (
    flow_percent_pct,
    flow_pressure_pct,
    flow_spread_pct,
    flow_two_branch_pct,
    flow_viscosity_pct,
)
from builder.reference.season_permeate_sugar import (
    PERMEATE_DENSITY_KGPL,
    sugar_brix,
    sugar_hidden_kgph,
    sugar_loss_kgph,
    sugar_ok,
    sugar_passage_pct,
    sugar_seen_brix,
)
from builder.reference.season_permeate_temperature import (
    COLD_K,
    GROWTH_N,
    REFERENCE_DEGC,
    VISCOSITY_FACTORS,
    VISCOSITY_K,
    VISCOSITY_POWERS,
    WARM_K,
    WATER_25_UPAS,
    baseline_tcf_n,
    tcf_percent_n,
    tcf_two_branch_n,
    tcf_viscosity_n,
    test_tcf_n,
)
from builder.reference.season_permeate_viscosity import (
    baseline_tr_n,
    baseline_water_uPas,
    test_tr_n,
    test_water_uPas,
)
from builder.reference.verdicts_entries import Verdict, _compared

__all__ = [
    "COLD_K",
    "FIT_STEP_BRIX",
    "GROWTH_N",
    "PERMEATE_DENSITY_KGPL",
    "PER_K",
    "PER_K2",
    "REFERENCE_DEGC",
    "SUGAR_BASE_DEGC",
    "VISCOSITY_FACTORS",
    "VISCOSITY_K",
    "VISCOSITY_POWERS",
    "WARM_K",
    "WATER_25_UPAS",
    "baseline_ndp_bar",
    "baseline_percent_n",
    "baseline_tcf_n",
    "baseline_tr_n",
    "baseline_two_branch_n",
    "baseline_viscosity_n",
    "baseline_water_uPas",
    "corrected_flow_Lph",
    "flow_ok",
    "flow_pct",
    "flow_percent_pct",
    "flow_pressure_pct",
    "flow_spread_pct",
    "flow_two_branch_pct",
    "flow_viscosity_pct",
    "sugar_brix",
    "sugar_correction_brix",
    "sugar_gap_degC",
    "sugar_hidden_kgph",
    "sugar_loss_kgph",
    "sugar_ok",
    "sugar_passage_pct",
    "sugar_seen_brix",
    "sugar_shift_brix",
    "sugar_tens_n",
    "tcf_percent_n",
    "tcf_two_branch_n",
    "tcf_viscosity_n",
    "temp_gap_degC",
    "temp_gap_ok",
    "test_ndp_bar",
    "test_percent_n",
    "test_tcf_n",
    "test_tr_n",
    "test_two_branch_n",
    "test_viscosity_n",
    "test_water_uPas",
]

FLOW_MOST_PCT = 1e18  # upper end of the range (rule of this package)


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
