"""A short workbook into which a season is typed, and its rows."""

from builder.exchange.demo import read_demo
from builder.exchange.machine import canonical
from builder.production import shorten
from builder.spec.load import find_specs, load_spec
from builder.trial.bench import Bench
from builder.trial.cases import Case

ROWS = 16
GIVEN = {
    "baseline_flow_Lph": 1500.0,
    "baseline_feed_bar": 17.0,
    "baseline_concentrate_bar": 16.0,
    "baseline_permeate_bar": 0.3,
    "baseline_temp_degC": 9.0,
    "flow_wash_pct": 90.0,
    "season_start": "rinsed",
    "reader_units": "metric",
}
DAY = 45000.0
FORCE = {
    "line_date": DAY,
    "line_rinse_L": 4000.0,
    "line_first_L": 1500.0,
    "line_floor_pH": 11.44,
    "line_ceiling_pH": 12.4,
    "line_volume": "L",
}


class Book:
    """A workbook that works out a season, and shows a name or a column of what came of it."""

    def __init__(self):
        """Plan the book once."""
        spec = shorten(load_spec(find_specs()), ROWS, ROWS)
        self.bench, self.demo = Bench(spec, "en"), canonical(read_demo(spec), spec)
        self.shown = {}

    def play(self, *rows, **given):
        """Type a season, one row after the other, and return the book."""
        self.shown = self.bench.type(
            Case("season", {**self.demo, **GIVEN, **given}, {"log": list(rows), "force": [FORCE]})
        )
        return self

    def tell(self, name):
        """Return what the cell of a name shows."""
        return self.shown[self.bench.names[name][0]]

    def column(self, name):
        """Return what a column shows, up to the last cell that shows something."""
        cells = [self.shown[spot] for spot in self.bench.names[f"{name}_list"]]
        while cells and cells[-1] is None:
            cells.pop()
        return cells


def on(day, event, **typed):
    return {"date": DAY + day, "event": event, **typed}


def run(day, hours=None):
    return on(day, "run", hours_h=hours)


def clean_test(day, pct):
    """Return a test as at the reference, with this share of its flow."""
    reference = {"feed_bar": 17.0, "out_bar": 16.0, "back_bar": 0.3, "water_degC": 9.0}
    return on(day, "test", flow_Lph=15.0 * pct, **reference)


def wash(day, rinse=None):
    return on(day, "alkaline", rinse_L=rinse)
