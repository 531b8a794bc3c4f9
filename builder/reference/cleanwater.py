"""The clean-water tests of the log, brought to the reference of the machine.

Where no source is named, the definition is this project's own.
"""

from dataclasses import dataclass

from builder.reference.comparison import TINY
from builder.reference.entry import Row
from builder.reference.permeate import (
    corrected_flow_Lph,
    flow_pct,
    ndp_bar,
    percent_n,
    two_branch_n,
    viscosity_n,
)
from builder.reference.rinsing import TEST

DROP_SHARE, GAUGE_STEP_BAR = 1.15, 0.2  # both must be reached (this project's judgement)
FORMS = {"two_branch": two_branch_n, "percent": percent_n, "viscosity": viscosity_n}
NEEDED = ("flow_Lph", "feed_bar", "out_bar", "water_degC")


@dataclass(frozen=True, slots=True)
class Baseline:
    """The reference of the machine; what is not known is None."""

    flow_Lph: float | None
    feed_bar: float | None
    out_bar: float | None
    back_bar: float | None
    temp_degC: float | None
    correction: str | None


@dataclass(frozen=True, slots=True)
class Tested:
    """A usable test: its flow in per cent of the reference, None without one, and its drop."""

    pct: float | None
    drop_bar: float


def has_wrong_pressures(row: Row) -> bool:
    """Return whether a test's feed is below its concentrate, or nothing drives the permeate."""
    feed, out = row.number("feed_bar"), row.number("out_bar")
    if row.event != TEST or feed is None or out is None:
        return False
    return feed < out - TINY or (feed + out) / 2.0 - (row.number("back_bar") or 0.0) <= TINY


def read_test(row: Row, baseline: Baseline) -> Tested | None:
    """Return the test of a row, None if it is none or cannot be used.

    100 Q TCF_ref NDP_ref/(TCF NDP Q_ref): scheme of ASTM D4516 (second hand).
    """
    flow, feed, out, temp = (row.number(name) for name in NEEDED)
    if flow is None or feed is None or out is None or temp is None:
        return None
    if row.event != TEST or has_wrong_pressures(row):
        return None
    drive_bar = ndp_bar(feed, out, row.number("back_bar") or 0.0)
    return Tested(_compare(flow, drive_bar, temp, baseline), feed - out)


def _compare(flow: float, drive_bar: float, temp_degC: float, base: Baseline) -> float | None:
    """Return the flow in per cent of the reference, None where the reference is not known."""
    usual, usual_degC, form = base.flow_Lph, base.temp_degC, FORMS.get(base.correction or "")
    feed, out, back = base.feed_bar, base.out_bar, base.back_bar
    if not usual or usual_degC is None or form is None or None in (feed, out, back):
        return None
    try:
        base_bar = ndp_bar(feed or 0.0, out or 0.0, back or 0.0)
    except ValueError:
        return None
    corrected = corrected_flow_Lph(flow, form(temp_degC), form(usual_degC), drive_bar, base_bar)
    return flow_pct(corrected, usual)


def is_drop_high(tested: Tested, baseline: Baseline) -> bool:
    """Return whether the drop is 15 % and a gauge's step above that of the reference."""
    if baseline.feed_bar is None or baseline.out_bar is None:
        return False
    usual = baseline.feed_bar - baseline.out_bar
    least = max(DROP_SHARE * usual, usual + GAUGE_STEP_BAR)
    return tested.drop_bar >= least - TINY
