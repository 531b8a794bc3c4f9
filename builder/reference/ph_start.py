"""pH of the fresh wash and its margins."""

from builder.reference.equilibrium import solve_pH
from builder.reference.ranges import require_all

LABEL_TEMP_DEGC = 25.0  # temperature at which labels state pH (common practice, no source)


def wash_start_pH(
    alkali_eqpL: float,
    carbonate_molpL: float,
    silicate_molpL: float,
    edta_molpL: float,
    wash_temp_degC: float,
) -> float:
    """Return the pH of the fresh wash at the wash temperature.

    pH at which the need equals the alkali; all of the sodium is alkali.

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
        pH [pH].

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
    )
    return solve_pH(
        alkali_eqpL, carbonate_molpL, silicate_molpL, edta_molpL, alkali_eqpL, wash_temp_degC
    )


def wash_start_at_25_pH(
    alkali_eqpL: float, carbonate_molpL: float, silicate_molpL: float, edta_molpL: float
) -> float:
    """Return the pH of the fresh wash at 25 degC.

    As at the wash temperature, with 25 degC.

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

    Returns
    -------
    float
        pH [pH].

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
    )
    return solve_pH(
        alkali_eqpL, carbonate_molpL, silicate_molpL, edta_molpL, alkali_eqpL, LABEL_TEMP_DEGC
    )


def ceiling_margin_pH(ceiling_pH: float, wash_start_pH: float) -> float:
    """Return how far the fresh wash stays below the ceiling.

    Ceiling less start.

    Parameters
    ----------
    ceiling_pH : float
        Highest pH allowed [pH], 0 to 14.
    wash_start_pH : float
        pH of the fresh wash [pH], -2 to 18.

    Returns
    -------
    float
        Margin [pH].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Definition of this project.
    """
    require_all(ceiling_pH=ceiling_pH, wash_start_pH=wash_start_pH)
    return ceiling_pH - wash_start_pH


def start_floor_margin_pH(wash_start_pH: float, floor_pH: float) -> float:
    """Return how far the fresh wash starts above the floor.

    Start less floor.

    Parameters
    ----------
    wash_start_pH : float
        pH of the fresh wash [pH], -2 to 18.
    floor_pH : float
        Lowest pH wanted [pH], 0 to 14.

    Returns
    -------
    float
        Margin [pH].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Definition of this project.
    """
    require_all(wash_start_pH=wash_start_pH, floor_pH=floor_pH)
    return wash_start_pH - floor_pH


def floor_margin_pH(end_pH: float, floor_pH: float) -> float:
    """Return how far the measured end stays above the floor.

    End less floor.

    Parameters
    ----------
    end_pH : float
        Measured pH at the end of the wash [pH], 0 to 14.
    floor_pH : float
        Lowest pH wanted [pH], 0 to 14.

    Returns
    -------
    float
        Margin [pH].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Definition of this project.
    """
    require_all(end_pH=end_pH, floor_pH=floor_pH)
    return end_pH - floor_pH
