"""The permeate: how much the membrane still gives, and how much sugar goes with it."""

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
SUGAR_BASE_DEGC = 20.0  # temperature of refractometer scales, OIV-MA-AS2-02 (read)
# correction per K and per K^2, in powers of reading/10: own fit to OIV-MA-AS2-02 table I (read)
# and the refractive index of water of the IAPWS
PER_K = (0.06152545, 0.00814041, -0.00118659)
PER_K2 = (0.00119483, -0.00020348)
FIT_STEP_BRIX = 10.0  # step of the reading in that fit (definition)
PERMEATE_DENSITY_KGPL = 1.0  # error 0.2 per cent (definition of this project)


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


def sugar_gap_degC(sugar_instrument: str, sugar_temp_degC: float | None = None) -> float:
    """Return how far the sample lies from the temperature of the scale.

    t - 20; 0 for a compensated instrument or an unknown temperature: OIV-MA-AS2-02 (read).
    """
    if sugar_instrument == "compensated" or sugar_temp_degC is None:
        return 0.0
    return sugar_temp_degC - SUGAR_BASE_DEGC


def sugar_tens_n(sugar_reading_brix: float) -> float:
    """Return the reading in steps of the fit: reading/10 (definition of this project)."""
    return sugar_reading_brix / FIT_STEP_BRIX


def sugar_shift_brix(sugar_gap_degC: float, sugar_tens_n: float) -> float:
    """Return what the fit adds to a reading, from 2 to 30 degC and up to 40 Brix.

    d (a0 + a1 b + a2 b^2) + d^2 (c0 + c1 b): own fit to OIV-MA-AS2-02, table I (read).
    """
    gap, tens = sugar_gap_degC, sugar_tens_n
    per_K = PER_K[0] + PER_K[1] * tens + PER_K[2] * tens**2
    per_K2 = PER_K2[0] + PER_K2[1] * tens
    return gap * per_K + gap**2 * per_K2


def sugar_correction_brix(
    sugar_instrument: str, sugar_reading_brix: float, sugar_temp_degC: float | None = None
) -> float:
    """Return the correction to add to a reading; a plain instrument needs its temperature.

    The fit at t - 20 and reading/10; 0 for a compensated instrument: OIV-MA-AS2-02 (read).
    """
    if sugar_instrument == "compensated":
        return 0.0
    if sugar_temp_degC is None:
        raise ValueError("a plain instrument has no correction without its temperature")
    gap_degC = sugar_temp_degC - SUGAR_BASE_DEGC
    return sugar_shift_brix(gap_degC, sugar_reading_brix / FIT_STEP_BRIX)


def sugar_brix(
    sugar_reading_brix: float, sugar_zero_brix: float, sugar_correction_brix: float
) -> float:
    """Return the sugar of the permeate: reading - zero + correction, never below 0 (definition)."""
    return max(0.0, sugar_reading_brix - sugar_zero_brix + sugar_correction_brix)


def sugar_seen_brix(sugar_brix: float, sugar_resolution_brix: float) -> float:
    """Return the sugar where the instrument can see it: above its resolution only.

    Resolution of 0.1 per cent by mass: OIV-MA-AS2-02 (read).
    """
    if round_compared(sugar_brix) <= round_compared(sugar_resolution_brix):
        raise ValueError(f"{sugar_brix} brix is not above a resolution of {sugar_resolution_brix}")
    return sugar_brix


def sugar_passage_pct(sugar_seen_brix: float, feed_sugar_brix: float) -> float:
    """Return the permeate's sugar as a share of the sap's: 100 permeate/sap (definition)."""
    return WHOLE_PCT * sugar_seen_brix / feed_sugar_brix


def sugar_carried_kgph(brix: float, sugar_flow_Lph: float) -> float:
    """Return the sugar that the permeate carries off: flow, at 1 kg/L, times brix/100 (balance)."""
    return sugar_flow_Lph * PERMEATE_DENSITY_KGPL * brix / WHOLE_PCT


def sugar_ok(
    sugar_brix: float,
    sugar_resolution_brix: float,
    sugar_alarm_brix: float,
    sugar_since_h: float,
    sugar_wait_h: float,
) -> Verdict:
    """Return ok up to the resolution; look up to the alarm before the wait is over; else stop.

    2 to 3 h after a start or a wash: common practice, no source.
    """
    sugar = round_compared(sugar_brix)
    if sugar <= round_compared(sugar_resolution_brix):
        return "ok"
    little = sugar <= round_compared(sugar_alarm_brix)
    early = round_compared(sugar_since_h) < round_compared(sugar_wait_h)
    return "look" if little and early else "stop"
