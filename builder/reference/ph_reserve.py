"""Alkali in reserve and alkali used up."""

from builder.reference.equilibrium import need_eqpL
from builder.reference.ranges import require_all


def floor_alkali_eqpL(
    alkali_eqpL: float,
    carbonate_molpL: float,
    silicate_molpL: float,
    edta_molpL: float,
    wash_temp_degC: float,
    floor_pH: float,
) -> float:
    """Return the alkali that the floor pH needs.

    need at the floor and the wash temperature, sodium as dosed.

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
    floor_pH : float
        Lowest pH wanted [pH], 0 to 14.

    Returns
    -------
    float
        Alkali [eqpL].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Constants of phreeqc.dat 2024, EDTA of minteq.v4.dat (NIST46) (read).
    """
    require_all(
        alkali_eqpL=alkali_eqpL,
        carbonate_molpL=carbonate_molpL,
        silicate_molpL=silicate_molpL,
        edta_molpL=edta_molpL,
        wash_temp_degC=wash_temp_degC,
        floor_pH=floor_pH,
    )
    return need_eqpL(
        floor_pH, wash_temp_degC, carbonate_molpL, silicate_molpL, edta_molpL, alkali_eqpL
    )


def alkali_reserve_eqpL(alkali_eqpL: float, floor_alkali_eqpL: float) -> float:
    """Return the acid that the fresh wash can take up before the floor.

    Alkali less alkali at the floor, never below 0.

    Parameters
    ----------
    alkali_eqpL : float
        Strong-base charge as dosed [eqpL], 1e-05 to 300.
    floor_alkali_eqpL : float
        Alkali that the floor pH needs [eqpL], -2 to 300.

    Returns
    -------
    float
        Acid [eqpL].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Definition of this project.
    """
    require_all(alkali_eqpL=alkali_eqpL, floor_alkali_eqpL=floor_alkali_eqpL)
    return float(max(alkali_eqpL - floor_alkali_eqpL, 0.0))


def alkali_reserve_pct(alkali_reserve_eqpL: float, alkali_eqpL: float) -> float:
    """Return the reserve as a share of the alkali dosed.

    100 reserve / alkali.

    Parameters
    ----------
    alkali_reserve_eqpL : float
        Acid that the fresh wash can take up [eqpL], 0 to 600.
    alkali_eqpL : float
        Strong-base charge as dosed [eqpL], 1e-05 to 300.

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
    Definition.
    """
    require_all(alkali_reserve_eqpL=alkali_reserve_eqpL, alkali_eqpL=alkali_eqpL)
    return 100.0 * alkali_reserve_eqpL / alkali_eqpL


def end_alkali_eqpL(
    alkali_eqpL: float,
    carbonate_molpL: float,
    silicate_molpL: float,
    edta_molpL: float,
    end_pH: float,
    end_temp_degC: float,
) -> float:
    """Return the alkali that is left at the measured end.

    need at the end pH and the temperature of that reading, sodium as dosed.

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
    end_pH : float
        Measured pH at the end of the wash [pH], 0 to 14.
    end_temp_degC : float
        Temperature of the end reading [degC], 1 to 60.

    Returns
    -------
    float
        Alkali [eqpL].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Charge balance (definition).
    """
    require_all(
        alkali_eqpL=alkali_eqpL,
        carbonate_molpL=carbonate_molpL,
        silicate_molpL=silicate_molpL,
        edta_molpL=edta_molpL,
        end_pH=end_pH,
        end_temp_degC=end_temp_degC,
    )
    return need_eqpL(
        end_pH, end_temp_degC, carbonate_molpL, silicate_molpL, edta_molpL, alkali_eqpL
    )


def alkali_used_eqpL(alkali_eqpL: float, end_alkali_eqpL: float) -> float:
    """Return the alkali used up in the wash.

    Alkali dosed less alkali left, never below 0.

    Parameters
    ----------
    alkali_eqpL : float
        Strong-base charge as dosed [eqpL], 1e-05 to 300.
    end_alkali_eqpL : float
        Alkali that the measured end pH needs [eqpL], -2 to 300.

    Returns
    -------
    float
        Alkali [eqpL].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Charge balance (definition).
    """
    require_all(alkali_eqpL=alkali_eqpL, end_alkali_eqpL=end_alkali_eqpL)
    return float(max(alkali_eqpL - end_alkali_eqpL, 0.0))


def alkali_used_pct(alkali_used_eqpL: float, alkali_eqpL: float) -> float:
    """Return the alkali used up as a share of the alkali dosed.

    100 used / alkali.

    Parameters
    ----------
    alkali_used_eqpL : float
        Alkali used up [eqpL], 0 to 600.
    alkali_eqpL : float
        Strong-base charge as dosed [eqpL], 1e-05 to 300.

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
    Definition.
    """
    require_all(alkali_used_eqpL=alkali_used_eqpL, alkali_eqpL=alkali_eqpL)
    return 100.0 * alkali_used_eqpL / alkali_eqpL
