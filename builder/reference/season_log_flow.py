"""Permeate flow of one day, brought to the baseline's temperature and pressure."""

import math

from builder.reference.ranges import require_all, require_choice, require_given

ZERO_DEGC_K = 273.15  # kelvin (definition)
REFERENCE_DEGC = 25.0  # temperature at which the factor is 1 (definition of this project)
WARM_K, COLD_K = 2640.0, 3020.0  # from and below 25 degC; generic design equation text (read)
PER_DEGC = 0.03  # rise of the flow per degC; ASTM D4516 (from memory)
# viscosity of water in uPa s, factors and exponents of T/300 K; IAPWS SR6-08 (read)
VISCOSITY = ((280.68, -1.9), (511.45, -7.7), (61.131, -19.6), (0.45903, -40.0))
VISCOSITY_K = 300.0  # temperature that these exponents refer to; IAPWS SR6-08 (read)
FORMS = ("two_branch", "percent", "viscosity")
DIGITS = 15  # significant digits that spreadsheets compare (measured in one engine)


def _arrhenius(water_degC: float) -> float:
    """Return exp(-K/T) over its value at 25 degC."""
    slope_K = WARM_K if water_degC >= REFERENCE_DEGC else COLD_K
    there, here = (-slope_K / (ZERO_DEGC_K + t) for t in (REFERENCE_DEGC, water_degC))
    return math.exp(here) / math.exp(there)


def _viscosity_uPas(water_degC: float) -> float:
    """Return the viscosity of water, by exponentials of the logarithm of T."""
    log = math.log((ZERO_DEGC_K + water_degC) / VISCOSITY_K)
    return math.fsum(factor * math.exp(power * log) for factor, power in VISCOSITY)


def drive_bar(feed_bar: float, out_bar: float, back_bar: float | None = None) -> float:
    """Return the driving pressure of the day.

    Mean of feed and concentrate less permeate (blank: 0), undefined unless > 0 at 15 digits.

    Parameters
    ----------
    feed_bar : float
        Pressure before the membranes [bar], -1000 to 1000.
    out_bar : float
        Pressure of the concentrate [bar], -1000 to 1000.
    back_bar : float, optional
        Pressure of the permeate [bar], -1000 to 1000.

    Returns
    -------
    float
        Driving pressure [bar].

    Raises
    ------
    ValueError
        A value lies outside its range, or nothing drives the flow.

    References
    ----------
    Definition of this project.
    """
    require_all(feed_bar=feed_bar, out_bar=out_bar)
    require_given(back_bar=back_bar)
    mean, back = (feed_bar + out_bar) / 2.0, back_bar or 0.0
    if float(f"{mean:.{DIGITS}g}") <= float(f"{back:.{DIGITS}g}"):
        raise ValueError(f"drive_bar = {mean - back} bar is not above 0")
    return mean - back


def tcf_n(water_degC: float, flow_correction: str) -> float:
    """Return the temperature factor relative to 25 degC.

    exp(-K/T) with two K, 1.03 a degree, or viscosity at 25 degC over viscosity.

    Parameters
    ----------
    water_degC : float
        Water temperature [degC], -20 to 110.
    flow_correction : str
        Form of the temperature factor [choice], "two_branch", "percent" or "viscosity".

    Returns
    -------
    float
        Temperature factor [n].

    Raises
    ------
    ValueError
        A value lies outside its range or is no allowed choice.

    References
    ----------
    IAPWS SR6-08 (read); generic design equation text (read); ASTM D4516 (from memory).
    """
    require_all(water_degC=water_degC)
    require_choice("flow_correction", flow_correction, FORMS)
    if flow_correction == "two_branch":
        return _arrhenius(water_degC)
    if flow_correction == "percent":
        return math.exp((water_degC - REFERENCE_DEGC) * math.log1p(PER_DEGC))
    return _viscosity_uPas(REFERENCE_DEGC) / _viscosity_uPas(water_degC)


def flow_pct(
    flow_Lph: float,
    tcf_n: float,
    drive_bar: float,
    baseline_tcf_n: float,
    baseline_ndp_bar: float,
    baseline_flow_Lph: float,
) -> float:
    """Return the flow as a share of the baseline.

    Flow per bar at 25 degC, of the day over that of the baseline.

    Parameters
    ----------
    flow_Lph : float
        Permeate flow [Lph], -1e+08 to 1e+08.
    tcf_n : float
        Temperature factor of the day [n], 1e-06 to 1000.
    drive_bar : float
        Driving pressure of the day [bar], 1e-09 to 1000.
    baseline_tcf_n : float
        Temperature factor of that flow [n], 1e-06 to 1000.
    baseline_ndp_bar : float
        Driving pressure of that flow [bar], 1e-09 to 1000.
    baseline_flow_Lph : float
        Permeate flow of the clean membrane [Lph], 1e-09 to 1e+08.

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
    Normalised permeate flow, scheme of ASTM D4516 (second hand).
    """
    require_all(
        flow_Lph=flow_Lph,
        tcf_n=tcf_n,
        drive_bar=drive_bar,
        baseline_tcf_n=baseline_tcf_n,
        baseline_ndp_bar=baseline_ndp_bar,
        baseline_flow_Lph=baseline_flow_Lph,
    )
    today = flow_Lph / (tcf_n * drive_bar)
    clean = baseline_flow_Lph / (baseline_tcf_n * baseline_ndp_bar)
    return 100.0 * today / clean
