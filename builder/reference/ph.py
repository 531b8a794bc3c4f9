"""pH of the wash: start, end, reserve and top-up."""

from scipy.optimize import brentq

from builder.reference.equilibrium import need_eqpL, solve_pH
from builder.reference.ph_reserve import (
    alkali_reserve_eqpL,
    alkali_reserve_pct,
    alkali_used_eqpL,
    alkali_used_pct,
    end_alkali_eqpL,
    floor_alkali_eqpL,
)
from builder.reference.ph_start import (
    ceiling_margin_pH,
    floor_margin_pH,
    start_floor_margin_pH,
    wash_start_at_25_pH,
    wash_start_pH,
)
from builder.reference.ranges import require_all

__all__ = [
    "alkali_reserve_eqpL",
    "alkali_reserve_pct",
    "alkali_used_eqpL",
    "alkali_used_pct",
    "ceiling_margin_pH",
    "end_alkali_eqpL",
    "end_at_wash_pH",
    "end_floor_margin_pH",
    "floor_alkali_eqpL",
    "floor_margin_pH",
    "start_floor_margin_pH",
    "topup_cleaner_kg",
    "topup_share_frac",
    "wash_start_at_25_pH",
    "wash_start_pH",
]


TOPUP_TOP = 20.0  # largest share searched for (rule of this package)
TOPUP_STEPS = 200  # intervals searched for the first change of sign (rule of this package)


def end_at_wash_pH(
    alkali_eqpL: float,
    carbonate_molpL: float,
    silicate_molpL: float,
    edta_molpL: float,
    end_alkali_eqpL: float,
    wash_temp_degC: float,
) -> float:
    """Return the pH that the spent wash has at the wash temperature.

    pH at which the need equals the alkali left; same totals, sodium as dosed.

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
    end_alkali_eqpL : float
        Alkali that the measured end pH needs [eqpL], -2 to 300.
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
        end_alkali_eqpL=end_alkali_eqpL,
        wash_temp_degC=wash_temp_degC,
    )
    return solve_pH(
        end_alkali_eqpL, carbonate_molpL, silicate_molpL, edta_molpL, alkali_eqpL, wash_temp_degC
    )


def end_floor_margin_pH(end_at_wash_pH: float, floor_pH: float) -> float:
    """Return how far the spent wash stays above the floor at the wash temperature.

    End at the wash temperature less floor.

    Parameters
    ----------
    end_at_wash_pH : float
        pH of the spent wash at the wash temperature [pH], -2 to 18.
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
    require_all(end_at_wash_pH=end_at_wash_pH, floor_pH=floor_pH)
    return end_at_wash_pH - floor_pH


def topup_share_frac(
    alkali_eqpL: float,
    carbonate_molpL: float,
    silicate_molpL: float,
    edta_molpL: float,
    end_alkali_eqpL: float,
    wash_start_pH: float,
    wash_temp_degC: float,
) -> float:
    """Return the share of the first charge that brings the pH back to the start.

    x with need((1+x) totals, (1+x) sodium, start pH) = alkali left + x alkali; 0 when above it.

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
    end_alkali_eqpL : float
        Alkali that the measured end pH needs [eqpL], -2 to 300.
    wash_start_pH : float
        pH of the fresh wash [pH], -2 to 18.
    wash_temp_degC : float
        Wash temperature [degC], 1 to 60.

    Returns
    -------
    float
        Share [frac].

    Raises
    ------
    ValueError
        A value lies outside its range, or no share of 0 to 20 does it.

    References
    ----------
    Definition of this project; charge balance (definition).
    """
    require_all(
        alkali_eqpL=alkali_eqpL,
        carbonate_molpL=carbonate_molpL,
        silicate_molpL=silicate_molpL,
        edta_molpL=edta_molpL,
        end_alkali_eqpL=end_alkali_eqpL,
        wash_start_pH=wash_start_pH,
        wash_temp_degC=wash_temp_degC,
    )

    def lacking(x: float) -> float:
        carbonate, silicate = (1.0 + x) * carbonate_molpL, (1.0 + x) * silicate_molpL
        edta, sodium = (1.0 + x) * edta_molpL, (1.0 + x) * alkali_eqpL
        need = need_eqpL(wash_start_pH, wash_temp_degC, carbonate, silicate, edta, sodium)
        return need - end_alkali_eqpL - x * alkali_eqpL

    if lacking(0.0) <= 0.0:
        return 0.0
    for step in range(TOPUP_STEPS):
        low, high = (TOPUP_TOP * k / TOPUP_STEPS for k in (step, step + 1))
        if lacking(high) <= 0.0:
            return float(brentq(lacking, low, high, xtol=1e-15, rtol=1e-14))
    raise ValueError(f"no share of 0 to {TOPUP_TOP:g} brings the pH back to {wash_start_pH}")


def topup_cleaner_kg(topup_share_frac: float, cleaner_dose_kg: float) -> float:
    """Return the cleaner that brings the whole wash back to the start pH.

    Share times the first dose.

    Parameters
    ----------
    topup_share_frac : float
        Share of the first charge to add [frac], 0 to 20.
    cleaner_dose_kg : float
        Cleaner for the whole wash [kg], 0 to 1e+09.

    Returns
    -------
    float
        Mass [kg].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Definition of this project.
    """
    require_all(topup_share_frac=topup_share_frac, cleaner_dose_kg=cleaner_dose_kg)
    return topup_share_frac * cleaner_dose_kg
