"""Water: density, permittivity, Davies slope and ion product."""

import math

from builder.reference.ranges import require_all

ZERO_DEGC_K = 273.15  # kelvin (definition)
# density of water, kg/m3, ICUMSA SPS-4 at 0 Brix (second hand, two public source files)
DENSITY = (999.83952, 16.952577, -0.0079905127, -0.000046241757, 1.0584601e-7, -2.8103006e-10)
DENSITY_DIVISOR = 0.016887236  # same, per K (read)
PERMITTIVITY = (87.74, -0.40008, 0.0009398, -0.00000141)  # Malmberg & Maryott 1956 (from memory)
DAVIES_FACTOR = 1824830.0  # Debye-Hueckel factor (from memory)
DAVIES_B = 0.3  # Davies 1962, linear term (from memory)
DAVIES_TOP_MOLPL = 0.5  # ionic strength is clamped here (definition)
# log10 Kw: constant, T, 1/T, log10 T, T^2, phreeqc.dat 2024 (read)
LOG_KW = (293.29227, 0.1360833, -10576.913, -123.73158, -0.00006996455)


def water_density_kgpL(temp_degC: float) -> float:
    """Return the density of water.

    Polynomial of degree 5 over 1 + b t, by Horner.

    Parameters
    ----------
    temp_degC : float
        Temperature [degC], 0 to 60.

    Returns
    -------
    float
        Density [kgpL].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    ICUMSA SPS-4, water part (second hand).
    """
    require_all(temp_degC=temp_degC)
    top = 0.0
    for factor in reversed(DENSITY):
        top = top * temp_degC + factor
    return top / (1.0 + DENSITY_DIVISOR * temp_degC) / 1000.0


def water_permittivity_n(temp_degC: float) -> float:
    """Return the relative permittivity of water.

    Polynomial of degree 3 in degC, by Horner.

    Parameters
    ----------
    temp_degC : float
        Temperature [degC], 0 to 60.

    Returns
    -------
    float
        Relative permittivity [n].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Malmberg & Maryott 1956 (from memory).
    """
    require_all(temp_degC=temp_degC)
    value = 0.0
    for factor in reversed(PERMITTIVITY):
        value = value * temp_degC + factor
    return value


def davies_slope_n(temp_degC: float) -> float:
    """Return the slope A of the Davies equation.

    A = 1824830 sqrt(rho) / (eps T)^1.5, base 10.

    Parameters
    ----------
    temp_degC : float
        Temperature [degC], 0 to 60.

    Returns
    -------
    float
        Slope [n].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Debye-Hueckel limiting law (from memory).
    """
    require_all(temp_degC=temp_degC)
    kelvin = temp_degC + ZERO_DEGC_K
    product = water_permittivity_n(temp_degC) * kelvin
    return DAVIES_FACTOR * math.sqrt(water_density_kgpL(temp_degC) / product**3)


def activity_coefficient_n(ionic_strength_molpL: float, temp_degC: float) -> float:
    """Return the activity coefficient of a monovalent ion.

    log10 g = -A (s/(1+s) - 0.3 I), s = sqrt(I), I not above 0.5.

    Parameters
    ----------
    ionic_strength_molpL : float
        Ionic strength, clamped at 0.5 inside [molpL], 0 to 1e+09.
    temp_degC : float
        Temperature [degC], 0 to 60.

    Returns
    -------
    float
        Activity coefficient [n].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Davies 1962 (from memory).
    """
    require_all(ionic_strength_molpL=ionic_strength_molpL, temp_degC=temp_degC)
    strength = min(ionic_strength_molpL, DAVIES_TOP_MOLPL)
    root = math.sqrt(strength)
    return float(10.0 ** (-davies_slope_n(temp_degC) * (root / (1.0 + root) - DAVIES_B * strength)))


def log_kw_n(temp_degC: float) -> float:
    """Return log10 of the ion product of water.

    a + b T + c/T + d log10 T + e T^2, T in kelvin.

    Parameters
    ----------
    temp_degC : float
        Temperature [degC], 0 to 60.

    Returns
    -------
    float
        log10 Kw [n].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Database phreeqc.dat 2024 (read).
    """
    require_all(temp_degC=temp_degC)
    kelvin = temp_degC + ZERO_DEGC_K
    a, b, c, d, e = LOG_KW
    return a + kelvin * (b + kelvin * e) + c / kelvin + d * math.log10(kelvin)
