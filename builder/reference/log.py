"""The season log, walked row by row from top to bottom.

All are definitions of this project.
"""

from collections.abc import Mapping, Sequence
from typing import Any

from builder.reference.case import Case, Limits
from builder.reference.causes import INCOMPLETE, LOOK, OK, STOP, find_cause, number, rank
from builder.reference.cleanwater import Baseline, read_test
from builder.reference.entry import JUDGED, KEPT, LIMITS, Row, read_rows
from builder.reference.force import Column, Line, Typed
from builder.reference.rinsing import (
    ACID,
    ALKALINE,
    MADE_GOOD,
    REPLACEMENT,
    RUN,
    WASHES,
    Debt,
    Stand,
    Step,
    ask_rinse,
    list_debts,
    walk_rinses,
)
from builder.reference.shape import read_margins
from builder.reference.sugar import CLEAR, Gauge, walk_sugar
from builder.reference.units import choose_units

NEVER = float("inf")  # a limit that is not known is never reached
RANKS = (STOP, INCOMPLETE, LOOK, OK)
SUGAR = number("sugar_alarm", "sugar_stays", "trace", "recheck")
FLOW = number("flow_stop", "flow_wash", "drop_high", "test_on_owing", "temp_gap", "flow_high")
PREFILTER = number("prefilter")
OWES = number("owes")

Values = list[float | str | None]


def rows(
    log_date_list: Typed,
    log_event_list: Typed,
    log_hours_h_list: Typed,
    log_flow_Lph_list: Typed,
    log_feed_bar_list: Typed,
    log_out_bar_list: Typed,
    log_back_bar_list: Typed,
    log_water_degC_list: Typed,
    log_prefilter_bar_list: Typed,
    log_product_list: Typed,
    log_product_kg_list: Typed,
    log_begin_pH_list: Typed,
    log_begin_degC_list: Typed,
    log_finish_pH_list: Typed,
    log_finish_degC_list: Typed,
    log_rinse_L_list: Typed,
    log_rinse_Lpmin_list: Typed,
    log_rinse_min_list: Typed,
    log_permeate_brix_list: Typed,
    log_water_kind_list: Typed,
    log_initials_list: Typed,
    log_mended_list: Typed,
    log_sap_L_list: Typed,
    log_sap_brix_list: Typed,
    log_concentrate_brix_list: Typed,
    log_who_list: Typed,
    log_letter_list: Typed,
    log_note_list: Typed,
    force_line_volume_list: Typed,
    force_line_pressure_list: Typed,
    force_line_temperature_list: Typed,
    force_line_mass_list: Typed,
    held_day_d_list: Column,
    held_rinse_L_list: Column,
    held_first_L_list: Column,
    held_floor_pH_list: Column,
    held_ceiling_pH_list: Column,
    reader_units: str | None = None,
    season_start: str | None = None,
    sugar_instrument: str | None = None,
    flow_correction: str | None = None,
    sugar_zero_brix: float | None = None,
    sugar_resolution_brix: float | None = None,
    sugar_alarm_brix: float | None = None,
    baseline_flow_Lph: float | None = None,
    baseline_feed_bar: float | None = None,
    baseline_concentrate_bar: float | None = None,
    baseline_permeate_bar: float | None = None,
    baseline_temp_degC: float | None = None,
    flow_wash_pct: float | None = None,
    flow_stop_pct: float | None = None,
    approved_alkaline: str | None = None,
    approved_acid: str | None = None,
) -> dict[str, Values]:
    """Return what every row of the log holds, owes and lacks, and its first cause.

    A limit that is blank is not judged; a row that is not begun carries day, line and rinse on.
    """
    given = locals()
    read = read_rows({n: given[f"log_{n}_list"] for n in (*JUDGED, *KEPT)}, read_lines(given))
    steps, stands, debts = follow_rinses(read, held_first_L_list, season_start)
    zero, step = sugar_zero_brix or 0.0, _or_never(sugar_resolution_brix)
    gauge = Gauge(sugar_instrument, zero, step, _or_never(sugar_alarm_brix))
    readings = walk_sugar(read, gauge)
    limits = read_limits(given)
    tests = [read_test(row, limits.baseline) for row in read]
    good = {debt.row for debt in debts if debt.state_n == MADE_GOOD}
    owing = debts[-1].row if debts and stands and stands[-1].left_L > 0.0 else 0
    parts = zip(stands, readings, tests, strict=True)
    cases = [
        Case(read, n, *part, read_margins(read[n]), n + 1 in good, n + 1 == owing, limits)
        for n, part in enumerate(parts)
    ]
    causes = [find_cause(case) if case.row.begun else None for case in cases]
    return {
        **list_used(read),
        **list_rinses(read, stands, debts),
        **list_readings(cases),
        "cause_n": list(causes),
        "bad_column_n": [float(case.column_n) if case.row.begun else 0.0 for case in cases],
        "open_n": list(find_open(cases, causes)),
        **list_states(cases, causes),
    }


def _or_never(limit: float | None) -> float:
    return NEVER if limit is None else limit


def read_lines(given: Mapping[str, Any]) -> list[Line]:
    """Return today's values, then the lines in force, each with its units."""
    kinds = ("volume", "pressure", "temperature", "mass")
    book = given["reader_units"]
    units = [choose_units(book, (None, None, None, None))]
    words = zip(*(given[f"force_line_{kind}_list"] for kind in kinds), strict=True)
    units += [choose_units(book, line) for line in words]
    names = ("day_d", "rinse_L", "first_L", "floor_pH", "ceiling_pH")
    values = (given[f"held_{name}_list"] for name in names)
    return [Line(*line) for line in zip(*values, units, strict=True)]


