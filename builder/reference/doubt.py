"""Standard uncertainty of the start pH, of a reading and of the top-up (JCGM 100, from memory).

First order; activities and unpaired sodium stand still in the effects.
"""

import math

from scipy.optimize import brentq

from builder.reference.composition import (
    BOTH,
    GENERIC,
    SALT_GPMOL,
    find_half_pct,
    label_alkali_eqpL,
)
from builder.reference.equilibrium import STEP_PH, find_capacity_eqpL, find_need_eqpL, settle
from builder.reference.ph import wash_start_pH

MODEL_U_PH = 0.02  # of the model, up to I = 0.1 (own comparison with phreeqc.dat 2024)
DRIFT_PK = 0.001  # of the start and ceiling, for each kelvin between reading and wash (own trials)
DRIFT_FLOOR_PK = 0.003  # of the floor, same
EFFECT_PK = 0.03  # for each kelvin, of a wash whose strip is not known (this project's figure)
REPEAT_HALF_PH = 0.03  # half width of one meter between two readings (no source)
TOPUP_WIDER_N = 1.2  # by which first order is too narrow for the top-up (own trials)
SALT_CHARGES = (1.0, 2.0, 2.0, 4.0)
NEAR_PH = 2.0  # searched to either side of the start (rule of this package)
WHOLE_PCT = 100.0


def volume_u_pct(holdup_adopted_u_L: float, wash_volume_L: float) -> float:
    """Return the relative uncertainty of the wash's volume, that of the hold-up over the whole."""
    return WHOLE_PCT * holdup_adopted_u_L / wash_volume_L


def find_effect(
    alkali_eqpL: float,
    totals: tuple[float, ...],
    start_pH: float,
    wash_temp_degC: float,
    change: tuple[float, ...],
) -> float:
    """Return dpH for one unit of a change in mol/L of the four salts, by difference.

    The start is solved anew (Brent) with activities and unpaired sodium of the fresh wash; five
    points, each so far away that the pH moves by some thousandths.
    """
    start = settle(start_pH, wash_temp_degC, totals, alkali_eqpL)
    slope = find_capacity_eqpL(start_pH, wash_temp_degC, totals, start)
    added = sum(z * salt for z, salt in zip(SALT_CHARGES, change, strict=True))
    unit = STEP_PH * slope / added

    def find_pH(steps: float) -> float:
        size = steps * unit
        alkali = alkali_eqpL + size * added
        moved = tuple(t + size * salt for t, salt in zip(totals, change[1:], strict=True))

        def surplus(pH: float) -> float:
            need = find_need_eqpL(pH, wash_temp_degC, moved, start.log_g, start.sodium_molpL)
            return need - alkali

        around = start_pH - NEAR_PH, start_pH + NEAR_PH
        return float(brentq(surplus, *around, xtol=1e-15, rtol=1e-15))

    return (8.0 * (find_pH(1.0) - find_pH(-1.0)) - find_pH(2.0) + find_pH(-2.0)) / (12.0 * unit)


def find_salt_effects_pH(
    cleaner_strength_gpL: float,
    alkali_eqpL: float,
    totals: tuple[float, ...],
    start_pH: float,
    wash_temp_degC: float,
) -> list[float]:
    """Return dpH for 1 % more of NaOH, Na2CO3, Na2SiO3 and Na4EDTA in the cleaner."""
    start = (alkali_eqpL, totals, start_pH, wash_temp_degC)
    effects = []
    for place, grams in enumerate(SALT_GPMOL):
        one = tuple(float(place == other) for other in range(len(SALT_GPMOL)))
        effects.append(cleaner_strength_gpL / WHOLE_PCT / grams * find_effect(*start, one))
    return effects


def find_strength_effect_pH(
    alkali_eqpL: float, totals: tuple[float, ...], start_pH: float, wash_temp_degC: float
) -> float:
    """Return dpH for a relative change of 1 in the strength of the wash."""
    naoh = alkali_eqpL - label_alkali_eqpL(0.0, totals[0], totals[1], totals[2])
    return find_effect(alkali_eqpL, totals, start_pH, wash_temp_degC, (naoh, *totals))


def find_reading_u_pH(half_pH: float, warmth_pH: float, drift_pH: float) -> float:
    """Return u of a reading that is carried to the wash: meter, temperature, and the strip.

    Half widths of rectangles for the first two: m^2/3 + (k w)^2/3 + drift^2.
    """
    return math.hypot(half_pH / math.sqrt(3.0), warmth_pH / math.sqrt(3.0), drift_pH)


