"""Viscosity of water of the test and of the baseline."""

from builder.reference.ranges import require_all
from builder.reference.season_permeate_temperature import (
    VISCOSITY_K,
    ZERO_DEGC_K,
    _viscosity_uPas,
)


def baseline_tr_n(baseline_temp_degC: float) -> float:
    """Return the reduced temperature of the baseline.

    Kelvin over 300 K.

    Parameters
    ----------
    baseline_temp_degC : float
        Water temperature of the baseline [degC], 0 to 60.

    Returns
    -------
    float
        Ratio [n].

    Raises
    ------
    ValueError
        The value lies outside its range.

    References
    ----------
    IAPWS SR6-08, equation of viscosity (read in an open library).
    """
    require_all(baseline_temp_degC=baseline_temp_degC)
    return (baseline_temp_degC + ZERO_DEGC_K) / VISCOSITY_K


def baseline_water_uPas(baseline_temp_degC: float) -> float:
    """Return the viscosity of the water of the baseline.

    Sum of four powers of the reduced temperature, through its logarithm.

    Parameters
    ----------
    baseline_temp_degC : float
        Water temperature of the baseline [degC], 0 to 60.

    Returns
    -------
    float
        Viscosity [uPas].

    Raises
    ------
    ValueError
        The value lies outside its range.

    References
    ----------
    IAPWS SR6-08, equation of viscosity (read in an open library).
    """
    require_all(baseline_temp_degC=baseline_temp_degC)
    return _viscosity_uPas(baseline_temp_degC)


def test_tr_n(test_temp_degC: float) -> float:
    """Return the reduced temperature of the test.

    Kelvin over 300 K.

    Parameters
    ----------
    test_temp_degC : float
        Water temperature of the test [degC], 0 to 60.

    Returns
    -------
    float
        Ratio [n].

    Raises
    ------
    ValueError
        The value lies outside its range.

    References
    ----------
    IAPWS SR6-08, equation of viscosity (read in an open library).
    """
    require_all(test_temp_degC=test_temp_degC)
    return (test_temp_degC + ZERO_DEGC_K) / VISCOSITY_K


def test_water_uPas(test_temp_degC: float) -> float:
    """Return the viscosity of the water of the test.

    Sum of four powers of the reduced temperature, through its logarithm.

    Parameters
    ----------
    test_temp_degC : float
        Water temperature of the test [degC], 0 to 60.

    Returns
    -------
    float
        Viscosity [uPas].

    Raises
    ------
    ValueError
        The value lies outside its range.

    References
    ----------
    IAPWS SR6-08, equation of viscosity (read in an open library).
    """
    require_all(test_temp_degC=test_temp_degC)
    return _viscosity_uPas(test_temp_degC)
