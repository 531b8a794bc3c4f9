"""Clean-water test: how much of its reference flow the membrane still gives."""

import math

from scipy.integrate import quad

from builder.reference.comparison import Verdict, round_compared

ZERO_DEGC_K = 273.15  # kelvin (definition)
REFERENCE_DEGC = 25.0  # where every temperature factor is 1 (definition)
# activation temperature below and from 25 degC, design text in a public repository (second hand)
COLD_K = 3020.0
WARM_K = 2640.0
GROWTH_N = 1.03  # gain for each degC, ASTM D4516 (from memory)
# viscosity in uPa s: factor and exponent of T/300 K, IAPWS SR6-08 (read in an open library)
VISCOSITY_FACTORS = (280.68, 511.45, 61.131, 0.45903)
VISCOSITY_POWERS = (-1.9, -7.7, -19.6, -40.0)
VISCOSITY_K = 300.0  # same (read)
WHOLE_PCT = 100.0  # shares of one whole (definition)


def ndp_bar(feed_bar: float, concentrate_bar: float, permeate_bar: float) -> float:
    """Return the pressure that drives the permeate; there is none unless it is above 0.

    (feed + concentrate)/2 - permeate: scheme of ASTM D4516 (second hand), clean water.
    """
    mean_bar = (feed_bar + concentrate_bar) / 2.0
    if round_compared(mean_bar) <= round_compared(permeate_bar):
        raise ValueError(f"permeate of {permeate_bar} bar is not below the mean of {mean_bar} bar")
    return mean_bar - permeate_bar


def two_branch_n(temp_degC: float) -> float:
    """Return flow at a temperature over flow at 25 degC, by two Arrhenius branches.

    d ln(flow)/dT = K/T^2, integrated numerically from 298.15 K; K = 3020 K below 25 degC, 2640 K
    from there up: design text in a public repository (second hand).
    """
    activation_K = COLD_K if temp_degC < REFERENCE_DEGC else WARM_K
    bounds_K = REFERENCE_DEGC + ZERO_DEGC_K, temp_degC + ZERO_DEGC_K
    return math.exp(quad(lambda kelvin: activation_K / kelvin**2, *bounds_K)[0])


def percent_n(temp_degC: float) -> float:
    """Return flow at a temperature over flow at 25 degC, by 3 per cent for each degree.

    1.03^(t - 25): ASTM D4516 (from memory).
    """
    return float(GROWTH_N ** (temp_degC - REFERENCE_DEGC))


def tr_n(temp_degC: float) -> float:
    """Return the temperature in kelvin over 300 K, as IAPWS SR6-08 has it (read in a library)."""
    return (temp_degC + ZERO_DEGC_K) / VISCOSITY_K


def water_uPas(temp_degC: float) -> float:
    """Return the viscosity of water at atmospheric pressure.

    Sum of a (T/300 K)^b: IAPWS SR6-08 (read in an open library).
    """
    terms = zip(VISCOSITY_FACTORS, VISCOSITY_POWERS, strict=True)
    return math.fsum(factor * tr_n(temp_degC) ** power for factor, power in terms)


# to 12 decimals, which no platform's powers change (definition)
WATER_25_UPAS = round(water_uPas(REFERENCE_DEGC), 12)


def viscosity_n(temp_degC: float) -> float:
    """Return flow at a temperature over flow at 25 degC, by the viscosity of water.

    mu(25)/mu(t): flow through a membrane is as 1/mu; IAPWS SR6-08 (read in an open library).
    """
    return water_uPas(REFERENCE_DEGC) / water_uPas(temp_degC)


def tcf_n(flow_correction: str, two_branch_n: float, percent_n: float, viscosity_n: float) -> float:
    """Return the temperature factor of the form that was chosen (definition of this project)."""
    forms = {"two_branch": two_branch_n, "percent": percent_n, "viscosity": viscosity_n}
    return forms[flow_correction]


def corrected_flow_Lph(
    test_flow_Lph: float,
    test_tcf_n: float,
    baseline_tcf_n: float,
    test_ndp_bar: float,
    baseline_ndp_bar: float,
) -> float:
    """Return the flow that the test would give at the reference's temperature and pressure.

    Q (TCF_ref/TCF) (NDP_ref/NDP): scheme of ASTM D4516 (second hand).
    """
    return test_flow_Lph * (baseline_tcf_n / test_tcf_n) * (baseline_ndp_bar / test_ndp_bar)


def flow_pct(corrected_flow_Lph: float, baseline_flow_Lph: float) -> float:
    """Return the corrected flow as a share of the reference flow: 100 Q/Q_ref (definition)."""
    return WHOLE_PCT * corrected_flow_Lph / baseline_flow_Lph


def flow_pressure_pct(
    test_flow_Lph: float, baseline_flow_Lph: float, baseline_ndp_bar: float, test_ndp_bar: float
) -> float:
    """Return the flow for each bar as a share of that of the reference.

    100 (Q/NDP)/(Q_ref/NDP_ref): scheme of ASTM D4516 (second hand).
    """
    return WHOLE_PCT * (test_flow_Lph / test_ndp_bar) / (baseline_flow_Lph / baseline_ndp_bar)


def flow_form_pct(flow_pressure_pct: float, baseline_n: float, test_n: float) -> float:
    """Return the share of the reference flow that one form of temperature factor gives.

    Share by pressure times TCF_ref/TCF: scheme of ASTM D4516 (second hand).
    """
    return flow_pressure_pct * (baseline_n / test_n)


def flow_spread_pct(
    flow_two_branch_pct: float, flow_percent_pct: float, flow_viscosity_pct: float
) -> float:
    """Return how far the three forms lie apart: largest less smallest share (definition)."""
    shares = flow_two_branch_pct, flow_percent_pct, flow_viscosity_pct
    return max(shares) - min(shares)


def temp_gap_degC(test_temp_degC: float, baseline_temp_degC: float) -> float:
    """Return how far test and reference lie apart in temperature: |t - t_ref| (definition)."""
    return abs(test_temp_degC - baseline_temp_degC)


def flow_ok(flow_pct: float, flow_wash_pct: float, flow_stop_pct: float) -> Verdict:
    """Return stop below the stop limit, look below the wash limit, else ok.

    Limits: common practice, no source.
    """
    share = round_compared(flow_pct)
    if share < round_compared(flow_stop_pct):
        return "stop"
    return "look" if share < round_compared(flow_wash_pct) else "ok"


def temp_gap_ok(temp_gap_degC: float, temp_most_gap_degC: float) -> Verdict:
    """Return ok up to the largest gap of temperature, else look (definition of this project)."""
    near = round_compared(temp_gap_degC) <= round_compared(temp_most_gap_degC)
    return "ok" if near else "look"
