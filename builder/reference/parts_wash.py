"""Ionic strength of the fresh wash, last step of its solver, and temperature of a reading."""

import math

from scipy.optimize import brentq

from builder.reference.equilibrium import _species, solve_pH
from builder.reference.ranges import require_all
from builder.reference.water import activity_coefficient_n, log_kw_n

IONIC_MAX = 0.5  # ionic strength in mol/L at which the model is clamped (definition)
# charge numbers of Na, OH, CO3 and EDTA where nothing is protonated (definition)
SODIUM_Z, HYDROXIDE_Z, CARBONATE_Z, EDTA_Z = 1, -1, -2, -4
CLOSE_MOLPL = 1e-18  # width at which the root search ends (rule of this package)
CLOSE_FRAC = 1e-14  # same, relative (rule of this package)


def guess_ionic_molpL(alkali_eqpL: float, carbonate_molpL: float, edta_molpL: float) -> float:
    """Return a first estimate of the ionic strength.

    Half the sum of c z^2 of Na, CO3, EDTA and the OH that is left: alkali + CO3 + 6 EDTA, <= 0.5.

    Parameters
    ----------
    alkali_eqpL : float
        Strong-base charge as dosed [eqpL], 1e-05 to 300.
    carbonate_molpL : float
        Total carbonate [molpL], 0 to 20.
    edta_molpL : float
        Total EDTA [molpL], 0 to 20.

    Returns
    -------
    float
        Ionic strength [molpL].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Ionic strength (definition).
    """
    require_all(alkali_eqpL=alkali_eqpL, carbonate_molpL=carbonate_molpL, edta_molpL=edta_molpL)
    ions = [(alkali_eqpL, SODIUM_Z), (carbonate_molpL, CARBONATE_Z), (edta_molpL, EDTA_Z)]
    ions.append((sum(c * z for c, z in ions), HYDROXIDE_Z))
    return min(0.5 * sum(c * z * z for c, z in ions), IONIC_MAX)


def end_reading_degC(wash_temp_degC: float, end_temp_degC: float | None = None) -> float:
    """Return the temperature at which the end pH was read.

    That of the reading, or the wash temperature where none was given.

    Parameters
    ----------
    wash_temp_degC : float
        Wash temperature [degC], 1 to 60.
    end_temp_degC : float or None, optional
        Temperature of the end reading [degC], 1 to 60, None where it was not given.

    Returns
    -------
    float
        Temperature [degC].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Definition of this project: the temperature of a reading may stay blank.
    """
    require_all(wash_temp_degC=wash_temp_degC)
    if end_temp_degC is None:
        return float(wash_temp_degC)
    require_all(end_temp_degC=end_temp_degC)
    return float(end_temp_degC)


def wash_ionic_molpL(
    alkali_eqpL: float,
    carbonate_molpL: float,
    silicate_molpL: float,
    edta_molpL: float,
    wash_temp_degC: float,
) -> float:
    """Return the ionic strength of the fresh wash.

    I with half the sum of c z^2 at the start pH and at I equal to I, by bracketing; at most 0.5.

    Parameters
    ----------
    alkali_eqpL : float
        Strong-base charge as dosed [eqpL], 1e-05 to 300.
    carbonate_molpL : float
        Total carbonate [molpL], 0 to 20.
    silicate_molpL : float
        Total silicate [molpL], 0 to 20.
    edta_molpL : float
        Total EDTA [molpL], 0 to 20.
    wash_temp_degC : float
        Wash temperature [degC], 1 to 60.

    Returns
    -------
    float
        Ionic strength [molpL].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Ionic strength (definition); constants of phreeqc.dat 2024 (read).
    """
    require_all(
        alkali_eqpL=alkali_eqpL,
        carbonate_molpL=carbonate_molpL,
        silicate_molpL=silicate_molpL,
        edta_molpL=edta_molpL,
        wash_temp_degC=wash_temp_degC,
    )
    totals = (carbonate_molpL, silicate_molpL, edta_molpL)
    pH = solve_pH(alkali_eqpL, *totals, alkali_eqpL, wash_temp_degC)

    def missing(strength: float) -> float:
        g = activity_coefficient_n(strength, wash_temp_degC)
        water = (float(10.0**-pH) + float(10.0 ** (log_kw_n(wash_temp_degC) + pH))) / g
        weak = sum(c * z * z for c, z in _species(pH, wash_temp_degC, math.log10(g), totals))
        return 0.5 * (alkali_eqpL + water + weak) - strength

    if missing(IONIC_MAX) >= 0.0:
        return IONIC_MAX
    return float(brentq(missing, 0.0, IONIC_MAX, xtol=CLOSE_MOLPL, rtol=CLOSE_FRAC))


def last_step_pH(
    alkali_eqpL: float,
    carbonate_molpL: float,
    silicate_molpL: float,
    edta_molpL: float,
    wash_temp_degC: float,
) -> float:
    """Return the size of the solver's last step, which the reference does not leave.

    0, since the root is bracketed to the last digit.

    Parameters
    ----------
    alkali_eqpL : float
        Strong-base charge as dosed [eqpL], 1e-05 to 300.
    carbonate_molpL : float
        Total carbonate [molpL], 0 to 20.
    silicate_molpL : float
        Total silicate [molpL], 0 to 20.
    edta_molpL : float
        Total EDTA [molpL], 0 to 20.
    wash_temp_degC : float
        Wash temperature [degC], 1 to 60.

    Returns
    -------
    float
        Step [pH].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Rule of this package (common practice, no source).
    """
    require_all(
        alkali_eqpL=alkali_eqpL,
        carbonate_molpL=carbonate_molpL,
        silicate_molpL=silicate_molpL,
        edta_molpL=edta_molpL,
        wash_temp_degC=wash_temp_degC,
    )
    return 0.0
