"""Uncertainty of the wash's pH and of its top-up against trials with drawn errors."""

import numpy as np
import pytest

from builder.reference import composition, doubt, ph, strip, topup
from tests.reference.washes import Wash

DEMO = {"naoh": 4.0, "carbonate": 12.0, "silicate": 5.0, "edta": 7.0, "strength": 16.38}
DEMO |= {"wash_temp": 38.0, "own_pH": 12.35, "own_temp": 20.0}
END_PH, END_TEMP = 12.05, 22.0


def find_effect(made: Wash) -> float:
    _, rise, bend = made.find_strip(made.start, made.temp)
    return strip.temp_effect_pK(made.temp, rise, bend)


@pytest.mark.parametrize(
    ("lower", "upper", "u"),
    [  # worked for this project: first order 0.115 and 0.061, 3,000 draws 0.117 and 0.060
        ((1.0, 10.0, 3.0, 10.0), (5.0, 30.0, 7.0, 30.0), 0.116),
        ((3.0, 10.0, 4.0, 5.0), (5.0, 14.0, 6.0, 9.0), 0.0605),
    ],
)
def test_ranges_of_a_label_make_the_start_uncertain(
    lower: tuple[float, ...], upper: tuple[float, ...], u: float
) -> None:
    middle = [(low + high) / 2.0 for low, high in zip(lower, upper, strict=True)]
    names = ("naoh", "carbonate", "silicate", "edta")
    made = Wash.by_label(DEMO | dict(zip(names, middle, strict=True)))
    effect = find_effect(made)
    strength = DEMO["strength"]
    state = (composition.LABEL, strength, *made.state, effect, 2.0, 2.3, 1.0)
    assert doubt.label_u_pH(*state, *lower, *upper) == pytest.approx(u, abs=0.003)
    # without ranges what is left is the mixing, the temperature and the model
    plain = doubt.label_u_pH(*state, *middle)
    assert plain < doubt.label_u_pH(*state, *lower, *upper)
    assert doubt.label_u_pH(composition.GENERIC, *state[1:], *lower, *upper) == plain


def test_a_reading_is_as_uncertain_as_its_meter_its_temperature_and_its_distance() -> None:
    # paper strips, half a pH to either side: nothing within 0.58 of a limit is ok
    strips = doubt.end_u_pH(0.5, 0.0, 38.0, 38.0, -0.03)
    assert 2.0 * strips == pytest.approx(0.58, abs=0.005)
    # read 18 K below the wash: 0.054 for the floor and a third of it for the start
    assert doubt.end_u_pH(0.0, 0.0, 20.0, 38.0, -0.03) == pytest.approx(0.054)
    fresh = doubt.fresh_u_pH(composition.BOTH, 0.0, 0.0, -0.03, 20.0, 38.0)
    assert fresh == pytest.approx(0.018)
    # two kelvin at 0.03 for each
    assert doubt.end_u_pH(0.0, 2.0, 38.0, 38.0, -0.03) == pytest.approx(0.06 / 3**0.5)
    # where the strip is not known the same 0.03 stands for it, and 18 K below the wash 0.054
    assert doubt.end_u_pH(0.0, 2.0, 38.0, 38.0) == pytest.approx(0.06 / 3**0.5)
    assert doubt.end_u_pH(0.0, 2.0, 20.0, 38.0) == pytest.approx((0.0012 + 0.054**2) ** 0.5)
    assert doubt.end_u_pH(0.0, 2.0, 38.0, 38.0, 0.0) == 0.0  # a figure, not a blank
    assert doubt.volume_u_pct(4.6, 200.0) == pytest.approx(2.3)


def top_up(own_pH: float, own_temp: float, end_pH: float, end_temp: float) -> tuple[Wash, float]:
    made = Wash.by_reading(DEMO | {"own_pH": own_pH, "own_temp": own_temp})
    left = ph.end_alkali_eqpL(*made.stuff, end_pH, end_temp)
    return made, topup.topup_share_frac(*made.stuff, left, made.start, made.temp)


def test_the_top_up_scatters_as_told_when_both_readings_err() -> None:
    # repeatability 0.03 and 2 K for each reading, 0.1 common to both, as rectangles
    dice = np.random.default_rng(9)
    made, share = top_up(DEMO["own_pH"], DEMO["own_temp"], END_PH, END_TEMP)
    readings = (DEMO["own_pH"], DEMO["own_temp"], END_PH, END_TEMP)
    base = (ph.free_alkali_eqpL(*made.state), ph.capacity_eqpL(*made.state), find_effect(made))
    told = doubt.topup_u_kg(*made.stuff, *readings, made.temp, share, *base, 2.0, 0.1, 1.0)
    shares = []
    for _ in range(400):
        common, own, end = dice.uniform(-1.0, 1.0, 3) * (0.1, 0.03, 0.03)
        off = dice.uniform(-2.0, 2.0, 2)
        typed = (common + own, off[0], common + end, off[1])
        shares.append(top_up(*(a + float(b) for a, b in zip(readings, typed, strict=True)))[1])
    scatter = float(np.std(shares))
    # first order alone was 1 to 28 % low in trials; a fifth is added. Found when written: 1.08
    assert 0.95 <= told / scatter <= 1.2
    assert doubt.topup_u_kg(
        *made.stuff, *readings, made.temp, share, *base, 2.0, 0.1, 1.9
    ) == pytest.approx(1.9 * told)
