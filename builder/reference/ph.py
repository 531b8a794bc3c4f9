"""pH of the wash: start, margins, alkali in reserve and used, and the top-up.

Solved by the converged species model of `equilibrium`; differences and shares are definitions of
this project. Below the least alkali the solution is water, and nothing is told of it as a wash.
"""

from itertools import pairwise

from scipy.optimize import brentq

from builder.reference.comparison import Verdict
from builder.reference.equilibrium import DAVIES_TOP_MOLPL, converge, need_eqpL, solve_pH

ALKALI_LEAST_EQPL = 0.00001
LABEL_TEMP_DEGC = 25.0  # temperature at which labels state pH (common practice, no source)
TOPUP_TOP = 20.0  # largest top-up searched for, in first doses
TOPUP_STEPS = 200  # intervals searched for the first change of sign
MODEL_U_PH = 0.05  # uncertainty of the model, carbonate-rich, own comparison with phreeqc.dat 2024
MODEL_FLOOR_PH = 7.5  # lowest pH that the model is asked for (no source)
MODEL_CEILING_PH = 13.75  # highest, a little above the tested 13.6 (no source)
STEP_LARGEST_PH = 0.0005  # largest last step of a solver that counts as settled (no source)
CURVE_STEP_PH = 0.25  # from row to row of the chart of the wash (own choice)
WHOLE_PCT = 100.0


def require_wash(alkali_eqpL: float) -> None:
    """Refuse a solution that is water."""
    if alkali_eqpL < ALKALI_LEAST_EQPL:
        raise ValueError(f"a wash of {alkali_eqpL} eq/L is water")


def guess_ionic_molpL(alkali_eqpL: float, carbonate_molpL: float, edta_molpL: float) -> float:
    """Return a first estimate of the ionic strength, nothing protonated, at most 0.5.

    I = 1/2 sum c z^2 of Na, CO3, EDTA and the OH that is left (definition).
    """
    require_wash(alkali_eqpL)
    hydroxide = alkali_eqpL - 2.0 * carbonate_molpL - 4.0 * edta_molpL
    strength = (alkali_eqpL + hydroxide + 4.0 * carbonate_molpL + 16.0 * edta_molpL) / 2.0
    return min(strength, DAVIES_TOP_MOLPL)


def wash_start_pH(
    alkali_eqpL: float,
    carbonate_molpL: float,
    silicate_molpL: float,
    edta_molpL: float,
    wash_temp_degC: float,
) -> float:
    """Return the pH of the fresh wash at its temperature, where the need equals the alkali."""
    require_wash(alkali_eqpL)
    return solve_pH(
        alkali_eqpL, carbonate_molpL, silicate_molpL, edta_molpL, alkali_eqpL, wash_temp_degC
    )


def wash_start_at_25_pH(
    alkali_eqpL: float, carbonate_molpL: float, silicate_molpL: float, edta_molpL: float
) -> float:
    """Return the pH of the fresh wash at 25 degC."""
    return wash_start_pH(alkali_eqpL, carbonate_molpL, silicate_molpL, edta_molpL, LABEL_TEMP_DEGC)


def wash_ionic_molpL(
    alkali_eqpL: float,
    carbonate_molpL: float,
    silicate_molpL: float,
    edta_molpL: float,
    wash_temp_degC: float,
) -> float:
    """Return the ionic strength of the fresh wash, 1/2 sum c z^2 at its pH, at most 0.5."""
    totals = (carbonate_molpL, silicate_molpL, edta_molpL)
    pH = wash_start_pH(alkali_eqpL, *totals, wash_temp_degC)
    return min(converge(pH, wash_temp_degC, totals, alkali_eqpL)[1], DAVIES_TOP_MOLPL)


def last_step_pH(
    alkali_eqpL: float,
    carbonate_molpL: float,
    silicate_molpL: float,
    edta_molpL: float,
    wash_temp_degC: float,
) -> float:
    """Return the solver's last step: 0, as the reference closes in on its root."""
    require_wash(alkali_eqpL)
    return 0.0


