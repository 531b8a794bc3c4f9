"""Floor and ceiling of the log at 25 degC: by hand from the table of the shape."""

import math

import numpy as np
import pytest

from builder.reference import doubt, ph, standing, strip
from tests.reference.washes import Wash

SHIFTS = (standing.floor_shift_pH, standing.ceiling_shift_pH)
FOR_LOG = (standing.floor_for_log_pH, standing.ceiling_for_log_pH)


@pytest.mark.parametrize(
    ("means", "wash", "reads"),
    [
        ("at_25", 10.0, 25.0),
        ("at_25", 40.0, 25.0),
        ("at_wash", 10.0, 10.0),
        ("at_wash", 40.0, 40.0),
        ("unknown", 10.0, 10.0),
        ("unknown", 25.0, 25.0),
        ("unknown", 40.0, 25.0),
    ],
)
def test_a_limit_is_meant_at_25_at_the_wash_or_at_the_colder_of_both(means, wash, reads) -> None:
    assert standing.ceiling_reads_degC(means, wash) == reads


@pytest.mark.parametrize("means", ["", "at_30", "Unknown"])
def test_a_limit_of_another_meaning_has_no_temperature(means) -> None:
    with pytest.raises(ValueError, match="not meant"):
        standing.ceiling_reads_degC(means, 40.0)


@pytest.mark.parametrize(
    ("temp", "floor", "ceiling"),
    [
        (5.0, 0.68, 0.75),  # 12.12 - 11.44, 13.15 - 12.40
        (10.0, 0.49, 0.54),  # 11.93 - 11.44, 12.94 - 12.40
        (12.0, 0.418, 0.464),  # 11.93 - 2/5 x 0.18 - 11.44, 12.94 - 2/5 x 0.19 - 12.40
        (25.0, 0.0, 0.0),
        (37.5, -0.33, -0.38),  # (11.17 + 11.05) / 2 - 11.44, (12.09 + 11.95) / 2 - 12.40
        (38.0, -0.342, -0.394),  # 11.17 - 3/5 x 0.12 - 11.44, 12.09 - 3/5 x 0.14 - 12.40
        (40.0, -0.39, -0.45),  # 11.05 - 11.44, 11.95 - 12.40
        (60.0, -0.79, -0.94),  # 10.65 - 11.44, 11.46 - 12.40
    ],
)
def test_a_shift_is_the_table_less_its_figure_at_25(temp, floor, ceiling) -> None:
    assert standing.floor_shift_pH(temp) == pytest.approx(floor, abs=1e-12)
    assert standing.ceiling_shift_pH(temp) == pytest.approx(ceiling, abs=1e-12)


@pytest.mark.parametrize("shift", SHIFTS)
def test_the_table_ends_at_5_and_60_whatever_the_last_digit(shift) -> None:
    assert shift(math.nextafter(5.0, 0.0)) == shift(5.0)
    assert shift(math.nextafter(60.0, 61.0)) == shift(60.0)
    for temp in (-5.0, 4.99, 60.01, 90.0, math.nan):
        with pytest.raises(ValueError, match="does not reach"):
            shift(temp)


@pytest.mark.parametrize("for_log", FOR_LOG)
@pytest.mark.parametrize(
    "temp", [25.0, math.nextafter(25.0, 0.0), math.nextafter(25.0, 26.0), (77.0 - 32.0) / 1.8]
)
def test_at_25_a_line_stands_as_it_is_whatever_else_is_told(for_log, temp) -> None:
    assert for_log(temp, 11.2) == 11.2
    assert for_log(temp, 11.2, 11.9, 0.3) == 11.2


@pytest.mark.parametrize("for_log", FOR_LOG)
@pytest.mark.parametrize("shift", [None, -0.39])
def test_elsewhere_the_strip_of_this_wash_goes_before_the_shape(for_log, shift) -> None:
    assert for_log(40.0, 11.0, 11.52, shift) == 11.52
    assert for_log(40.0, 11.0, 0.0, shift) == 0.0  # a figure, not a blank


def test_without_a_strip_the_shift_of_the_shape_is_taken_off() -> None:
    # 11.00 + 0.39, 11.60 - 0.54
    assert standing.floor_for_log_pH(40.0, 11.0, None, -0.39) == pytest.approx(11.39)
    assert standing.ceiling_for_log_pH(10.0, 11.6, None, 0.54) == pytest.approx(11.06)
    # at 25.01 degC the next step of 5 degC is still to go: -0.14 / 500, -0.16 / 500
    floor, ceiling = (shift(25.01) for shift in SHIFTS)
    assert standing.floor_for_log_pH(25.01, 11.0, None, floor) == pytest.approx(11.00028)
    assert standing.ceiling_for_log_pH(25.01, 11.6, None, ceiling) == pytest.approx(11.60032)


