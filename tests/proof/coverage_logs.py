"""Logs that hardly come by chance: rows with one entry, ties, trends, letters for numbers."""

from collections.abc import Iterator
from dataclasses import replace

from workbook.cases import Case, Row

DAY = 46450.0
SINGLE: tuple[Row, ...] = (
    {"day_d": DAY},
    {"event": "run"},
    {"hours_h": 3.0},
    {"sap_L": 900.0},
    {"flow_Lph": 1200.0},
    {"rinse_L": 400.0},
    {"rinse_min": 30.0},
    {"rinse_Lpmin": 30.0},
    {"begin_pH": 11.5},
    {"permeate_brix": 0.5},
    {"day_owed_L": 700.0},
    {"note": "frost"},
)
ZEROS: tuple[Row, ...] = ({"day_d": DAY, "hours_h": 0.0, "sap_L": 0.0, "product_kg": 0.0},)
WASH: Row = {
    "day_d": DAY,
    "event": "alkaline",
    "begin_pH": 11.6,
    "finish_pH": 11.3,
    "rinse_L": 99999.0,
}
ACID: Row = {"day_d": DAY + 1, "event": "acid", "rinse_L": 1000.0}
FIRST: Row = {"day_d": DAY + 2, "event": "first", "rinse_L": 1000.0}
KEPT: tuple[Row, ...] = (
    {"day_floor_pH": 11.0},
    {"day_ceiling_pH": 12.0},
    {"day_floor_pH": 11.0, "day_ceiling_pH": 12.0},
    {"day_holdup_L": 90.0},
    {"day_factor_n": 40.0},
    {"day_holdup_L": 90.0, "day_factor_n": 40.0},
)
MACHINES: dict[str, Row] = {  # on which rinse rules, or volumes, go apart
    "by elements": {"rinse_rule": "elements"},
    "by holdup": {"rinse_rule": "holdup", "rinse_factor_n": 100.0},
    "by nothing": {"element_diameter_mm": 400.0},
}
RUN: Row = {
    "event": "run",
    "hours_h": 5.0,
    "flow_Lph": 1400.0,
    "feed_bar": 17.0,
    "out_bar": 16.0,
    "back_bar": 0.3,
    "water_degC": 9.0,
}


def list_logs(rows: int) -> Iterator[Case]:
    """Yield logs of at most so many rows."""
    yield from cut("single entries", SINGLE, rows)
    yield from cut("nothing used", ZEROS, rows)
    yield from cut("a mass alone", ({"product_kg": 3.0},), rows)
    for base in (WASH, ACID, FIRST):
        for owed in ({}, {"day_owed_L": 900.0}):
            name = f"{base['event']} with values kept, owed {bool(owed)}"
            yield from cut(name, tuple({**base, **owed, **kept} for kept in KEPT), rows)
    owing = tuple({**base, **kept} for base in (WASH, ACID, FIRST) for kept in ({}, KEPT[4]))
    for machine, given in MACHINES.items():
        yield from (replace(case, given=given) for case in cut(f"{machine} owes", owing, rows))
    yield from cut("margins", tuple(list_margins()), rows)
    yield from cut("short", tuple(list_short()), rows)
    yield from cut("rinsed with nothing", ({**ACID, "rinse_L": 0.0},), rows)
    clock: Row = {**ACID, "rinse_L": None, "rinse_Lpmin": 30.0, "rinse_min": 20.0}
    yield from cut("rinsed by the clock", (clock,), rows)
    yield from cut("lacking", tuple(list_lacking()), rows)
    for name, log in list_trends().items():
        yield from cut(f"trend {name}", log, rows)
    for reading in ((0.1, 0.2, 0.05, 0.15, 0.25, 0.3),):
        elements: list[Row] = [{"reading_brix": number} for number in reading]
        yield Case("elements", rows={"elements": elements})
        low = {"sugar_resolution_brix": 0.2, "sugar_alarm_brix": 0.1}
        yield Case("elements, alarm below what can be read", {**low}, {"elements": elements})


def cut(name: str, log: tuple[Row, ...], rows: int) -> Iterator[Case]:
    """Yield a long log in pieces that fit."""
    for first in range(0, len(log), rows):
        yield Case(f"{name} from row {first + 1}", rows={"log": list(log[first : first + rows])})


