"""Limits of a data sheet, by temperature, against a worked table and hand figures."""

import pytest

from builder.reference import limits, strip
from tests.reference.washes import Wash

PAIRS = (25.0, 12.6, 35.0, 12.0, 45.0, 11.6)
LABEL = {"naoh": 4.0, "carbonate": 12.0, "silicate": 5.0, "edta": 7.0, "strength": 16.38}
READING = {"own_pH": 12.35, "own_temp": 20.0}
U_PH = 0.069


@pytest.mark.parametrize(
    ("temp", "means", "ceiling", "compared", "verdict", "temp_verdict"),
    [  # worked for this project: composition as above, highest 45 degC, band 2 K
        (38.0, "at_wash", 11.6, 11.780457, "stop", "ok"),
        (38.0, "at_25", 11.6, 12.181091, "stop", "ok"),
        (38.0, "unknown", 11.6, 12.181091, "stop", "ok"),
        (35.0, "at_wash", 12.0, 11.868221, "look", "ok"),
        (20.0, "unknown", 12.6, 12.350000, "ok", "ok"),
        (44.0, "at_wash", 11.6, 11.612868, "stop", "stop"),
    ],
)
def test_a_ceiling_by_temperature_is_met(
    temp: float, means: str, ceiling: float, compared: float, verdict: str, temp_verdict: str
) -> None:
    made = Wash.by_reading({**LABEL, **READING, "wash_temp": temp})
    at_25 = strip.at_25_pH(*made.find_strip(made.start, temp))
    pH = limits.ceiling_start_pH(means, made.start, at_25)
    margin = limits.ceiling_margin_pH(limits.ceiling_pH(temp, *PAIRS), pH)
    exact = pH == made.start
    assert pH == pytest.approx(compared, abs=6e-7 if exact else 0.01)
    assert limits.ceiling_temp_degC(pH, made.start, temp) == (temp if exact else 25.0)
    assert margin == pytest.approx(ceiling - compared, abs=6e-7 if exact else 0.01)
    assert limits.ceiling_ok(temp, limits.limit_most_degC(*PAIRS), U_PH, margin) == verdict
    most = limits.temp_most_degC(45.0, limits.limit_most_degC(*PAIRS))
    assert limits.temp_ok(temp, 2.0, most) == temp_verdict


def test_a_wash_hotter_than_the_data_sheet_stops_without_a_ceiling() -> None:
    assert limits.ceiling_ok(46.0, 45.0, U_PH, None) == "stop"
    assert limits.temp_ok(46.0, 2.0, 45.0) == "stop"
    with pytest.raises(ValueError, match="empty"):
        limits.ceiling_pH(46.0, *PAIRS)
    with pytest.raises(ValueError, match="no margin"):
        limits.ceiling_ok(45.0, 45.0, U_PH, None)


def test_a_limit_reaches_up_to_its_temperature_and_no_further() -> None:
    found = [limits.ceiling_pH(temp, *PAIRS) for temp in (5.0, 25.0, 25.001, 35.0, 35.1)]
    assert found == [12.6, 12.6, 12.0, 12.0, 11.6]
    assert [limits.limit_used_degC(temp, *PAIRS) for temp in (5.0, 26.0, 45.0)] == [25, 35, 45]
    # a pair without its pH does not count; of two with one temperature the first one does
    assert limits.ceiling_pH(20.0, 25.0, None, 35.0, 12.0, 35.0, 11.0) == 12.0
    assert limits.limit_most_degC(25.0, 12.6, 50.0, None, 35.0, 12.0) == 35.0


def test_the_lower_limit_of_temperature_counts() -> None:
    assert [limits.temp_most_degC(40.0, 45.0), limits.temp_most_degC(None, 45.0)] == [40.0, 45.0]
    assert limits.temp_most_degC(50.0, 45.0) == 45.0


def test_a_wash_below_twenty_degrees_cleans_little() -> None:
    assert [limits.temp_ok(temp, 2.0, 45.0) for temp in (19.9, 20.0, 43.0)] == ["look", "ok", "ok"]
    assert limits.temp_ok(0.1 * 3, 0.0, 0.3) == "look"


@pytest.mark.parametrize(
    ("pairs", "verdict"),
    [
        (PAIRS, "ok"),
        ((25.0, 12.0), "ok"),
        ((25.0, 12.0, 35.0, 12.0), "ok"),
        ((35.0, 12.0, 25.0, 12.6), "look"),
        ((25.0, 12.0, 25.0, 11.0), "look"),
        ((25.0, 12.0, 35.0, 12.6), "look"),
        ((25.0, 12.6, None, None, 45.0, 11.6), "look"),
        ((None, None, 25.0, 12.6), "look"),
    ],
)
def test_limits_get_hotter_and_not_higher(pairs: tuple[float, ...], verdict: str) -> None:
    assert limits.pairs_ok(*pairs) == verdict
