"""What the columns of grids should show: by their references, or by an oracle for what is shown."""

import math
from collections.abc import Callable

from workbook.files import Value

from builder.formula.grids import grid_columns
from builder.reference.equilibrium import _log_kw, _species
from builder.reference.water import activity_coefficient_n
from builder.spec.records import Grid, Record, Tolerance
from proof.coverage_scene import NOTHING, Scene, Sight, Wanted

DRAWN = "oracle: drawn in a chart"
SUMMED = "oracle: mean or spread"
# The reference converges fully, the sheet stops after a number of passes.
POINT_PH = Tolerance(1e-6, 0.0, "as of the pH at the start")
POINT_PCT = Tolerance(1e-4, 0.0, "as of the pH at the start, through the slope of the curve")
POINT_FLOW = Tolerance(1e-9, 1e-7, "as of the slope of the trend")
COPIED = {
    "record_day_d": "day_d",
    "record_event_n": "event",
    "record_product_n": "product",
    "record_water_n": "water_kind",
    "record_who_n": "who",
    "record_letter_n": "letter",
    "record_initials_n": "initials",
}


def want_columns(scene: Scene) -> Sight:
    """Yield all columns that have a say of their own."""
    for name, grid in scene.spec.quantities.items():
        if not isinstance(grid, Grid):
            continue
        for column in grid_columns(grid, scene.spec.quantities):
            key = f"{name}_{column.name}_list"
            if not column.entry and key in scene.season.columns:
                values = [show(column, v, scene) for v in scene.season.columns[key]]
                yield from put(scene, key, values, "reference")
    ranks = scene.season.columns["log_rank_n_list"]
    record = scene.spec.quantities["verdict_n"]
    if isinstance(record, Record):
        words = [show(record, rank, scene) for rank in ranks]
        yield from put(scene, "log_verdict_n_list", words, "oracle: word of a verdict")
        yield from want_record(scene)
    yield from want_blanks(scene)
    yield from want_sums(scene)
    yield from want_curve(scene)
    yield from want_lines(scene)


def want_blanks(scene: Scene) -> Sight:
    """Yield the working cells behind which something is missing: they show nothing."""
    values = scene.season.values
    for key, names in scene.ground.needs.items():
        if any(values[name] is None for name in names):
            blanks: list[Value] = [None] * len(scene.file.names[key])
            yield from put(scene, key, blanks, NOTHING)
    columns = scene.season.columns
    for key, needs in scene.ground.row_needs.items():
        for row, cell in enumerate(scene.file.names[key]):
            if any(columns[need][row] in (None, "") for need in needs):
                yield cell, Wanted(None, NOTHING)


def put(
    scene: Scene, key: str, values: list[Value], by: str, tolerance: Tolerance | None = None
) -> Sight:
    """Yield the cells of a column with these values."""
    for cell, value in zip(scene.file.names[key], values, strict=True):
        yield cell, Wanted(value, by, tolerance)


def show(column: Record, value: Value, scene: Scene) -> Value:
    """Return a value as its cell shows it: a number, a word of the column's list, or nothing."""
    if isinstance(value, str) or value is None:
        return value or None
    return column.words[int(value) - 1].pick(scene.lang) if column.words else float(value)


def want_record(scene: Scene) -> Sight:
    """Yield the rows of the rinse record: what stands in the log's rows that it picks."""
    columns, names = scene.season.columns, scene.file.names
    rows = [
        None if row in (None, "") else int(float(row)) - 1
        for row in columns["record_entry_row_n_list"]
    ]
    found: dict[str, list[Value]] = {
        target: [scene.held.get(cell) for cell in names[f"log_{source}_list"]]
        for target, source in COPIED.items()
    }
    factor = scene.spec.units[scene.spec.quantities["product_kg"].unit]
    unit = scene.find_unit(scene.held.get(scene.file.cell("log_product_kg_typed_unit")), factor)
    scale = float(unit.factor / factor.factor) if unit else None
    masses = [scene.held.get(cell) for cell in names["log_product_kg_list"]]
    found["record_product_kg"] = [
        mass * scale if isinstance(mass, float) and scale is not None else None for mass in masses
    ]
    for target in ("owed_L", "done_L"):
        worked = columns[f"log_{target}_list"]
        found[f"record_{target}"] = [
            float(v) if isinstance(v, int | float) else None for v in worked
        ]
    known = scene.spec.quantities["record"]
    for target, column in found.items():
        if not isinstance(known, Grid) or target not in known.columns:
            continue
        picked = [None if row is None else column[row] for row in rows]
        yield from put(scene, f"record_{target}_list", picked, "oracle: line of the record")


