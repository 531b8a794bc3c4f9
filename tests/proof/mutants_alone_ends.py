"""Where working blocks end, and what reads that: cells that are set by hand, and what then follows.

The references go by what stands before the passes; these formulas go by what the passes come to.
"""

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from workbook.files import Value

from builder.reference.ph import TOPUP_TOP

IONIC_TOP = 0.5  # mol/L, as of the activity model
LEAST_GAP = 1e-12  # mol/L, below which no further step is made
LARGEST_STEP = 1.0  # of pH in one pass
LEAST_POINTS = 3  # of a line
ROWS = {"low": 8, "final": 8, "refill": 10}  # passes to an ionic strength


@dataclass(frozen=True, slots=True)
class End:
    """A named cell, the keys of the cells that it reads, what it makes of them, and values."""

    name: str
    keys: tuple[str, ...]
    find: Callable[..., Value]
    tries: tuple[tuple[Value, ...], ...]


def limit_share(share: float) -> Value:
    """Return a share to top up, or nothing beyond the largest."""
    return max(0.0, share) if share <= TOPUP_TOP else None


def keep_some(amount: float) -> Value:
    """Return an amount, or nothing where there is none."""
    return amount if amount > 0 else None


def find_slope(points: float, cross: float, spread: float) -> Value:
    """Return the slope of a line to nine decimals, or nothing for too few points or one day."""
    return round(cross / spread, 9) if points >= LEAST_POINTS and spread > 0 else None


def step_on(pH: float, need: float, slope: float, aim: float) -> Value:
    """Return the next pH of Newton's rule, at most one step away."""
    step = math.log10(aim / need) * need / slope
    return pH + max(-LARGEST_STEP, min(LARGEST_STEP, step))


def move_on(_: float, ionic: float, gap: float, secant: float) -> Value:
    """Return the next ionic strength, from nothing to the most."""
    return min(IONIC_TOP, max(0.0, ionic - gap * secant))


def find_secant(_: float, ionic: float, gap: float, before: float, gap_before: float) -> Value:
    """Return how the ionic strength went with its gap, or 0 where there is none."""
    return 0.0 if abs(gap) < LEAST_GAP else (ionic - before) / (gap - gap_before)


def list_ends() -> Iterator[End]:
    """Yield all of them, those that others read last."""
    for grid, rows in ROWS.items():
        above = (f"{grid}_ionic_molpL_list {rows - 1}", f"{grid}_gap_molpL_list {rows - 1}")
        head, last = f"{grid}_trial_pH", (f"{grid}_ionic_molpL", f"{grid}_gap_molpL")
        gaps = (1e-13, -1e-13, LEAST_GAP, -LEAST_GAP, 2e-12, -2e-12, 0.01)
        tries = tuple((11.0, 0.2, gap, 0.1, 0.05) for gap in gaps)
        yield End(f"{grid}_secant_n", (head, *last, *above), find_secant, tries)
        moves = ((0.1, 0.2, -3.0), (0.1, 0.2, 1.0), (0.1, 0.02, -1.0), (0.1, 3.0, 1.0))
        keys = (head, *above, f"{grid}_secant_n_list {rows - 1}")
        yield End(f"{grid}_ionic_molpL", keys, move_on, tuple((11.0, *move) for move in moves))
    passes = ((0.001, 0.0001, 0.1), (0.1, 0.01, 0.001), (0.1, 0.2, 0.2), (0.2, 0.2, 0.1))
    keys = ("start_trial_pH", "start_need_eqpL", "start_slope_n", "alkali_eqpL")
    yield End("start_next_pH", keys, step_on, tuple((11.0, *each) for each in passes))
    steps = ((0.001, 0.002), (0.002, 0.001), (None, 0.001), (0.001, None))
    yield End("last_step_pH", ("start_step_pH", "start25_step_pH"), max, steps)
    shares = ((TOPUP_TOP,), (TOPUP_TOP + 0.001,), (-1.0,), (None,))
    yield End("topup_share_frac", ("refill_share_frac",), limit_share, shares)
    amounts = ((0.0,), (-0.001,), (0.001,), (None,))
    yield End("water_bicarbonate_molpL", ("atwater_hco3_molpL",), keep_some, amounts)
    lines = ((3.0, 0.002, 3.0), (3.0, -0.002, 3.0), (2.0, 0.002, 3.0), (3.0, 0.002, 0.0))
    lacking = ((3.0, 0.002, -1.0), (None, 0.002, 3.0), (3.0, None, 3.0), (3.0, 0.002, None))
    keys = ("trend_points_n", "trendsum_cross_n", "trendsum_spread_n")
    yield End("flow_slope_pctpd", keys, find_slope, lines + lacking)
