"""Temperature factors of permeate flow, relative to 25 degC."""

import math

from scipy.special import roots_legendre

from builder.reference.ranges import require_all, require_choice

ZERO_DEGC_K = 273.15  # kelvin (definition)
REFERENCE_DEGC = 25.0  # where every factor is 1 (definition)
# activation temperature below and from 25 degC, design text in a public repository (second hand)
COLD_K = 3020.0
WARM_K = 2640.0
PERCENT_FRAC = 0.03  # gain per degC, ASTM D4516 (from memory)
GROWTH_N = 1.0 + PERCENT_FRAC  # same, as a factor (definition)
# viscosity in uPa s: factor and exponent of T/300 K, IAPWS SR6-08 (read in an open library)
VISCOSITY_FACTORS = (280.68, 511.45, 61.131, 0.45903)
VISCOSITY_POWERS = (-1.9, -7.7, -19.6, -40.0)
VISCOSITY_K = 300.0  # same (read)
NODES, WEIGHTS = roots_legendre(24)  # quadrature, exact to rounding over 35 K (definition)
FLOW_CORRECTIONS = ("two_branch", "percent", "viscosity")  # definition of this project


def _viscosity_uPas(temp_degC: float) -> float:
    reduced = (temp_degC + ZERO_DEGC_K) / VISCOSITY_K
    terms = zip(VISCOSITY_FACTORS, VISCOSITY_POWERS, strict=True)
    return math.fsum(factor * math.exp(power * math.log(reduced)) for factor, power in terms)


# that equation at 25 degC, to 12 decimals, which no platform's logarithm changes (definition)
WATER_25_UPAS = round(_viscosity_uPas(REFERENCE_DEGC), 12)


def _chosen(flow_correction: str, two_branch: float, percent: float, viscosity: float) -> float:
    require_choice("flow_correction", flow_correction, FLOW_CORRECTIONS)
    factors = (two_branch, percent, viscosity)
    return float(dict(zip(FLOW_CORRECTIONS, factors, strict=True))[flow_correction])


def tcf_two_branch_n(temp_degC: float) -> float:
    """Return the temperature factor of the two-branch form.

    exp(integral of K/T^2 from 298.15 K), K 3020 below and 2640 from 25 degC, by quadrature.

    Parameters
    ----------
    temp_degC : float
        Temperature [degC], 0 to 60.

    Returns
    -------
    float
        Factor [n].

    Raises
    ------
    ValueError
        The value lies outside its range.

    References
    ----------
    Two-branch Arrhenius form, 3020 and 2640 K: design text in a public repository (second hand).
    """
    require_all(temp_degC=temp_degC)
    activation = WARM_K if temp_degC >= REFERENCE_DEGC else COLD_K
    half = (temp_degC - REFERENCE_DEGC) / 2.0
    middle = REFERENCE_DEGC + ZERO_DEGC_K + half
    terms = (w / (middle + half * x) ** 2 for x, w in zip(NODES, WEIGHTS, strict=True))
    return math.exp(activation * half * math.fsum(terms))


def tcf_percent_n(temp_degC: float) -> float:
    """Return the temperature factor of 3 per cent for each degC.

    1.03 to the power of the difference to 25 degC, through its logarithm.

    Parameters
    ----------
    temp_degC : float
        Temperature [degC], 0 to 60.

    Returns
    -------
    float
        Factor [n].

    Raises
    ------
    ValueError
        The value lies outside its range.

    References
    ----------
    3 per cent for each degC, ASTM D4516 (from memory).
    """
    require_all(temp_degC=temp_degC)
    return math.exp(math.log1p(PERCENT_FRAC) * (temp_degC - REFERENCE_DEGC))


def tcf_viscosity_n(temp_degC: float) -> float:
    """Return the temperature factor of the viscosity of water.

    Viscosity at 25 degC over that at the temperature.

    Parameters
    ----------
    temp_degC : float
        Temperature [degC], 0 to 60.

    Returns
    -------
    float
        Factor [n].

    Raises
    ------
    ValueError
        The value lies outside its range.

    References
    ----------
    IAPWS SR6-08, equation of viscosity (read in an open library).
    """
    require_all(temp_degC=temp_degC)
    return _viscosity_uPas(REFERENCE_DEGC) / _viscosity_uPas(temp_degC)


def test_tcf_n(
    flow_correction: str, test_two_branch_n: float, test_percent_n: float, test_viscosity_n: float
) -> float:
    """Return the temperature factor of the test that was chosen.

    The one of the three that the choice names.

    Parameters
    ----------
    flow_correction : str
        Temperature correction: two_branch, percent or viscosity [choice].
    test_two_branch_n : float
        Factor of two branches at the test's temperature [n], 1e-06 to 1000.
    test_percent_n : float
        Factor of 3 % per degC at the test's temperature [n], 1e-06 to 1000.
    test_viscosity_n : float
        Factor of viscosity at the test's temperature [n], 1e-06 to 1000.

    Returns
    -------
    float
        Factor [n].

    Raises
    ------
    ValueError
        A value lies outside its range or is no choice.

    References
    ----------
    Definition of this project.
    """
    require_all(
        test_two_branch_n=test_two_branch_n,
        test_percent_n=test_percent_n,
        test_viscosity_n=test_viscosity_n,
    )
    return _chosen(flow_correction, test_two_branch_n, test_percent_n, test_viscosity_n)


def baseline_tcf_n(
    flow_correction: str,
    baseline_two_branch_n: float,
    baseline_percent_n: float,
    baseline_viscosity_n: float,
) -> float:
    """Return the temperature factor of the baseline that was chosen.

    The one of the three that the choice names.

    Parameters
    ----------
    flow_correction : str
        Temperature correction: two_branch, percent or viscosity [choice].
    baseline_two_branch_n : float
        Factor of two branches at the baseline's temperature [n], 1e-06 to 1000.
    baseline_percent_n : float
        Factor of 3 % per degC at the baseline's temperature [n], 1e-06 to 1000.
    baseline_viscosity_n : float
        Factor of viscosity at the baseline's temperature [n], 1e-06 to 1000.

    Returns
    -------
    float
        Factor [n].

    Raises
    ------
    ValueError
        A value lies outside its range or is no choice.

    References
    ----------
    Definition of this project.
    """
    require_all(
        baseline_two_branch_n=baseline_two_branch_n,
        baseline_percent_n=baseline_percent_n,
        baseline_viscosity_n=baseline_viscosity_n,
    )
    return _chosen(flow_correction, baseline_two_branch_n, baseline_percent_n, baseline_viscosity_n)
