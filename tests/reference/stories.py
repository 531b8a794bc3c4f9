"""Seasons told as stories are, played through the reference functions."""

import datetime
import inspect
from collections.abc import Callable

from builder.reference import force, forecast, log, record, season
from builder.reference.entry import JUDGED, KEPT
from builder.reference.units import BOOK

Known = dict[str, object]

ZERO_DAY = datetime.date(1899, 12, 30)
EVENTS = {
    "alkaline wash": "alkaline",
    "acid wash": "acid",
    "first rinse": "first",
    "clean-water test": "test",
}
_HEADINGS = """date event hours flow feed conc perm temp prefilter product mass start_pH start_temp
    end_pH end_temp rinse rinse_flow rinse_time permeate_brix water initials done"""
COLUMNS = dict(zip(_HEADINGS.split(), JUDGED, strict=True))
SIGNED = {"water": "permeate", "initials": "AB"}
SOUND = {
    "run": {"hours": 8},
    "rinse": SIGNED,
    "first": SIGNED,
    "alkaline": SIGNED
    | {"product": "house alkali", "mass": 2.5}
    | {"start_pH": 12.2, "start_temp": 25, "end_pH": 11.8, "end_temp": 25},
    "acid": SIGNED | {"product": "house acid", "mass": 1.5, "start_pH": 2.5},
    "test": {"flow": 1500, "feed": 17, "conc": 16, "perm": 0.3, "temp": 9},
    "storage": {"product": "preservative"},
    "replacement": {"water": "permeate"},
}
MACHINE: Known = {
    "rinse_target_L": 4000.0,
    "first_rinse_target_L": 1500.0,
    "floor_for_log_pH": 11.44,
    "ceiling_for_log_pH": 12.40,
    "sugar_resolution_brix": 0.1,
    "sugar_alarm_brix": 0.3,
    "baseline_flow_Lph": 1500.0,
    "baseline_feed_bar": 17.0,
    "baseline_concentrate_bar": 16.0,
    "baseline_permeate_bar": 0.3,
    "baseline_temp_degC": 9.0,
    "flow_correction": "viscosity",
    "flow_wash_pct": 90.0,
    "flow_stop_pct": 70.0,
    "approved_alkaline": "house alkali",
    "approved_acid": "house acid",
}
LINE = {
    "date": "from",
    "rinse_L": "rinse_owed",
    "first_L": "first_rinse",
    "holdup_L": "hold_up",
    "factor_n": "factor",
    "floor_pH": "floor_25_pH",
    "ceiling_pH": "ceiling_25_pH",
}
UNITS = {"volume": "vol", "pressure": "pressure", "temperature": "temp", "mass": "mass"}
LINES_N, ROWS_N = 8, 240


def type_cell(value: object) -> object:
    if isinstance(value, datetime.date):
        return float((value - ZERO_DAY).days)
    return float(value) if isinstance(value, int) else value


def list_rows(story: Known) -> list[Known]:
    repeat = story.get("repeat", {"times": 1, "step_days": 0})
    rows = []
    for time in range(repeat["times"]):
        step = datetime.timedelta(days=time * repeat["step_days"])
        rows += [
            {**row, "date": row["date"] + step}
            if isinstance(row.get("date"), datetime.date)
            else row
            for row in story["row"]
        ]
    return rows


def type_log(story: Known) -> Known:
    """Return the typed lists of the log, as long as it needs."""
    rows = list_rows(story)
    told = []
    for row in rows:
        event = EVENTS.get(row.get("event"), row.get("event"))
        cells = {**SOUND.get(event, {}), **row, **({"event": event} if event else {})}
        told.append({COLUMNS[name]: type_cell(value) for name, value in cells.items()})
    told += [{}] * max(0, ROWS_N - len(told))
    return {f"log_{n}_list": [row.get(n) for row in told] for n in (*JUDGED, *KEPT)}


def type_force(given: Known) -> Known:
    lines = [*given.get("in_force", []), *[{}] * LINES_N][:LINES_N]
    typed = {n: [type_cell(line.get(word)) for line in lines] for n, word in LINE.items()}
    typed |= {n: [line.get("units", {}).get(w) for line in lines] for n, w in UNITS.items()}
    return {f"force_line_{name}_list": column for name, column in typed.items()}


def call(function: Callable[..., object], known: Known) -> object:
    parameters = inspect.signature(function).parameters.values()
    arguments = {p.name: known.get(p.name) for p in parameters}
    if any(p.default is p.empty and arguments[p.name] is None for p in parameters):
        return None
    try:
        return function(**arguments)
    except ValueError:
        return None


def play(story: Known) -> Known:
    """Return everything that the references say of a story, by name."""
    given = story["given"]
    BOOK["story"] = tuple(
        given.get("units", {}).get(word, own)
        for word, own in zip(UNITS.values(), BOOK["metric"], strict=True)
    )
    known = {**MACHINE, **type_log(story), **type_force(given), "reader_units": "story"}
    known["season_start"] = {"in use, rinsed": "rinsed"}.get(given["start"], "stored")
    known["sugar_instrument"] = given.get("instrument", "compensated")
    known["sugar_zero_brix"] = given.get("sugar_zero", 0.0)
    known["rinse_target_L"] = given.get("rinse_owed_L", MACHINE["rinse_target_L"])
    known |= dict.fromkeys(given.get("unknown", ()))
    for grid, function in (("", force.held), ("row_", log.rows), ("", record.record)):
        columns = call(function, known)
        known |= {f"{grid}{name}_list": column for name, column in columns.items()}
    wanted = [
        name
        for module in (force, season, forecast)
        for name, function in inspect.getmembers(module, inspect.isfunction)
        if function.__module__ == module.__name__ and name.rsplit("_")[-1] in ENDINGS
    ]
    for _ in range(3):  # some results need another, which needs one more
        known |= {name: call(find(name), known) for name in wanted}
    return known


ENDINGS = {"n", "L", "d", "brix", "pct", "kg", "h", "ok"}


def find(name: str) -> Callable[..., object]:
    return next(getattr(m, name) for m in (force, season, forecast) if hasattr(m, name))
