"""More cleaner into the same water: the top-up, and the strength that reaches the ceiling."""

import math
from itertools import pairwise

from scipy.optimize import brentq

from builder.reference.comparison import Verdict
from builder.reference.equilibrium import settle

TOPUP_TOP = 20.0  # largest top-up searched for, in first doses
TOPUP_STEPS = 200  # intervals searched for the first change of sign, for each 20 doses
TOPUP_MOST_FRAC = 0.70  # share above which a fresh wash is the better way (no source)
STEP_FINE_KG, STEP_COARSE_KG, FINE_BELOW_KG = 0.05, 0.1, 1.0  # what a scale shows (own choice)
ROUNDING_N = 1e-9  # a quotient this little above a whole number counts as it
COVER_N = 2.0  # standard uncertainties told to either side (JCGM 100, from memory)


def find_share(
    aim_pH: float,
    temp_degC: float,
    totals: tuple[float, ...],
    alkali_eqpL: float,
    left_eqpL: float,
    least: float,
) -> float:
    """Return the smallest x not below the least that brings a solution to a pH.

    need(aim; 1+x times totals and sodium) = left + x alkali, none up to 20 is refused (Brent).
    """

    def lacking(x: float) -> float:
        grown = tuple((1.0 + x) * total for total in totals)
        need = settle(aim_pH, temp_degC, grown, (1.0 + x) * alkali_eqpL).need_eqpL
        return need - left_eqpL - x * alkali_eqpL

    steps = TOPUP_STEPS + round(-least * TOPUP_STEPS / TOPUP_TOP)
    for low, high in pairwise(least + TOPUP_TOP * k / TOPUP_STEPS for k in range(steps + 1)):
        if lacking(high) <= 0.0:
            return float(brentq(lacking, low, high, xtol=1e-15, rtol=1e-14))
    raise ValueError(f"no share of 0 to {TOPUP_TOP:g} brings the pH to {aim_pH}")


def topup_share_frac(
    alkali_eqpL: float,
    carbonate_molpL: float,
    silicate_molpL: float,
    edta_molpL: float,
    end_alkali_eqpL: float,
    wash_start_pH: float,
    wash_temp_degC: float,
) -> float:
    """Return the share of the first dose that brings the pH back to the start, 0 when above it."""
    totals = (carbonate_molpL, silicate_molpL, edta_molpL)
    aim = settle(wash_start_pH, wash_temp_degC, totals, alkali_eqpL)
    if aim.need_eqpL <= end_alkali_eqpL:
        return 0.0
    return find_share(wash_start_pH, wash_temp_degC, totals, alkali_eqpL, end_alkali_eqpL, 0.0)


def ceiling_strength_n(
    alkali_eqpL: float,
    carbonate_molpL: float,
    silicate_molpL: float,
    edta_molpL: float,
    ceiling_pH: float,
    ceiling_temp_degC: float,
) -> float:
    """Return how many times as strong the fresh wash would stand at the ceiling."""
    totals = (carbonate_molpL, silicate_molpL, edta_molpL)
    share = find_share(ceiling_pH, ceiling_temp_degC, totals, alkali_eqpL, alkali_eqpL, -1.0)
    return 1.0 + share


def topup_cleaner_kg(topup_share_frac: float, cleaner_dose_kg: float) -> float:
    """Return the cleaner that brings the wash back to the start, share times first dose."""
    return topup_share_frac * cleaner_dose_kg


def topup_shown_kg(topup_cleaner_kg: float) -> float:
    """Return the top-up as weighed: rounded up to 0.05 kg below 1 kg, else to 0.1 kg."""
    step_kg = STEP_FINE_KG if topup_cleaner_kg < FINE_BELOW_KG else STEP_COARSE_KG
    return math.ceil(topup_cleaner_kg / step_kg - ROUNDING_N) * step_kg


def topup_from_kg(topup_cleaner_kg: float, topup_u_kg: float) -> float:
    """Return the lower end of the top-up, less twice its standard uncertainty, not below 0."""
    return max(0.0, topup_cleaner_kg - COVER_N * topup_u_kg)


def topup_to_kg(topup_cleaner_kg: float, topup_u_kg: float) -> float:
    """Return the upper end of the top-up, plus twice its standard uncertainty."""
    return topup_cleaner_kg + COVER_N * topup_u_kg


def topup_ok(topup_share_frac: float) -> Verdict:
    """Return whether topping up is worth while: share <= 0.70, else make it fresh."""
    return "ok" if topup_share_frac <= TOPUP_MOST_FRAC else "look"
