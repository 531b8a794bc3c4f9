"""A made-up season of sixty days, and the machine that it is judged by today."""

import random

from builder.reference.permeate import viscosity_n

Row = dict[str, object]

FIRST_DAY_D = 46451  # serial number of 2027-03-05
SEED = 20270305
_TYPED = """day_d hours_h sap_L sap_brix concentrate_brix flow_Lph feed_bar out_bar back_bar
    water_degC event product product_kg begin_pH begin_degC finish_pH finish_degC rinse_L
    rinse_Lpmin rinse_min permeate_brix water_kind who letter initials note day_holdup_L
    day_factor_n day_owed_L day_floor_pH day_ceiling_pH"""
COLUMNS = tuple(_TYPED.split())
# what the other sheets hold today
TODAY: dict[str, float | str] = {
    "baseline_flow_Lph": 1500.0,
    "baseline_ndp_bar": 16.2,  # 17 and 16 bar, permeate 0.3 bar
    "baseline_tcf_n": viscosity_n(9.0),
    "flow_correction": "viscosity",
    "flow_wash_pct": 88.0,
    "floor_pH": 10.5,
    "ceiling_pH": 11.5,
    "rinse_owed_L": 4360.0,
    "first_rinse_owed_L": 2900.0,
    "holdup_adopted_L": 109.0,
    "rinse_factor_n": 40.0,
    "sugar_resolution_brix": 0.1,
}
# the morning wash of each day: what is special about it
WASHES: dict[int, Row] = {
    3: {},
    7: {"rinse_L": None, "rinse_Lpmin": 40.0, "rinse_min": 110.0},
    11: {"finish_pH": 10.4, "note": "very brown"},
    16: {"rinse_L": 3200.0, "note": "tank ran dry"},
    20: {"day_holdup_L": 105.0, "day_factor_n": 40.0, "rinse_L": 4200.0},
    24: {"begin_pH": 11.7, "day_floor_pH": 10.5, "day_ceiling_pH": 11.5},
    28: {"day_owed_L": 4000.0, "rinse_L": 4000.0, "day_floor_pH": 10.3, "day_ceiling_pH": 11.6},
    32: {"rinse_L": None, "rinse_Lpmin": 38.0, "rinse_min": 90.0},
    37: {"finish_pH": 10.2, "rinse_L": 4000.0, "day_floor_pH": 10.3},
    41: {"finish_pH": None, "finish_degC": None, "note": "meter would not settle"},
    45: {"day_holdup_L": 112.0},
    49: {"rinse_L": None, "initials": None},
    53: {"day_owed_L": 4360.0, "day_floor_pH": 10.5, "day_ceiling_pH": 11.5, "letter": "filed"},
}
# further rows of a day, before its run
OTHERS: dict[int, Row] = {
    0: {"event": "first", "rinse_L": 3000.0, "note": "new elements"},
    29: {
        "event": "acid",
        "product": "citric acid",
        "product_kg": 4.0,
        "begin_pH": 2.6,
        "begin_degC": 30.0,
        "finish_pH": 3.1,
        "finish_degC": 26.0,
        "rinse_L": 4400.0,
        "who": "firm",
        "letter": "filed",
    },
    30: {"event": "first", "rinse_Lpmin": 40.0, "rinse_min": 70.0, "day_factor_n": 40.0},
    59: {"event": "storage", "product": "sodium metabisulphite", "product_kg": 0.03},
}
IDLE = (6, 14, 15, 35, 36, 59)  # frost or warmth: no sap
RUNS: dict[int, Row] = {  # runs with gaps or with sugar
    2: {"back_bar": None},
    9: {"flow_Lph": None, "note": "flow meter frozen"},
    18: {"permeate_brix": 0.1},
    26: {"permeate_brix": 0.2},
    40: {"water_degC": None},
    44: {"event": None},
    50: {"day_d": None},
    56: {"permeate_brix": 0.3, "note": "one O-ring"},
}
BLANK_AFTER, NOTE_AFTER = 12, 33  # days after which a row is empty, or holds a note only


def make_season() -> list[Row]:
    """Return the typed columns of every row, in the order of writing."""
    noise = random.Random(SEED)  # noqa: S311 - nothing secret hangs on it
    rows: list[Row] = []
    for day in range(60):
        if day in WASHES:
            rows.append(_row(day, **{**_wash(noise), **WASHES[day]}))
        if day in OTHERS:
            rows.append(_row(day, **{"initials": "ab", "water_kind": "permeate", **OTHERS[day]}))
        if day not in IDLE:
            rows.append(_row(day, **{**_run(day, noise), **RUNS.get(day, {})}))
        if day % 9 == 5 and day not in IDLE:
            rows.append(_row(day, event="rinse", rinse_L=400.0, water_kind="permeate"))
        if day == BLANK_AFTER:
            rows.append(dict.fromkeys(COLUMNS))
        if day == NOTE_AFTER:
            rows.append({**dict.fromkeys(COLUMNS), "note": "order filters"})
    return rows


def _row(day: int, **typed: object) -> Row:
    return {**dict.fromkeys(COLUMNS), "day_d": FIRST_DAY_D + day, **typed}


def _wash(noise: random.Random) -> Row:
    return {
        "event": "alkaline",
        "product": "alkaline cleaner",
        "product_kg": 4.5,
        "begin_pH": round(11.2 + 0.2 * noise.random(), 1),
        "begin_degC": round(38 + 4 * noise.random(), 0),
        "finish_pH": round(10.6 + 0.3 * noise.random(), 1),
        "finish_degC": round(32 + 4 * noise.random(), 0),
        "rinse_L": float(round(4360 + 100 * noise.random(), -1)),
        "water_kind": "permeate",
        "who": "own",
        "initials": "ab",
    }


def _run(day: int, noise: random.Random) -> Row:
    since = day - max((wash for wash in WASHES if wash <= day), default=0)
    hours = round(3 + 6 * noise.random(), 1)
    feed = round(16.5 + noise.random(), 1)
    water = round(3 + 0.09 * day + 2 * noise.random(), 1)
    clean = 1500 * (feed - 0.8) / 16.2 * 1.027 ** (water - 9)
    flow = round(clean * (0.99 - 0.025 * since + 0.012 * noise.random()))
    brix = round(2.4 - 0.012 * day + 0.3 * noise.random(), 1)
    return {
        "event": "run",
        "hours_h": hours,
        "sap_L": float(round(hours * flow * 1.33, -2)),
        "sap_brix": brix,
        "concentrate_brix": round(4 * brix, 1),
        "flow_Lph": float(flow),
        "feed_bar": feed,
        "out_bar": round(feed - 1.0, 1),
        "back_bar": 0.3,
        "water_degC": water,
        "permeate_brix": 0.0,
        "initials": "ab",
    }