def ceiling_margin_pH(ceiling_pH: float, wash_start_pH: float) -> float:
    """Return how far the fresh wash stays below the ceiling, ceiling less start."""
    return ceiling_pH - wash_start_pH


def start_floor_margin_pH(wash_start_pH: float, floor_pH: float) -> float:
    """Return how far the fresh wash starts above the floor, start less floor."""
    return wash_start_pH - floor_pH


def floor_margin_pH(end_pH: float, floor_pH: float) -> float:
    """Return how far the reading at the end stays above the floor, end less floor."""
    return end_pH - floor_pH


def floor_alkali_eqpL(
    alkali_eqpL: float,
    carbonate_molpL: float,
    silicate_molpL: float,
    edta_molpL: float,
    wash_temp_degC: float,
    floor_pH: float,
) -> float:
    """Return the alkali that keeps the floor pH at the wash temperature, sodium as dosed."""
    require_wash(alkali_eqpL)
    return need_eqpL(
        floor_pH, wash_temp_degC, carbonate_molpL, silicate_molpL, edta_molpL, alkali_eqpL
    )


def alkali_reserve_eqpL(alkali_eqpL: float, floor_alkali_eqpL: float) -> float:
    """Return the acid that the wash takes up down to the floor: alkali less that at the floor.

    Never below 0.
    """
    return max(0.0, alkali_eqpL - floor_alkali_eqpL)


def alkali_reserve_pct(alkali_reserve_eqpL: float, alkali_eqpL: float) -> float:
    """Return the reserve as a share of the alkali dosed."""
    return WHOLE_PCT * alkali_reserve_eqpL / alkali_eqpL


def end_reading_degC(wash_temp_degC: float, end_temp_degC: float | None = None) -> float:
    """Return the temperature of the end reading, that of the wash where none was given."""
    return wash_temp_degC if end_temp_degC is None else end_temp_degC


def end_alkali_eqpL(
    alkali_eqpL: float,
    carbonate_molpL: float,
    silicate_molpL: float,
    edta_molpL: float,
    end_pH: float,
    end_temp_degC: float,
) -> float:
    """Return the alkali left: what the end pH needs at its temperature, sodium as dosed."""
    require_wash(alkali_eqpL)
    return need_eqpL(
        end_pH, end_temp_degC, carbonate_molpL, silicate_molpL, edta_molpL, alkali_eqpL
    )


def end_at_wash_pH(
    alkali_eqpL: float,
    carbonate_molpL: float,
    silicate_molpL: float,
    edta_molpL: float,
    end_alkali_eqpL: float,
    wash_temp_degC: float,
) -> float:
    """Return the pH of the spent wash at the wash temperature, where need = alkali left."""
    return solve_pH(
        end_alkali_eqpL, carbonate_molpL, silicate_molpL, edta_molpL, alkali_eqpL, wash_temp_degC
    )


def end_floor_margin_pH(end_at_wash_pH: float, floor_pH: float) -> float:
    """Return how far the spent wash stays above the floor at the wash temperature."""
    return end_at_wash_pH - floor_pH


def alkali_used_eqpL(alkali_eqpL: float, end_alkali_eqpL: float) -> float:
    """Return the alkali used up in the wash, alkali dosed less alkali left, never below 0."""
    return max(0.0, alkali_eqpL - end_alkali_eqpL)


def alkali_used_pct(alkali_used_eqpL: float, alkali_eqpL: float) -> float:
    """Return the alkali used up as a share of the alkali dosed."""
    return WHOLE_PCT * alkali_used_eqpL / alkali_eqpL


def curve_pH(row_n: float, wash_start_pH: float) -> float:
    """Return the pH of a row of the chart, start - (row - 1) 0.25."""
    return wash_start_pH - (row_n - 1.0) * CURVE_STEP_PH


