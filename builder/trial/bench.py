"""A short workbook on an engine, into which machines are typed one after the other."""

from collections.abc import Iterator

from builder.calculation import Value
from builder.exchange.machine import Machine
from builder.plan.cells import Area, Book
from builder.plan.layout import plan_book
from builder.production import Engine, Spot
from builder.spec.specification import Spec
from builder.trial.cases import Case
from builder.trial.placement import place_case

ERROR = "#"


class Sheets:
    """A workbook planned once; only typed cells change from case to case."""

    def __init__(self, spec: Spec, lang: str) -> None:
        """Plan."""
        self.spec, self.lang = spec, lang
        self.book = plan_book(spec, Machine(), lang, "metric", {})
        self.names = {name: list(list_spots(area)) for name, area in self.book.names.items()}
        self.constants = read_constants(self.book)
        self.typed: dict[Spot, Value] = {}

    def turn_to(self, case: Case) -> dict[Spot, Value]:
        """Return what to type for a case where another stands; nothing stays of the last."""
        before, self.typed = self.typed, place_case(case, self.names, self.spec, self.lang)
        back = {spot: self.constants.get(spot) for spot in before.keys() - self.typed.keys()}
        changed = {
            spot: value
            for spot, value in self.typed.items()
            if spot not in before or before[spot] != value
        }
        return {**back, **changed}


class Bench(Sheets):
    """The workbook on an engine."""

    def __init__(self, spec: Spec, lang: str) -> None:
        """Plan, and let the engine work everything out once."""
        super().__init__(spec, lang)
        self.engine = Engine()
        self.engine.solve(self.book)

    def type(self, case: Case) -> dict[Spot, Value]:
        """Return what every named cell shows with a case typed in; nothing stays of the last."""
        for spot, value in self.turn_to(case).items():
            self.engine.type(spot, value)
        self.engine.model.evaluate()
        named = {spot for spots in self.names.values() for spot in spots}
        return {spot: as_value(self.engine.read(spot)) for spot in named}

    def find_errors(self, shown: dict[Spot, Value]) -> list[str]:
        """Return the names whose cells show an error code."""
        return [
            name
            for name, spots in self.names.items()
            if any(str(shown[spot]).startswith(ERROR) for spot in spots)
        ]


def list_spots(area: Area) -> Iterator[Spot]:
    """Yield the cells of an area, row by row."""
    for row in range(area.row, area.last_row + 1):
        for col in range(area.col, area.last_col + 1):
            yield area.sheet, row, col


def read_constants(book: Book) -> dict[Spot, Value]:
    """Return what stands in the cells without formulas."""
    return {
        (sheet.title, cell.row, cell.col): cell.text if cell.text is not None else cell.number
        for sheet in book.sheets
        for cell in sheet.cells
        if cell.formula is None
    }


def as_value(value: object) -> Value:
    """Return a number or a text as they are, and None for a blank or an empty text."""
    if isinstance(value, str):
        return value or None
    return float(value) if isinstance(value, int | float) else None
