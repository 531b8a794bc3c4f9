"""Temperature factors of the test and of the baseline."""

from builder.reference.ranges import require_all
from builder.reference.season_permeate_temperature import (
    tcf_percent_n,
    tcf_two_branch_n,
    tcf_viscosity_n,
)


def test_two_branch_n(test_temp_degC: float) -> float:
    """Return the factor of the two-branch form at the temperature of the test.

    tcf_two_branch_n of that temperature.

    Parameters
    ----------
    test_temp_degC : float
        Water temperature of the test [degC], 0 to 60.

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
    require_all(test_temp_degC=test_temp_degC)
    return tcf_two_branch_n(test_temp_degC)


def test_percent_n(test_temp_degC: float) -> float:
    """Return the factor of 3 per cent for each degC at the temperature of the test.

    tcf_percent_n of that temperature.

    Parameters
    ----------
    test_temp_degC : float
        Water temperature of the test [degC], 0 to 60.

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
    require_all(test_temp_degC=test_temp_degC)
    return tcf_percent_n(test_temp_degC)


def test_viscosity_n(test_temp_degC: float) -> float:
    """Return the factor of the viscosity of water at the temperature of the test.

    tcf_viscosity_n of that temperature.

    Parameters
    ----------
    test_temp_degC : float
        Water temperature of the test [degC], 0 to 60.

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
    require_all(test_temp_degC=test_temp_degC)
    return tcf_viscosity_n(test_temp_degC)


def baseline_two_branch_n(baseline_temp_degC: float) -> float:
    """Return the factor of the two-branch form at the temperature of the baseline.

    tcf_two_branch_n of that temperature.

    Parameters
    ----------
    baseline_temp_degC : float
        Water temperature of the baseline [degC], 0 to 60.

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
    require_all(baseline_temp_degC=baseline_temp_degC)
    return tcf_two_branch_n(baseline_temp_degC)


def baseline_percent_n(baseline_temp_degC: float) -> float:
    """Return the factor of 3 per cent for each degC at the temperature of the baseline.

    tcf_percent_n of that temperature.

    Parameters
    ----------
    baseline_temp_degC : float
        Water temperature of the baseline [degC], 0 to 60.

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
    require_all(baseline_temp_degC=baseline_temp_degC)
    return tcf_percent_n(baseline_temp_degC)


def baseline_viscosity_n(baseline_temp_degC: float) -> float:
    """Return the factor of the viscosity of water at the temperature of the baseline.

    tcf_viscosity_n of that temperature.

    Parameters
    ----------
    baseline_temp_degC : float
        Water temperature of the baseline [degC], 0 to 60.

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
    require_all(baseline_temp_degC=baseline_temp_degC)
    return tcf_viscosity_n(baseline_temp_degC)