def label_u_pH(
    composition_n: float,
    cleaner_strength_gpL: float,
    alkali_eqpL: float,
    carbonate_molpL: float,
    silicate_molpL: float,
    edta_molpL: float,
    wash_temp_degC: float,
    temp_effect_pK: float,
    reading_half_gap_degC: float,
    volume_u_pct: float,
    dose_u_pct: float,
    cleaner_naoh_pct: float | None = None,
    cleaner_carbonate_pct: float | None = None,
    cleaner_silicate_pct: float | None = None,
    cleaner_edta_pct: float | None = None,
    cleaner_naoh_to_pct: float | None = None,
    cleaner_carbonate_to_pct: float | None = None,
    cleaner_silicate_to_pct: float | None = None,
    cleaner_edta_to_pct: float | None = None,
) -> float:
    """Return u of the start by the label.

    Root of sum (S h)^2/3 + S_v^2 (u_V^2 + u_D^2) + (k w)^2/3 + u_model^2, with S the effect of 1 %
    of a salt, h half its range and S_v the effect of strength.
    """
    totals = (carbonate_molpL, silicate_molpL, edta_molpL)
    pH = wash_start_pH(alkali_eqpL, *totals, wash_temp_degC)
    start = (alkali_eqpL, totals, pH, wash_temp_degC)
    ranges = (
        (cleaner_naoh_pct, cleaner_naoh_to_pct),
        (cleaner_carbonate_pct, cleaner_carbonate_to_pct),
        (cleaner_silicate_pct, cleaner_silicate_to_pct),
        (cleaner_edta_pct, cleaner_edta_to_pct),
    )
    halves = [find_half_pct(composition_n, *ends) for ends in ranges]
    effects = find_salt_effects_pH(cleaner_strength_gpL, *start)
    salts = [s * h / math.sqrt(3.0) for s, h in zip(effects, halves, strict=True)]
    mixing = find_strength_effect_pH(*start) * math.hypot(volume_u_pct, dose_u_pct) / WHOLE_PCT
    warmth = temp_effect_pK * reading_half_gap_degC / math.sqrt(3.0)
    return math.hypot(*salts, mixing, warmth, MODEL_U_PH)


def fresh_u_pH(
    composition_n: float,
    meter_half_pH: float,
    reading_half_gap_degC: float,
    temp_effect_pK: float,
    fresh_temp_degC: float,
    wash_temp_degC: float,
) -> float:
    """Return u of the start by the reading of the fresh wash."""
    if composition_n not in {BOTH, GENERIC}:
        raise ValueError("the fresh wash was not read")
    drift = DRIFT_PK * (fresh_temp_degC - wash_temp_degC)
    return find_reading_u_pH(meter_half_pH, temp_effect_pK * reading_half_gap_degC, drift)


def wash_start_u_pH(fresh_u_pH: float | None = None, label_u_pH: float | None = None) -> float:
    """Return u of the start: by the reading, where there is none by the label."""
    found = label_u_pH if fresh_u_pH is None else fresh_u_pH
    if found is None:
        raise ValueError("nothing tells how far the start can be off")
    return found


def end_u_pH(
    meter_half_pH: float,
    reading_half_gap_degC: float,
    end_temp_degC: float,
    wash_temp_degC: float,
    temp_effect_pK: float | None = None,
) -> float:
    """Return u of the end reading against the floor; without a strip by 0.03 for each kelvin."""
    effect_pK = EFFECT_PK if temp_effect_pK is None else temp_effect_pK
    drift = DRIFT_FLOOR_PK * (end_temp_degC - wash_temp_degC)
    return find_reading_u_pH(meter_half_pH, effect_pK * reading_half_gap_degC, drift)


def topup_u_kg(
    alkali_eqpL: float,
    carbonate_molpL: float,
    silicate_molpL: float,
    edta_molpL: float,
    fresh_pH: float,
    fresh_temp_degC: float,
    end_pH: float,
    end_temp_degC: float,
    wash_temp_degC: float,
    topup_share_frac: float,
    free_alkali_eqpL: float,
    capacity_eqpL: float,
    temp_effect_pK: float,
    reading_half_gap_degC: float,
    meter_half_pH: float,
    cleaner_dose_kg: float,
) -> float:
    """Return u of the top-up, from both readings with one meter.

    Shares of a dose: end b_e/F, own b_s/F - x ln10 b_s/b_w, each with the meter's repeatability;
    what the meter is off in both counts once, by their difference; widened, as first order is low.
    """
    totals = (carbonate_molpL, silicate_molpL, edta_molpL)
    readings = ((fresh_pH, fresh_temp_degC), (end_pH, end_temp_degC))
    capacities = [
        find_capacity_eqpL(pH, temp, totals, settle(pH, temp, totals, alkali_eqpL))
        for pH, temp in readings
    ]
    shrunk = topup_share_frac * math.log(10.0) * capacities[0] / capacity_eqpL
    own, end = capacities[0] / free_alkali_eqpL - shrunk, capacities[1] / free_alkali_eqpL
    own_u, late_u = (
        find_reading_u_pH(
            REPEAT_HALF_PH,
            temp_effect_pK * reading_half_gap_degC,
            DRIFT_PK * (temp - wash_temp_degC),
        )
        for _, temp in readings
    )
    common = (own - end) * meter_half_pH / math.sqrt(3.0)
    return TOPUP_WIDER_N * math.hypot(own * own_u, end * late_u, common) * cleaner_dose_kg
