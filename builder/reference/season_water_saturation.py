"""Saturation index of calcite in the make-up water, by speciation."""

from builder.reference.ranges import require_all
from builder.reference.season_water_carbonate import (
    _carbonates_molpL,
    _coefficient_n,
    _log_calcite,
    _log_product,
    water_calcium_molpL,
)
from builder.reference.verdicts_entries import Verdict, _compared

SATURATION_MOST_N = 0.3  # no scale expected within 0.3 of zero (from memory)
# where the index holds: carbonate complexes matter above pH 8.5 (own comparison with PHREEQC)
WATER_PH_LEAST, WATER_PH_MOST = 6.5, 8.5
WATER_LEAST_DEGC, WATER_MOST_DEGC = 2.0, 40.0
WATER_TDS_MOST_MGPL = 1000.0


def saturation_index_n(
    water_pH: float,
    water_temp_degC: float,
    water_tds_mgpL: float,
    calcium_mgpLCaCO3: float,
    alkalinity_mgpLCaCO3: float,
) -> float:
    """Return the saturation index of calcite.

    log10 of the ion activity product over the solubility product; equals pH - pHs.

    Parameters
    ----------
    water_pH : float
        pH of the water [pH], 0 to 14.
    water_temp_degC : float
        Temperature of the water [degC], 0 to 60.
    water_tds_mgpL : float
        Dissolved solids [mgpL], 0 to 20000.
    calcium_mgpLCaCO3 : float
        Calcium hardness, as CaCO3 [mgpLCaCO3], 1e-09 to 1e+06.
    alkalinity_mgpLCaCO3 : float
        Total alkalinity, as CaCO3 [mgpLCaCO3], 0 to 1e+06.

    Returns
    -------
    float
        Index [n].

    Raises
    ------
    ValueError
        A value lies outside its range, or no bicarbonate is left.

    References
    ----------
    Standard Methods 2330 B (from memory); constants of phreeqc.dat 2024 and wateq4f.dat (read).
    """
    require_all(
        water_pH=water_pH,
        water_temp_degC=water_temp_degC,
        water_tds_mgpL=water_tds_mgpL,
        calcium_mgpLCaCO3=calcium_mgpLCaCO3,
        alkalinity_mgpLCaCO3=alkalinity_mgpLCaCO3,
    )
    g = _coefficient_n(water_tds_mgpL, water_temp_degC)
    carbonate, _ = _carbonates_molpL(water_pH, water_temp_degC, g, alkalinity_mgpLCaCO3)
    product = _log_product(water_calcium_molpL(calcium_mgpLCaCO3), carbonate, g)
    return product - _log_calcite(water_temp_degC)


def saturation_ok(saturation_index_n: float) -> Verdict:
    """Return whether the water keeps its lime.

    Index <= 0.3, at 15 digits.

    Parameters
    ----------
    saturation_index_n : float
        Saturation index of calcite [n], -50 to 50.

    Returns
    -------
    str
        Verdict, ok or look [ok].

    Raises
    ------
    ValueError
        The value lies outside its range.

    References
    ----------
    No scale expected within 0.3 of zero (from memory).
    """
    require_all(saturation_index_n=saturation_index_n)
    return "ok" if _compared(saturation_index_n) <= SATURATION_MOST_N else "look"


def water_range_ok(water_pH: float, water_temp_degC: float, water_tds_mgpL: float) -> Verdict:
    """Return whether the water lies where the saturation index holds.

    6.5 <= pH <= 8.5, 2 to 40 degC, and TDS <= 1000 mg/L, at 15 digits.

    Parameters
    ----------
    water_pH : float
        pH of the water [pH], 0 to 14.
    water_temp_degC : float
        Temperature of the water [degC], 0 to 60.
    water_tds_mgpL : float
        Dissolved solids [mgpL], 0 to 20000.

    Returns
    -------
    str
        Verdict, ok or look [ok].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Own comparison with PHREEQC 2024: range of the cases (definition of this project).
    """
    require_all(water_pH=water_pH, water_temp_degC=water_temp_degC, water_tds_mgpL=water_tds_mgpL)
    within = (
        WATER_PH_LEAST <= _compared(water_pH) <= WATER_PH_MOST
        and WATER_LEAST_DEGC <= _compared(water_temp_degC) <= WATER_MOST_DEGC
        and _compared(water_tds_mgpL) <= WATER_TDS_MOST_MGPL
    )
    return "ok" if within else "look"
