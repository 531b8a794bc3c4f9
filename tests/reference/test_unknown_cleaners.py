"""Cleaners that nobody knows, judged by a label or none and one reading of the fresh wash."""

from collections import Counter

import numpy as np
import pytest

from builder.reference import composition, doubt, ph, strip
from tests.reference.geochemistry import open_code
from tests.reference.unknown_cleaners import Cleaner, End, draw_cleaner, draw_ends, read_fresh
from tests.reference.washes import Wash

METER_HALF_PH, HALF_GAP = 0.1, 2.0


def reckon(cleaner: Cleaner, state: float, pH: float, temp: float) -> Wash:
    """Return the wash that label and reading, or the reading alone, make of a cleaner."""
    find = (composition.carbonate_molpL, composition.silicate_molpL, composition.edta_molpL)
    carbonate, silicate, edta = (
        salt(state, cleaner.strength_gpL, *ends)
        for salt, ends in zip(find, cleaner.ranges[1:], strict=True)
    )
    totals = (carbonate, silicate, edta)
    alkali = composition.fresh_alkali_eqpL(pH, temp, *totals)
    return Wash(alkali, totals, cleaner.temp)


def judge(made: Wash, effect: float, end: End) -> str:
    """Return the verdict on an end reading against its floor."""
    curve = made.find_strip(end.floor, made.temp)
    floor = strip.floor_at_end_pH(end.temp, made.temp, end.floor, *curve)
    u = doubt.end_u_pH(METER_HALF_PH, HALF_GAP, end.temp, made.temp, effect)
    return ph.end_floor_ok(strip.floor_margin_pH(end.pH, floor), u)


@pytest.mark.parametrize(("seed", "state"), [(77, composition.BOTH), (78, composition.GENERIC)])
def test_no_end_below_its_floor_is_ok(seed: int, state: float) -> None:
    dice, code = np.random.default_rng(seed), open_code()
    found: Counter[tuple[str, bool]] = Counter()
    cold_ok = 0
    for _ in range(200):
        cleaner = draw_cleaner(dice)
        start, pH, temp = read_fresh(dice, code, cleaner)
        made = reckon(cleaner, state, pH, temp)
        _, rise, bend = made.find_strip(made.start, made.temp)
        effect = strip.temp_effect_pK(made.temp, rise, bend)
        for end in draw_ends(dice, code, cleaner, start, 6):
            found[judge(made, effect, end), end.margin >= 0.0] += 1
            cold_ok += end.pH - end.floor >= 0.05 and end.margin < 0.0
    assert found.total() == 1200
    assert found["ok", False] == 0
    # and yet it tells something; a reading held against the floor without its temperature fails
    assert found["ok", True] > 300
    assert cold_ok > 400