@pytest.mark.parametrize("for_log", FOR_LOG)
def test_a_shift_of_nothing_is_a_shift(for_log) -> None:
    assert for_log(40.0, 11.0, None, 0.0) == 11.0


@pytest.mark.parametrize("for_log", FOR_LOG)
def test_with_neither_strip_nor_shift_there_is_no_answer(for_log) -> None:
    with pytest.raises(ValueError, match="nothing brings"):
        for_log(40.0, 11.0)


def test_a_limit_of_unknown_meaning_in_a_warm_wash_stands_and_in_a_cold_one_falls() -> None:
    for wash, at_25 in ((40.0, 11.6), (10.0, 11.06)):
        reads = standing.ceiling_reads_degC("unknown", wash)
        shift = standing.ceiling_shift_pH(reads)
        assert standing.ceiling_for_log_pH(reads, 11.6, None, shift) == pytest.approx(at_25)


@pytest.mark.parametrize(
    ("end", "wash", "floor"),
    [
        (38.0, 38.0, 11.1),
        (25.0, 40.0, 11.49),  # 11.1 + 11.44 - 11.05
        (20.0, 40.0, 11.64),  # 11.1 + 11.59 - 11.05
        (40.0, 20.0, 10.56),
        (22.0, 38.0, 11.532),  # 11.1 + 11.53 - 11.098: both between two steps
    ],
)
@pytest.mark.parametrize("curve", [(), (None, -0.03, 0.0), (11.5, None, 0.0), (11.5, -0.03, None)])
def test_without_a_strip_the_shape_brings_the_floor_to_the_end_reading(
    end: float, wash: float, floor: float, curve: tuple[float | None, ...]
) -> None:
    found = strip.floor_at_end_pH(end, wash, 11.1, *curve)
    assert found == pytest.approx(floor, abs=1e-12)


def test_a_strip_goes_before_the_shape() -> None:
    # a node of 0 at 5 degC, a straight line of 0.02 for each kelvin: a figure, not a blank
    assert strip.floor_at_end_pH(20.0, 40.0, 11.1, 0.0, 0.02, 0.0) == pytest.approx(0.3)


def test_the_shape_brings_no_floor_beyond_its_table() -> None:
    assert strip.floor_at_end_pH(4.0, 4.0, 11.1) == 11.1
    for end, wash in ((4.0, 40.0), (20.0, 61.0)):
        with pytest.raises(ValueError, match="does not reach"):
            strip.floor_at_end_pH(end, wash, 11.1)


def test_an_end_reading_is_judged_without_label_and_without_fresh_reading() -> None:
    # floor 11.1 at 40 degC is 11.64 at 20; u of 0.1 and 2 K: 0.0577, 0.0346, 0.06, together 0.090
    floor, u = strip.floor_at_end_pH(20.0, 40.0, 11.1), doubt.end_u_pH(0.1, 2.0, 20.0, 40.0)
    assert u == pytest.approx(0.0902, abs=1e-4)
    margins = [strip.floor_margin_pH(end, floor) for end in (11.5, 11.6, 11.75, 11.9)]
    assert [ph.end_floor_ok(margin, u) for margin in margins] == ["stop", "stop", "look", "ok"]


def test_the_shape_of_the_log_is_within_its_doubt_of_most_strips() -> None:
    """Cleaners of usual labels, floors 0.2 to 0.9 below the start, read at 10 to 40 degC."""
    dice = np.random.default_rng(6)
    names = ("naoh", "carbonate", "silicate", "edta")
    floors, tops = [], []
    for _ in range(300):
        shares = (float(dice.uniform(*span)) for span in ((0.5, 30), (5, 30), (1, 8), (2, 20)))
        case = dict(zip(names, shares, strict=True)) | {"strength": float(dice.uniform(8, 24))}
        made = Wash.by_label(case | {"wash_temp": float(dice.uniform(28, 42))})
        floor = made.start - float(dice.uniform(0.2, 0.9))
        for temp in (10.0, 15.0, 20.0, 30.0, 35.0, 40.0):
            floors.append(abs(lift(made, floor, temp) - standing.floor_shift_pH(temp)))
            tops.append(abs(lift(made, made.start, temp) - standing.ceiling_shift_pH(temp)))
    # found when written: floor 0.24, median 0.038; start 0.022, median 0.0031
    assert np.quantile(floors, 0.95) <= 0.1  # 0.077; the rest are floors of nearly spent buffers
    assert max(tops) <= 0.03


def lift(made: Wash, pH: float, temp: float) -> float:
    """Return how much higher than at 25 degC a solution of a pH reads."""
    curve = made.find_strip(pH, made.temp)
    return strip.read_strip_pH(temp, *curve) - strip.read_strip_pH(25.0, *curve)