def curve_used_pct(
    row_n: float,
    wash_start_pH: float,
    alkali_eqpL: float,
    carbonate_molpL: float,
    silicate_molpL: float,
    edta_molpL: float,
    wash_temp_degC: float,
) -> float:
    """Return the share of the alkali used at the pH of a row, 100 (1 - need(pH) / alkali)."""
    totals = (carbonate_molpL, silicate_molpL, edta_molpL)
    pH = curve_pH(row_n, wash_start_pH)
    left = floor_alkali_eqpL(alkali_eqpL, *totals, wash_temp_degC, pH)
    return WHOLE_PCT * (1.0 - left / alkali_eqpL)


def edge_pH(aim_pH: float, wash_start_pH: float) -> float:
    """Return the height of a level line or point in the chart: height = aim (definition).

    There is none without a fresh wash.
    """
    return aim_pH


def topup_share_frac(
    alkali_eqpL: float,
    carbonate_molpL: float,
    silicate_molpL: float,
    edta_molpL: float,
    end_alkali_eqpL: float,
    wash_start_pH: float,
    wash_temp_degC: float,
) -> float:
    """Return the share of the first dose that brings the pH back to the start, 0 when above it.

    Smallest x with need(start pH; 1+x times totals and sodium) = alkali left + x alkali dosed;
    none up to 20 is refused.
    """
    totals = (carbonate_molpL, silicate_molpL, edta_molpL)

    def lacking(x: float) -> float:
        grown = tuple((1.0 + x) * total for total in totals)
        sodium = (1.0 + x) * alkali_eqpL
        need, _ = converge(wash_start_pH, wash_temp_degC, grown, sodium)
        return need - end_alkali_eqpL - x * alkali_eqpL

    if lacking(0.0) <= 0.0:
        return 0.0
    for low, high in pairwise(TOPUP_TOP * k / TOPUP_STEPS for k in range(TOPUP_STEPS + 1)):
        if lacking(high) <= 0.0:
            return float(brentq(lacking, low, high, xtol=1e-15, rtol=1e-14))
    raise ValueError(f"no share of 0 to {TOPUP_TOP:g} brings the pH back to {wash_start_pH}")


def topup_cleaner_kg(topup_share_frac: float, cleaner_dose_kg: float) -> float:
    """Return the cleaner that brings the wash back to the start, share times first dose."""
    return topup_share_frac * cleaner_dose_kg


def judge_margin(margin_pH: float) -> Verdict:
    """Return stop below 0, look within the model's uncertainty above it, else ok."""
    if margin_pH < 0.0:
        return "stop"
    return "look" if margin_pH < MODEL_U_PH else "ok"


def ceiling_ok(ceiling_margin_pH: float) -> Verdict:
    """Return whether the fresh wash stays below the ceiling, by more than the model's doubt."""
    return judge_margin(ceiling_margin_pH)


def start_floor_ok(start_floor_margin_pH: float) -> Verdict:
    """Return whether the fresh wash starts above the floor, by more than the model's doubt."""
    return judge_margin(start_floor_margin_pH)


def end_floor_ok(end_floor_margin_pH: float) -> Verdict:
    """Return whether the spent wash stays above the floor, by more than the model's doubt."""
    return judge_margin(end_floor_margin_pH)


def reading_ok(end_pH: float, end_temp_degC: float | None = None) -> Verdict:
    """Return whether the end reading says at which temperature it was taken."""
    return "look" if end_temp_degC is None else "ok"


def converged_ok(last_step_pH: float) -> Verdict:
    """Return whether the pH solver has settled, last step <= 0.0005."""
    return "ok" if last_step_pH <= STEP_LARGEST_PH else "look"


def model_ok(wash_start_pH: float, wash_ionic_molpL: float) -> Verdict:
    """Return whether the model holds for the wash: 7.5 <= pH <= 13.75, ionic strength < 0.5."""
    within = MODEL_FLOOR_PH <= wash_start_pH <= MODEL_CEILING_PH
    return "ok" if within and wash_ionic_molpL < DAVIES_TOP_MOLPL else "look"