def list_margins() -> Iterator[Row]:
    """Yield washes at floor and ceiling, and the same readings on days without a wash."""
    for event in ("alkaline", "acid", "run"):
        for begin, finish in ((11.9, 11.1), (11.95, 11.05), (11.85, 11.15), (12.5, 9.0)):
            yield {**WASH, "event": event, "begin_pH": begin, "finish_pH": finish}
    yield {"day_d": DAY, "event": "run", "permeate_brix": 0.1}
    yield {"day_d": DAY, "event": "run", "permeate_brix": 0.11}
    yield {"day_d": DAY, "permeate_brix": 0.5}


def list_short() -> Iterator[Row]:
    """Yield rinses that lack nothing, or a little, or that nobody owes."""
    for event in ("alkaline", "acid", "first", "storage", "rinse"):
        # A share of a thousand millionth may be missing: half of it, and half as much again.
        for lack in (0.0, 2.5e-7, 7.5e-7, 0.5, 1.5, 3.0, -5.0):
            yield {**WASH, "event": event, "day_owed_L": 500.0, "rinse_L": 500.0 - lack}
    yield {**ACID, "rinse_L": 500.0 * (1 - 1e-9), "day_owed_L": 500.0}
    yield {**ACID, "rinse_L": None, "rinse_Lpmin": 30.0, "rinse_min": 20.0, "day_owed_L": 600.0}
    yield {**ACID, "rinse_L": None, "rinse_Lpmin": 30.0, "day_owed_L": 600.0}


def list_lacking() -> Iterator[Row]:
    """Yield washes and rinses without one of the entries that they need."""
    for base in (WASH, ACID, FIRST):
        for name in base:
            yield {**base, name: None}
    yield {**WASH, "begin_pH": None, "finish_pH": None}


def list_trends() -> dict[str, tuple[Row, ...]]:
    """Return flows that fall, rise, stay, come on one day, or are too few for a line."""

    def run(day: float, flow: float, **other: float | None) -> Row:
        return {**RUN, "day_d": DAY + day, "flow_Lph": flow, **other}

    acid: Row = {**ACID, "day_d": DAY + 3}
    return {
        "falls": (run(0, 1500), run(2, 1480), run(5, 1425), run(6, 1430)),
        "rises": (run(0, 1400), run(2, 1420), run(5, 1490), run(6, 1480)),
        "stays": (run(0, 1400), run(2, 1400), run(5, 1400)),
        "hardly falls": tuple(run(day, 1400 * (1 - 5e-10 * day)) for day in range(4)),
        "falls steeply": (run(0, 1500), run(1, 1300), run(2, 1000)),
        "falls slowly": (run(0, 1500), run(40, 1498), run(90, 1496)),
        "rises slowly": (run(0, 1500), run(40, 1501), run(90, 1506)),
        "rises steeply": (run(0, 1000), run(1, 1300), run(2, 1500)),
        "on one day": (run(4, 1400), run(4, 1300), run(4, 1200), run(4, 1350)),
        "on two days": (run(4, 1400), run(4, 1300), run(5, 1330)),
        "of one": (run(0, 1500),),
        "of two": (run(0, 1500), run(3, 1400)),
        "of four": (run(0, 1500), run(1, 1490), run(2, 1470), run(3, 1455)),
        "after a wash": (run(0, 900), run(3, 950), acid, run(4, 1500), run(5, 1450), run(7, 1400)),
        "between": (acid, run(1, 1500), run(4, 1480), run(3, 1470), run(6, 1450), run(8, 1430)),
        "with gaps": (
            run(0, 1500),
            run(2, 1480, feed_bar=None),
            run(5, 1425),
            run(6, 1430, water_degC=None),
            run(8, 1400),
        ),
        "without drive": (
            run(0, 1500, back_bar=16.5),
            run(2, 1480, back_bar=16.6),
            run(5, 1425, feed_bar=10.0, out_bar=10.0, back_bar=10.0),
        ),
        "wash only": (acid, {**acid, "day_d": DAY + 9}),
    }
