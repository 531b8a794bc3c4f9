"""A made-up season of sixty days, and the machine that it is judged by today."""

import random

from builder.reference.permeate import viscosity_n

Row = dict[str, object]

FIRST_DAY_D = 46451  # serial number of 2027-03-05
SEED = 20270305
# what the other sheets hold today
TODAY: dict[str, float | str] = {
    "season_start": "stored",
    "baseline_flow_Lph": 1500.0,
    "baseline_feed_bar": 17.0,
    "baseline_concentrate_bar": 16.0,
    "baseline_permeate_bar": 0.3,
    "baseline_temp_degC": 9.0,
    "flow_correction": "viscosity",
    "flow_wash_pct": 90.0,
    "flow_stop_pct": 70.0,
    "sugar_resolution_brix": 0.1,
}
# lines in force: one of each system of units
LINES: list[Row] = [
    {
        "line_date": FIRST_DAY_D + 20.0,
        "line_rinse_L": 1060.0,
        "line_first_L": 400.0,
        "line_holdup_L": 26.0,
        "line_factor_n": 40.0,
        "line_floor_pH": 11.4,
        "line_ceiling_pH": 12.4,
        "line_volume": "gal_us",
        "line_pressure": "psi",
        "line_temperature": "degF",
        "line_mass": "lb",
    },
    {
        "line_date": FIRST_DAY_D + 30.0,
        "line_rinse_L": 4000.0,
        "line_first_L": 1500.0,
        "line_floor_pH": 11.5,
        "line_ceiling_pH": 12.3,
        "line_volume": "L",
        "line_pressure": "bar",
        "line_temperature": "degC",
        "line_mass": "kg",
    },
]
# the morning wash of each day: what is special about it
WASHES: dict[int, Row] = {
    3: {},
    7: {"rinse_L": None, "rinse_Lpmin": 40.0, "rinse_min": 110.0},
    11: {"finish_pH": 11.0, "note": "very brown"},
    16: {"rinse_L": 3200.0, "note": "tank ran dry"},
    31: {"begin_pH": 12.6},
    37: {"rinse_L": None, "rinse_Lpmin": 38.0, "rinse_min": 90.0},
    41: {"finish_pH": None, "finish_degC": None, "note": "meter would not settle"},
    45: {"rinse_L": "plenty"},
    49: {"rinse_L": None, "initials": None},
    53: {"mended": "rinsed again the same evening"},
}
# further rows of a day, before its run
OTHERS: dict[int, Row] = {
    0: {"event": "first", "rinse_L": 3000.0, "note": "new elements"},
    22: {"event": "alkaline", "product_kg": 9.9, "rinse_L": 1060.0},  # in pounds and gallons
    23: {"event": "acid", "product": "citric acid", "begin_pH": 2.6, "rinse_L": 1100.0},
    33: {"event": "replacement", "rinse_L": 1500.0},
    59: {"event": "storage", "product": "sodium metabisulphite", "product_kg": 0.03},
}
IDLE = (6, 14, 15, 35, 36, 59)  # frost or warmth: no sap
RUNS: dict[int, Row] = {  # runs with gaps or with sugar
    18: {"permeate_brix": 0.1, "water_degC": 8.0},
    40: {"hours_h": None},
    44: {"event": None},
    50: {"date": None},
    56: {"permeate_brix": 0.3, "note": "one O-ring"},
}
BLANK_AFTER, NOTE_AFTER = 12, 33  # days after which a row is empty, or holds a note only
LINES_OF_GALLONS = range(20, 30)


def make_season() -> list[Row]:
    """Return the typed columns of every row, in the order of writing."""
    noise = random.Random(SEED)  # noqa: S311 - nothing secret hangs on it
    rows: list[Row] = []
    for day in range(60):
        rows += _list_day(day, noise)
        if day == BLANK_AFTER:
            rows.append({})
        if day == NOTE_AFTER:
            rows.append({"note": "order filters"})
    return rows


def _list_day(day: int, noise: random.Random) -> list[Row]:
    rows: list[Row] = []
    if day in WASHES:
        rows.append({**_wash(noise), **WASHES[day]})
    if day in OTHERS:
        rows.append({"initials": "ab", "water_kind": "permeate", **OTHERS[day]})
    if day not in IDLE:
        rows.append({**_run(day, noise), **RUNS.get(day, {})})
    if day % 3 == 1 and day not in LINES_OF_GALLONS:
        rows.append(_test(day, noise))
    if day % 9 == 5:
        rows.append({"event": "rinse", "rinse_L": 400.0, "water_kind": "permeate"})
    return [{"date": float(FIRST_DAY_D + day), **row} for row in rows]


def _wash(noise: random.Random) -> Row:
    return {
        "event": "alkaline",
        "product": "alkaline cleaner",
        "product_kg": 4.5,
        "begin_pH": round(12.0 + 0.2 * noise.random(), 1),
        "begin_degC": round(38 + 4 * noise.random(), 0),
        "finish_pH": round(11.6 + 0.3 * noise.random(), 1),
        "finish_degC": round(32 + 4 * noise.random(), 0),
        "rinse_L": float(round(4360 + 100 * noise.random(), -1)),
        "water_kind": "permeate",
        "who": "own",
        "initials": "ab",
    }


def _run(day: int, noise: random.Random) -> Row:
    brix = round(2.4 - 0.012 * day + 0.3 * noise.random(), 1)
    return {
        "event": "run",
        "hours_h": round(3 + 6 * noise.random(), 1),
        "sap_L": float(round(9000 + 2000 * noise.random(), -2)),
        "sap_brix": brix,
        "concentrate_brix": round(4 * brix, 1),
        "permeate_brix": 0.0,
        "initials": "ab",
    }


def _test(day: int, noise: random.Random) -> Row:
    """Return a clean-water test whose corrected flow falls by 1.5 % a day since the wash."""
    since = day - max((wash for wash in WASHES if wash <= day), default=0)
    feed = round(16.5 + noise.random(), 1)
    water = round(3 + 0.09 * day + 2 * noise.random(), 1)
    clean = 1500 * (feed - 0.8) / 16.2 * viscosity_n(water) / viscosity_n(9.0)
    return {
        "event": "test",
        "flow_Lph": float(round(clean * (0.99 - 0.015 * since + 0.012 * noise.random()))),
        "feed_bar": feed,
        "out_bar": round(feed - 1.0, 1),
        "back_bar": 0.3,
        "water_degC": water,
    }
