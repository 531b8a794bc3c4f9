"""Typical water outside the elements against geometry; what was typed goes before it."""

import math
from collections.abc import Callable

import pytest

from builder.reference import typical

MM_PER_IN = 25.4  # NIST SP 811, exact
BORES_IN = {"2.5x40": 2.5, "4x40": 4.0, "8x40": 8.0}  # a vessel is about as wide as its elements
SPARE_MM = 60.0, 250.0  # length of a vessel beyond its elements, from memory
LOOKUPS = (
    typical.typical_ends_L,
    typical.typical_ends_u_L,
    typical.typical_housings_L,
    typical.typical_pumps_L,
)
CHOICES = (typical.ends_each_L, typical.housings_L, typical.pumps_water_L)


def spare_L(size: str) -> list[float]:
    """Return least and most water in the spare length of one vessel."""
    bore_mm = BORES_IN[size] * MM_PER_IN
    return [math.pi / 4 * bore_mm**2 * length_mm / 1e6 for length_mm in SPARE_MM]


@pytest.mark.parametrize("size", BORES_IN)
def test_typical_ends_fill_the_middle_of_the_spare_length(size: str) -> None:
    assert typical.typical_ends_L(size) == pytest.approx(sum(spare_L(size)) / 2, rel=0.05)


@pytest.mark.parametrize("size", BORES_IN)
def test_uncertainty_of_typical_ends_is_that_of_an_even_spread(size: str) -> None:
    least, most = spare_L(size)
    variance = (most - least) ** 2 / 12  # JCGM 100:2008, 4.3.7
    assert typical.typical_ends_u_L(size) == pytest.approx(math.sqrt(variance), rel=0.03)


@pytest.mark.parametrize(
    ("size", "housings_L", "pumps_L"), [("2.5x40", 1.5, 0.5), ("4x40", 3, 1), ("8x40", 6, 2.5)]
)
def test_housings_and_pumps_are_as_defined(size: str, housings_L: float, pumps_L: float) -> None:
    assert typical.typical_housings_L(size) == housings_L
    assert typical.typical_pumps_L(size) == pumps_L


@pytest.mark.parametrize("lookup", LOOKUPS)
def test_nothing_is_typical_of_another_size(lookup: Callable[[str], float]) -> None:
    with pytest.raises(ValueError, match="size 'other'"):
        lookup("other")


@pytest.mark.parametrize("choose", CHOICES)
@pytest.mark.parametrize("typed_L", [0.0, 2.0])
def test_typed_water_goes_before_typical_even_where_it_is_0(
    choose: Callable[..., float], typed_L: float
) -> None:
    assert choose(typed_L, 1.2) == typed_L
    assert choose(typed_L) == typed_L


@pytest.mark.parametrize("choose", CHOICES)
def test_blank_water_is_typical_or_unknown(choose: Callable[..., float]) -> None:
    assert choose(None, 1.2) == 1.2
    with pytest.raises(ValueError, match="neither"):
        choose()


@pytest.mark.parametrize("typed_L", [0.0, 2.0])
def test_typed_ends_bring_their_own_uncertainty(typed_L: float) -> None:
    assert typical.ends_each_u_L(0.3, typed_L, 0.44) == 0.3
    assert typical.ends_each_u_L(0.3, typed_L) == 0.3
    assert typical.ends_each_u_L(0.0, typed_L, 0.44) == 0.0


def test_blank_ends_are_as_uncertain_as_typical_ones_or_unknown() -> None:
    assert typical.ends_each_u_L(0.3, None, 0.44) == 0.44
    with pytest.raises(ValueError, match="neither"):
        typical.ends_each_u_L(0.3)


@pytest.mark.parametrize("stated_pct", [0.0, 20.0, 80.0])
def test_typed_housings_and_pumps_keep_the_stated_doubt(stated_pct: float) -> None:
    assert typical.elsewhere_doubt_pct(stated_pct, 0.0, 0.0) == stated_pct


@pytest.mark.parametrize("typed", [(None, None), (6.0, None), (None, 2.5), (0.0, None)])
@pytest.mark.parametrize(("stated_pct", "doubt_pct"), [(20.0, 50.0), (80.0, 80.0)])
def test_one_guess_elsewhere_is_doubted_by_half_at_least(
    typed: tuple[float | None, float | None], stated_pct: float, doubt_pct: float
) -> None:
    assert typical.elsewhere_doubt_pct(stated_pct, *typed) == doubt_pct
