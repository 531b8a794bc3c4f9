"""Top-up against the solver, closed forms and hand figures."""

import pytest

from builder.reference import ph, topup
from builder.reference.equilibrium import activity_coefficient_n, log_kw_n, solve_pH


def test_topped_up_wash_is_back_at_its_start_pH() -> None:
    alkali, totals = 0.0415, (0.002, 0.009, 0.0005)
    start = ph.wash_start_pH(alkali, *totals, 45.0)
    left = ph.end_alkali_eqpL(alkali, *totals, 11.3, 40.0)
    share = topup.topup_share_frac(alkali, *totals, left, start, 45.0)
    carbonate, silicate, edta = ((1 + share) * total for total in totals)
    sodium, present = (1 + share) * alkali, left + share * alkali
    again = solve_pH(present, carbonate, silicate, edta, sodium, 45.0)
    assert share > 0
    assert again == pytest.approx(start, abs=1e-11)
    assert topup.topup_cleaner_kg(share, 4.0) == pytest.approx(4.0 * share)


def test_topup_of_plain_caustic_agrees_with_its_closed_form() -> None:
    # without weak acids the ionic strength is all of the sodium, and OH = Kw / (H g)
    start = ph.wash_start_pH(0.02, 0.0, 0.0, 0.0, 40.0)
    share = topup.topup_share_frac(0.02, 0.0, 0.0, 0.0, 0.015, start, 40.0)
    g = activity_coefficient_n((1 + share) * 0.02 + 10**-start, 40.0)
    needed = (10 ** (log_kw_n(40.0) + start) - 10**-start) / g
    assert share == pytest.approx((needed - 0.015) / 0.02, rel=1e-8)
    assert 0.25 < share < 0.28  # the alkali used, and a little for the spent salt


def test_no_topup_is_due_where_the_end_is_above_the_start() -> None:
    start = ph.wash_start_pH(0.02, 0.002, 0.0, 0.0, 40.0)
    assert topup.topup_share_frac(0.02, 0.002, 0.0, 0.0, 0.021, start, 40.0) == 0.0


def test_a_start_pH_out_of_reach_has_no_topup() -> None:
    with pytest.raises(ValueError, match=r"no share of 0 to 20 brings the pH to 14\.5"):
        topup.topup_share_frac(0.02, 0.002, 0.0, 0.0, 0.015, 14.5, 40.0)


def test_a_wash_as_strong_as_the_ceiling_allows_stands_at_it() -> None:
    alkali, totals = 0.0415, (0.002, 0.009, 0.0005)
    start = ph.wash_start_pH(alkali, *totals, 38.0)
    for above in (0.1, -0.1):
        times = topup.ceiling_strength_n(alkali, *totals, start + above, 38.0)
        grown = [times * total for total in totals]
        again = solve_pH(times * alkali, *grown, times * alkali, 38.0)
        assert again == pytest.approx(start + above, abs=1e-11)
        assert (times > 1.0) == (above > 0.0)


def test_a_buffer_never_reaches_a_ceiling_beyond_it() -> None:
    with pytest.raises(ValueError, match="no share"):
        topup.ceiling_strength_n(0.02, 0.01, 0.0, 0.0, 13.0, 38.0)


@pytest.mark.parametrize(
    ("kg", "shown"),
    [(0.0, 0.0), (0.501, 0.55), (0.55, 0.55), (0.951, 1.0), (1.0, 1.0), (1.01, 1.1), (1.7, 1.7)],
)
def test_a_top_up_is_weighed_rounded_up(kg: float, shown: float) -> None:
    assert topup.topup_shown_kg(kg) == pytest.approx(shown, rel=1e-14)


def test_a_top_up_reaches_two_uncertainties_to_either_side() -> None:
    assert topup.topup_from_kg(1.7, 0.15) == pytest.approx(1.4)
    assert topup.topup_to_kg(1.7, 0.15) == pytest.approx(2.0)
    assert topup.topup_from_kg(0.2, 0.15) == 0.0


def test_beyond_seventy_per_cent_a_fresh_wash_is_the_better_way() -> None:
    assert [topup.topup_ok(share) for share in (0.7, 0.701)] == ["ok", "look"]
