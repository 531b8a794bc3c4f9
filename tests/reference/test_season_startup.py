"""Start-up verdicts: both ends of a span hold, the latch and the first rinse stop."""

import math
from collections.abc import Callable

import pytest

from builder.reference.season_startup import (
    EYEWASH_MIN,
    first_rinse_left_L,
    first_rinse_ok,
    latch_margin_bar,
    latch_ok,
    soak_left_min,
    soak_ok,
    wetting_left_min,
    wetting_ok,
)

PSI_BAR = 0.06894757293168361  # pound-force per square inch (definition)


@pytest.mark.parametrize(
    ("minutes", "verdict"), [(14.9, "look"), (15.0, "ok"), (20.0, "ok"), (20.1, "look")]
)
def test_a_soak_of_15_to_20_minutes_will_do(minutes: float, verdict: str) -> None:
    # common practice, no source
    assert soak_ok(minutes, 15.0, 20.0) == verdict


@pytest.mark.parametrize(
    ("minutes", "verdict"), [(14.9, "look"), (15.0, "ok"), (30.0, "ok"), (30.1, "look")]
)
def test_a_wetting_run_of_15_to_30_minutes_will_do(minutes: float, verdict: str) -> None:
    # common practice, no source
    assert wetting_ok(minutes, 15.0, 30.0) == verdict


@pytest.mark.parametrize(
    ("psi", "seconds", "verdict"),
    [(20.0, 10.0, "ok"), (19.9, 5.0, "stop"), (25.0, 10.1, "stop"), (0.0, 60.0, "stop")],
)
def test_pressure_reaches_its_latch_in_time_or_the_start_stops(
    psi: float, seconds: float, verdict: str
) -> None:
    # 20 psi within 10 s: common practice, no source
    assert latch_ok(psi * PSI_BAR, 20.0 * PSI_BAR, seconds, 10.0) == verdict


def test_the_last_digit_of_a_conversion_does_not_decide() -> None:
    latch_bar = 20.0 * PSI_BAR
    assert latch_ok(math.nextafter(latch_bar, 0.0), latch_bar, 10.0, 10.0) == "ok"
    assert latch_ok(latch_bar, latch_bar, math.nextafter(10.0, 11.0), 10.0) == "ok"
    assert first_rinse_ok(0.1 * 3 * 1000, 300.0) == "ok"


def test_a_first_rinse_short_of_what_is_owed_stops() -> None:
    assert first_rinse_ok(2900.0, 2900.0) == "ok"
    assert first_rinse_ok(2899.9, 2900.0) == "stop"
    assert first_rinse_ok(2900 - 3e-6, 2900.0) == "stop"


def test_a_billionth_of_a_first_rinse_is_not_missed() -> None:
    assert first_rinse_ok(2900 - 2.8e-6, 2900.0) == "ok"
    assert first_rinse_left_L(2900.0, 2900 - 2.8e-6) == 0.0


def test_eyes_are_rinsed_for_a_quarter_of_an_hour() -> None:
    # ANSI Z358.1, 15 minutes: second hand, in two summaries of the standard
    assert EYEWASH_MIN * 60.0 == 900.0


@pytest.mark.parametrize("left", [soak_left_min, wetting_left_min, first_rinse_left_L])
def test_what_is_left_and_what_is_done_make_the_least_and_nothing_is_left_beyond(
    left: Callable[[float, float], float],
) -> None:
    assert left(15.0, 0.0) == 15.0
    assert left(15.0, 6.25) + 6.25 == 15.0
    assert left(15.0, 15.0) == left(15.0, 99.0) == 0.0


def test_the_latch_has_a_margin_on_either_side() -> None:
    assert latch_margin_bar(25.0 * PSI_BAR, 20.0 * PSI_BAR) == pytest.approx(5.0 * PSI_BAR)
    assert latch_margin_bar(0.0, 20.0 * PSI_BAR) == -20.0 * PSI_BAR


def test_nothing_is_left_exactly_where_the_verdict_is_ok() -> None:
    for done in (0.0, 2899.0, 2900 - 3e-6, 2900 - 2.8e-6, 2900.0, 3000.0):
        verdict = "stop" if first_rinse_left_L(2900.0, done) else "ok"
        assert first_rinse_ok(done, 2900.0) == verdict