def read_limits(given: Mapping[str, Any]) -> Limits:
    """Return what rows are compared with."""
    names = ("flow_Lph", "feed_bar", "concentrate_bar", "permeate_bar", "temp_degC")
    flow, feed, out, back, temp = (given[f"baseline_{name}"] for name in names)
    baseline = Baseline(flow, feed, out, back, temp, given["flow_correction"])
    wash, stop = (given[name] or 0.0 for name in ("flow_wash_pct", "flow_stop_pct"))
    approved = {ALKALINE: given["approved_alkaline"], ACID: given["approved_acid"]}
    return Limits(wash, stop, approved, baseline, given["sugar_instrument"])


def follow_rinses(
    read: Sequence[Row], held_first_L_list: Column, season_start: str | None
) -> tuple[list[Step], list[Stand], list[Debt]]:
    """Return the rows as the rinse sees them, what stands in each, and the debts."""
    steps = [
        Step(row.event, ask_rinse(row.event, row.line.rinse_L, row.line.first_L), row.counted_L)
        for row in read
    ]
    line_n = next((row.line_n for row in read if row.begun), 0)
    start_L = find_start(line_n, held_first_L_list, season_start)
    stands = walk_rinses(steps, start_L)
    return steps, stands, list_debts(steps, stands, start_L)


def find_start(line_n: int, held_first_L_list: Column, season_start: str | None) -> float:
    """Return what the season's start owes: 0 if in use and rinsed, else a first rinse of its line.

    The line is that of the first begun row; an empty log has today's.
    """
    return 0.0 if season_start == "rinsed" else held_first_L_list[line_n] or 0.0


def list_used(read: Sequence[Row]) -> dict[str, Values]:
    """Return the cells as they are used: number, None for blank, "x" for not usable."""
    columns: dict[str, Values] = {
        "used_date_d" if name == "date" else f"used_{name}": [row.cells[name] for row in read]
        for name in LIMITS
    }
    columns["event_code"] = [row.cells["event"] for row in read]
    columns["water_code"] = [row.cells["water_kind"] for row in read]
    return columns


def list_rinses(
    read: Sequence[Row], stands: Sequence[Stand], debts: Sequence[Debt]
) -> dict[str, Values]:
    """Return day, line and rinse of every row, and the number of its newest debt."""
    opened = [debt.row for debt in debts]
    return {
        "begun_n": [float(row.begun) for row in read],
        "day_d": [row.day_d for row in read],
        "in_line_n": [float(row.line_n) for row in read],
        "volume_L": [row.volume_L for row in read],
        "counted_L": [row.counted_L for row in read],
        "left_L": [stand.left_L for stand in stands],
        "debt_n": [float(sum(o <= n for o in opened)) for n in range(1, len(read) + 1)],
    }


def list_readings(cases: Sequence[Case]) -> dict[str, Values]:
    """Return margins of pH, sugar and the clean-water test of every row."""
    return {
        "top_margin_pH": [case.margins.top_pH for case in cases],
        "low_margin_pH": [case.margins.low_pH for case in cases],
        "begin_margin_pH": [case.margins.begin_pH for case in cases],
        "sugar_row_brix": [case.reading.brix for case in cases],
        "sugar_class_n": [case.reading.class_n for case in cases],
        "tested_pct": [case.tested.pct if case.tested else None for case in cases],
        "tested_drop_bar": [case.tested.drop_bar if case.tested else None for case in cases],
    }


def list_states(cases: Sequence[Case], causes: Sequence[int | None]) -> dict[str, Values]:
    """Return the rank of every row from 1, whether sap ran on an owing, and sugar seen last."""
    return {
        "rank_n": [float(RANKS.index(rank(cause)) + 1) if cause else 0.0 for cause in causes],
        "breach_n": [float(c.event == RUN and c.stand.left_L > 0.0) for c in cases],
        "sees_n": follow_sugar(cases),
    }


def follow_sugar(cases: Sequence[Case]) -> Values:
    """Return for every row whether sugar was seen last: a new element begins without."""
    seen, flags = 0.0, []
    for case in cases:
        if case.event == REPLACEMENT:
            seen = 0.0
        if case.reading.class_n is not None:
            seen = float(case.reading.class_n > CLEAR)
        flags.append(seen)
    return list(flags)


def find_open(cases: Sequence[Case], causes: Sequence[int | None]) -> list[float]:
    """Return the flag of every row that is still to be looked after.

    Not ok, and closed neither by what was done (but a rinse owed stays), nor by what came later:
    sugar by a clear last reading or a replacement, flow by a test, a wash or a replacement, the
    prefilter by another reading.
    """
    flags = []
    classes = [case.reading.class_n for case in cases if case.reading.class_n is not None]
    for n, cause in enumerate(causes):
        later = cases[n + 1 :]
        closed = cause is None or rank(cause) == OK or _is_mended(cases[n], cause)
        if not closed and cause in SUGAR:
            closed = classes[-1] == CLEAR or any(c.event == REPLACEMENT for c in later)
        if not closed and cause in FLOW:
            closed = any(c.tested or c.event in {*WASHES, REPLACEMENT} for c in later)
        if not closed and cause in PREFILTER:
            closed = any(c.row.number("prefilter_bar") is not None for c in later)
        flags.append(float(not closed))
    return flags


def _is_mended(case: Case, cause: int) -> bool:
    return case.row.word("mended") is not None and cause not in OWES