def want_sums(scene: Scene) -> Sight:
    """Yield means and spreads of the days that count for the line of the flow."""
    columns = (
        scene.season.columns[f"trend_{n}_list"] for n in ("weight_n", "since_d", "shown_pct")
    )
    counted = [(number(d), number(f)) for w, d, f in zip(*columns, strict=True) if number(w) == 1]
    found: dict[str, Value] = dict.fromkeys(("mean_d", "mean_pct", "spread_n", "cross_n"))
    if counted:
        day, flow = (math.fsum(each) / len(counted) for each in zip(*counted, strict=True))
        found = {
            "mean_d": day,
            "mean_pct": flow,
            "spread_n": math.fsum((d - day) ** 2 for d, _ in counted),
            "cross_n": math.fsum((d - day) * (f - flow) for d, f in counted),
        }
    for name, value in found.items():
        yield from put(scene, f"trendsum_{name}_list", [value], SUMMED, POINT_FLOW)


def want_curve(scene: Scene) -> Sight:
    """Yield the points of the curve of pH: one pass of the reference's model a point."""
    values = scene.season.values
    names = ("carbonate_molpL", "silicate_molpL", "edta_molpL")
    start, ionic, alkali, temp = (
        number(values[key])
        for key in ("wash_start_pH", "wash_ionic_molpL", "alkali_eqpL", "wash_temp_degC")
    )
    totals = tuple(number(values[key]) for key in names)
    count = len(scene.file.names["curve_curve_x_pct_list"])
    xs, ys = [0.0] * count, [0.0] * count
    if not math.isnan(start + ionic + alkali + temp + sum(totals)):
        top = number(values["ionic_max_molpL"])
        for point in range(count):
            ys[point] = start - point * number(values["curve_step_pH"])
            need, ionic = pass_once(ys[point], temp, ionic, totals, alkali)
            ionic = min(top, ionic)
            xs[point] = 100.0 * (1.0 - need / alkali)
    yield from put(scene, "curve_curve_x_pct_list", [*xs], DRAWN, POINT_PCT)
    yield from put(scene, "curve_curve_y_pH_list", [*ys], DRAWN, POINT_PH)


def number(value: Value) -> float:
    """Return a number, or nan for none."""
    return float(value) if isinstance(value, int | float) else math.nan


def pass_once(
    pH: float, temp_degC: float, strength: float, totals: tuple[float, ...], sodium: float
) -> tuple[float, float]:
    """Return the alkali need at an ionic strength, and the ionic strength that follows."""
    g = activity_coefficient_n(strength, temp_degC)
    hydrogen, hydroxide = float(10.0**-pH) / g, float(10.0 ** (_log_kw(temp_degC) + pH)) / g
    species = _species(pH, temp_degC, math.log10(g), totals)
    need = hydroxide - hydrogen + sum(c * z for c, z in species)
    strong = max(sodium, need) + max(0.0, sodium - need)
    weak = sum(c * z * z for c, z in species)
    return need, 0.5 * (strong + hydrogen + hydroxide + weak)


def want_lines(scene: Scene) -> Sight:
    """Yield the ends of the straight lines and the single points of the charts."""
    values = scene.season.values
    get: Callable[[str], float] = lambda key: number(values[key])  # noqa: E731
    start, used = get("wash_start_pH"), get("alkali_used_pct")
    drawn = start > 0
    for key, name in (("floorline", "floor_pH"), ("ceilingline", "ceiling_pH")):
        yield from put(scene, f"{key}_edge_x_pct_list", [0.0, 100.0], DRAWN)
        level = get(name) if drawn and not math.isnan(get(name)) else 0.0
        yield from put(scene, f"{key}_edge_y_pH_list", [level, level], DRAWN)
    yield from put(scene, "freshpoint_edge_x_pct_list", [0.0], DRAWN)
    yield from put(scene, "freshpoint_edge_y_pH_list", [start if drawn else 0.0], DRAWN, POINT_PH)
    end = get("end_at_wash_pH")
    x = used if end > 0 and not math.isnan(used) else 0.0
    yield from put(scene, "endpoint_edge_x_pct_list", [x], DRAWN, POINT_PCT)
    y = end if drawn and not math.isnan(end) else 0.0
    yield from put(scene, "endpoint_edge_y_pH_list", [y], DRAWN, POINT_PH)
    since = [number(v) for v in scene.season.columns["trend_since_d_list"]]
    wash = max(0.0, get("last_wash_d") - get("first_day_d"))
    days = [0.0 if math.isnan(get("first_day_d")) else wash, max(since)]
    flows = [get("flow_start_pct") + get("flow_slope_pctpd") * day for day in days]
    yield from put(scene, "trendline_line_d_list", [*days], DRAWN)
    shown: list[Value] = [0.0 if math.isnan(flow) else flow for flow in flows]
    yield from put(scene, "trendline_line_pct_list", shown, DRAWN, POINT_FLOW)
