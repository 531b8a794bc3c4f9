"""The engine `formulas`, once for each distinct formula instead of once for each cell.

Cells whose formulas differ only in what they point at share one form: each area that a formula
reads becomes an area of a blank sheet (A1, B1:B200, …). The engine's own parser and compiler turn
each form into a function, and cells are worked out one after the other on the values of their
areas. What a form gave for the same values before is remembered: it depends on nothing else. The
engine is given no file and no address, so it cannot open anything.
"""

import re
import warnings
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from graphlib import TopologicalSorter
from itertools import product
from typing import Any, NamedTuple

from openpyxl.formula import Tokenizer
from openpyxl.formula.tokenizer import Token, TokenizerError
from openpyxl.utils.cell import column_index_from_string, get_column_letter

from builder.audit.normalization import CellValue, normalize_value

with warnings.catch_warnings():
    warnings.simplefilter("ignore")
    import formulas
    import numpy as np
    import schedula
    from formulas.errors import FormulaError
    from formulas.ranges import Ranges
    from formulas.tokens.operand import Error

BLANK = schedula.EMPTY
UNKNOWN = Error.errors["#NAME?"]
AREA = re.compile(
    r"(?P<text>\"[^\"]*\")"
    r"|(?<![\w.$\]:!'])(?:(?:'(?P<quoted>(?:[^']|'')+)'|(?P<bare>[^\W\d][\w.]*))!)?"
    r"\$?(?P<col>[A-Z]{1,3})\$?(?P<row>[0-9]{1,7})"
    r"(?::\$?(?P<last_col>[A-Z]{1,3})\$?(?P<last_row>[0-9]{1,7}))?(?![\w.(!:])",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class Area:
    """Cells that a formula reads; rows and columns count from 1."""

    title: str
    row: int
    col: int
    last_row: int
    last_col: int

    @property
    def shape(self) -> tuple[int, int]:
        """Return the numbers of rows and columns."""
        return self.last_row - self.row + 1, self.last_col - self.col + 1

    def cells(self) -> Iterator[str]:
        """Yield the cells by rows."""
        columns = [get_column_letter(col) for col in range(self.col, self.last_col + 1)]
        for row, letters in product(range(self.row, self.last_row + 1), columns):
            yield f"{self.title}!{letters}{row}"


class Content(NamedTuple):
    """What an area holds by rows; types too, because True is no 1 to a formula."""

    values: tuple[object, ...]
    types: tuple[type, ...]


@dataclass(frozen=True, slots=True)
class Step:
    """One function or operator of the engine within a formula."""

    function: Callable[..., Any]
    inputs: list[str]
    output: str


class Form:
    """One distinct formula as a function of the values of its areas."""

    def __init__(self, text: str, shapes: dict[str, tuple[int, int]]) -> None:
        """Compile it; `shapes` tells the places that stand in its text."""
        compiled = formulas.Parser().ast(text)[1].compile()
        self.places = list(compiled.inputs)
        self.ranges = [found.ranges[0] for found in compiled.inputs.values()]
        self.shapes = [shapes[place] for place in self.places]
        self.written = {key: item["value"] for key, item in compiled.dsp.default_values.items()}
        self.steps = list(list_steps(compiled))
        self.output = compiled.outputs[0]
        self.known: dict[tuple[Content, ...], object] = {}

    def work_out(self, contents: tuple[Content, ...]) -> object:
        """Return the one value for the contents of the areas."""
        if contents not in self.known:
            self.known[contents] = self.call([content.values for content in contents])
        return self.known[contents]

    def call(self, values: list[tuple[object, ...]]) -> object:
        """Let the engine's functions work, and return a value or an error of its kind."""
        found = dict(self.written)
        given = zip(self.places, self.ranges, self.shapes, values, strict=True)
        for name, place, shape, area in given:
            found[name] = Ranges((place,), {place["name"]: (place, fill(shape, area))})
        try:
            for step in self.steps:
                found[step.output] = step.function(*[found[name] for name in step.inputs])
        except NotImplementedError:  # a function that the engine does not know
            return UNKNOWN
        shown = found[self.output]
        first = unwrap(np.ravel(shown.value if isinstance(shown, Ranges) else shown)[0])
        return 0 if first is BLANK else first


def list_steps(compiled: schedula.DispatchPipe) -> Iterator[Step]:
    """Yield what the engine compiled, in order: its own dispatcher takes three times as long."""
    nodes = {node["outputs"][0]: node for node in compiled.dsp.function_nodes.values()}
    needs = {output: [i for i in node["inputs"] if i in nodes] for output, node in nodes.items()}
    for output in TopologicalSorter(needs).static_order():
        yield Step(nodes[output]["function"], nodes[output]["inputs"], output)


def fill(shape: tuple[int, int], values: tuple[object, ...]) -> Any:
    """Return the values of an area as the engine holds them."""
    table = np.empty(shape, object)
    table.ravel()[:] = values
    return table


class FormEngine:
    """Formulas by `Sheet!B5`, names spelled out as addresses, each cell an input of its form."""

    def __init__(self, written: Mapping[str, str], titles: list[str]) -> None:
        """Compile each form and put the cells into an order in which they can be worked out."""
        self.titles = {title.casefold(): title for title in titles}
        self.forms: dict[str, Form | None] = {}
        self.uses: dict[str, tuple[Form, list[Area]]] = {}
        for place, formula in written.items():
            form, areas = self.read(formula, place.rpartition("!")[0])
            if form is not None:
                self.uses[place] = form, [areas[name] for name in form.places]
        needs: dict[str | Area, list[str | Area]] = {}
        for place, (_, used) in self.uses.items():
            needs[place] = list(used)
            for area in used:
                if area not in needs:
                    needs[area] = [cell for cell in area.cells() if cell in self.uses]
        self.order = list(TopologicalSorter(needs).static_order())

    def read(self, formula: str, title: str) -> tuple[Form | None, dict[str, Area]]:
        """Return the form of a formula of a sheet, None if it has none, and its areas by place."""
        places: dict[Area, str] = {}

        def swap(found: re.Match[str]) -> str:
            area = None if found["text"] else self.find_area(found, title)
            if area is None:
                return found[0]
            if area not in places:
                col = 1 + sum(known.shape[1] for known in places)
                places[area] = write_place(area.shape, col)
            return places[area]

        text = AREA.sub(swap, formula)
        areas = {place: area for area, place in places.items()}
        if text not in self.forms:
            shapes = {place: area.shape for place, area in areas.items()}
            self.forms[text] = compile_form(text, shapes)
        return self.forms[text], areas

    def find_area(self, found: re.Match[str], title: str) -> Area | None:
        """Return what an address in a formula of a sheet means, None where there is no sheet."""
        name = found["quoted"].replace("''", "'") if found["quoted"] else found["bare"] or title
        sheet = self.titles.get(name.casefold())
        col = column_index_from_string(found["col"].upper())
        last = column_index_from_string((found["last_col"] or found["col"]).upper())
        row, end = int(found["row"]), int(found["last_row"] or found["row"])
        if sheet is None:
            return None
        return Area(sheet, min(row, end), min(col, last), max(row, end), max(col, last))

    def solve(self, held: Mapping[str, CellValue]) -> dict[str, CellValue]:
        """Return the value of each formula cell; `held` are the values of the others."""
        shown: dict[str, object] = {**held}
        areas: dict[Area, Content] = {}
        for item in self.order:
            if isinstance(item, Area):
                found = [shown.get(cell) for cell in item.cells()]
                values = tuple(BLANK if value is None else value for value in found)
                areas[item] = Content(values, tuple(map(type, values)))
            else:
                form, needed = self.uses[item]
                shown[item] = form.work_out(tuple(areas[area] for area in needed))
        return {place: take(shown[place]) for place in self.uses}


def compile_form(text: str, shapes: dict[str, tuple[int, int]]) -> Form | None:
    """Return a form, or None where it refers to anything but its places or cannot be read."""
    try:
        tokens = Tokenizer(text).items
        if {t.value for t in tokens if t.subtype == Token.RANGE} <= shapes.keys():
            return Form(text, shapes)
    except (FormulaError, TokenizerError, IndexError):
        return None
    return None


def write_place(shape: tuple[int, int], col: int) -> str:
    """Return the address on a blank sheet that an area has in the text of a form."""
    first, last = f"{get_column_letter(col)}1", f"{get_column_letter(col + shape[1] - 1)}{shape[0]}"
    return first if first == last else f"{first}:{last}"


def unwrap(value: Any) -> object:
    """Return a value without the types of arrays."""
    return value.item() if isinstance(value, np.generic) else value


def take(value: object) -> CellValue:
    """Return a value without the engine's own types; its errors become their codes."""
    bare = unwrap(value)
    return normalize_value(bare if isinstance(bare, bool | int | float) else str(bare))
