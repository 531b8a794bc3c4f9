"""pH of the wash: start, floor and end, its capacity, alkali in reserve and used.

Solved by the converged species model of `equilibrium`; differences and shares are definitions of
this project. Below the least alkali the solution is water, and nothing is told of it as a wash.
"""

from builder.reference.comparison import Verdict
from builder.reference.equilibrium import (
    DAVIES_TOP_MOLPL,
    Medium,
    find_capacity_eqpL,
    find_need_eqpL,
    need_eqpL,
    settle,
    solve_pH,
)

ALKALI_LEAST_EQPL = 0.00001
COVER_N = 2.0  # standard uncertainties that a margin has to cover (JCGM 100, from memory)
MODEL_FLOOR_PH = 7.5  # lowest pH that the model is asked for (no source)
MODEL_CEILING_PH = 13.75  # highest, a little above the tested 13.6 (no source)
STEP_LARGEST_PH = 0.0005  # largest last step of a solver that counts as settled (no source)
CURVE_STEP_PH = 0.25  # from row to row of the chart of the wash (own choice)
WHOLE_PCT = 100.0
NOTHING = (0.0, 0.0, 0.0)  # no weak acid in the water


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
    return min(settle(pH, wash_temp_degC, totals, alkali_eqpL).ionic_molpL, DAVIES_TOP_MOLPL)


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


def settle_start(
    alkali_eqpL: float, totals: tuple[float, float, float], wash_temp_degC: float
) -> tuple[float, Medium]:
    """Return the pH of the fresh wash at its temperature, its activities and unpaired sodium."""
    pH = wash_start_pH(alkali_eqpL, *totals, wash_temp_degC)
    return pH, settle(pH, wash_temp_degC, totals, alkali_eqpL)


def free_alkali_eqpL(
    alkali_eqpL: float,
    carbonate_molpL: float,
    silicate_molpL: float,
    edta_molpL: float,
    wash_temp_degC: float,
) -> float:
    """Return the alkali that no weak acid holds, OH - H of the fresh wash at its temperature."""
    totals = (carbonate_molpL, silicate_molpL, edta_molpL)
    pH, start = settle_start(alkali_eqpL, totals, wash_temp_degC)
    return find_need_eqpL(pH, wash_temp_degC, NOTHING, start.log_g, start.sodium_molpL)


def capacity_eqpL(
    alkali_eqpL: float,
    carbonate_molpL: float,
    silicate_molpL: float,
    edta_molpL: float,
    wash_temp_degC: float,
) -> float:
    """Return the alkali for each pH of the fresh wash, dneed/dpH by difference.

    Activities and unpaired sodium stand still.
    """
    totals = (carbonate_molpL, silicate_molpL, edta_molpL)
    pH, start = settle_start(alkali_eqpL, totals, wash_temp_degC)
    return find_capacity_eqpL(pH, wash_temp_degC, totals, start)


def carbonate_charge_n(
    alkali_eqpL: float,
    carbonate_molpL: float,
    silicate_molpL: float,
    edta_molpL: float,
    wash_temp_degC: float,
) -> float:
    """Return the charge on one carbonate at the start: what one more mol/L of it adds to need."""
    totals = (carbonate_molpL, silicate_molpL, edta_molpL)
    pH, start = settle_start(alkali_eqpL, totals, wash_temp_degC)
    with_one, without = (
        find_need_eqpL(pH, wash_temp_degC, some, start.log_g, start.sodium_molpL)
        for some in ((1.0, 0.0, 0.0), NOTHING)
    )
    return with_one - without


def start_floor_margin_pH(wash_start_pH: float, floor_pH: float) -> float:
    """Return how far the fresh wash starts above the floor, start less floor."""
    return wash_start_pH - floor_pH


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


def ceiling_alkali_eqpL(
    alkali_eqpL: float,
    carbonate_molpL: float,
    silicate_molpL: float,
    edta_molpL: float,
    ceiling_pH: float,
    ceiling_temp_degC: float,
) -> float:
    """Return the alkali that the ceiling pH would need, at the temperature it is compared at."""
    require_wash(alkali_eqpL)
    return need_eqpL(
        ceiling_pH, ceiling_temp_degC, carbonate_molpL, silicate_molpL, edta_molpL, alkali_eqpL
    )


def alkali_reserve_eqpL(alkali_eqpL: float, floor_alkali_eqpL: float) -> float:
    """Return the acid that the wash takes up down to the floor: alkali less that at the floor.

    Never below 0.
    """
    return max(0.0, alkali_eqpL - floor_alkali_eqpL)


def alkali_reserve_pct(alkali_reserve_eqpL: float, alkali_eqpL: float) -> float:
    """Return the reserve as a share of the alkali dosed."""
    return WHOLE_PCT * alkali_reserve_eqpL / alkali_eqpL


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
    end_pH: float,
    end_temp_degC: float,
    wash_temp_degC: float,
) -> float:
    """Return the pH of the spent wash at the wash temperature, where need = alkali left.

    There must be some left.
    """
    totals = (carbonate_molpL, silicate_molpL, edta_molpL)
    left = end_alkali_eqpL(alkali_eqpL, *totals, end_pH, end_temp_degC)
    require_wash(left)
    return solve_pH(left, *totals, alkali_eqpL, wash_temp_degC)


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


def judge_margin(margin_pH: float, u_pH: float) -> Verdict:
    """Return stop below 0, look within twice the standard uncertainty above it, else ok."""
    if margin_pH < 0.0:
        return "stop"
    return "look" if margin_pH < COVER_N * u_pH else "ok"


def start_floor_ok(start_floor_margin_pH: float, wash_start_u_pH: float) -> Verdict:
    """Return whether the fresh wash starts above the floor, by more than its doubt."""
    return judge_margin(start_floor_margin_pH, wash_start_u_pH)


def end_floor_ok(floor_margin_pH: float, end_u_pH: float) -> Verdict:
    """Return whether the end reading is above the floor of its temperature, beyond its doubt."""
    return judge_margin(floor_margin_pH, end_u_pH)


def end_reading_ok(end_pH: float, end_temp_degC: float | None = None) -> Verdict:
    """Return whether the end reading says at which temperature it was taken."""
    return "look" if end_temp_degC is None else "ok"


def converged_ok(last_step_pH: float) -> Verdict:
    """Return whether the pH solver has settled, last step <= 0.0005."""
    return "ok" if last_step_pH <= STEP_LARGEST_PH else "look"


def model_ok(wash_start_pH: float, wash_ionic_molpL: float) -> Verdict:
    """Return whether the model holds for the wash: 7.5 <= pH <= 13.75, ionic strength < 0.5."""
    within = MODEL_FLOOR_PH <= wash_start_pH <= MODEL_CEILING_PH
    return "ok" if within and wash_ionic_molpL < DAVIES_TOP_MOLPL else "look"
