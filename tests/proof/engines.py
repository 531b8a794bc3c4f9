"""The Python engine `formulas`, once for each distinct formula instead of once for each cell.

Cells whose formulas differ only in what they point at share one form: each area that a formula
reads becomes an area of a blank sheet (A1, B1:B200, …). The engine's own parser and compiler turn
each form into a function, and cells are worked out one after the other on the values of their
areas. What a form gave for the same values before is remembered: it depends on nothing else.
"""

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from graphlib import TopologicalSorter

import formulas
import numpy as np
import schedula
from formulas.ranges import Ranges
from formulas.tokens.operand import Error
from openpyxl.formula import Tokenizer
from openpyxl.utils import column_index_from_string, get_column_letter
from workbook.files import Cell, File, Value, plain

BLANK = schedula.EMPTY
ADDRESS = re.compile(
    r"(?:(?:'(?P<quoted>(?:[^']|'')+)'|(?P<bare>\w+))!)?"
    r"\$?(?P<col>[A-Z]{1,3})\$?(?P<row>\d+)(?::\$?(?P<last_col>[A-Z]{1,3})\$?(?P<last_row>\d+))?"
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

    def cells(self) -> Iterator[Cell]:
        """Yield the cells by rows."""
        for row in range(self.row, self.last_row + 1):
            for col in range(self.col, self.last_col + 1):
                yield self.title, row, col


@dataclass(frozen=True, slots=True)
class Step:
    """One function or operator of the engine within a formula."""

    function: Callable[..., object]
    inputs: list[str]
    output: str


class Form:
    """One distinct formula as a function of the values of its areas."""

    def __init__(self, text: str, areas: dict[str, Area]) -> None:
        """Compile it; `areas` gives one use of the form by the places in its text."""
        compiled = formulas.Parser().ast(text)[1].compile()
        self.places = list(compiled.inputs)
        self.ranges = [found.ranges[0] for found in compiled.inputs.values()]
        self.shapes = [areas[place].shape for place in self.places]
        self.written = {key: item["value"] for key, item in compiled.dsp.default_values.items()}
        self.steps = list(list_steps(compiled))
        self.output = compiled.outputs[0]
        self.known: dict[tuple[object, ...], object] = {}

    def work_out(self, values: tuple[object, ...]) -> object:
        """Return the one value for these values, each a scalar or a tuple of them."""
        if values not in self.known:
            self.known[values] = self.call(values)
        return self.known[values]

    def call(self, values: tuple[object, ...]) -> object:
        """Let the engine's functions work, and return a number, a text or an error of its kind."""
        found = dict(self.written)
        for name, place, shape, value in zip(
            self.places, self.ranges, self.shapes, values, strict=True
        ):
            found[name] = Ranges((place,), {place["name"]: (place, fill(shape, value))})
        try:
            for step in self.steps:
                found[step.output] = step.function(*[found[name] for name in step.inputs])
        except NotImplementedError:  # a function that the engine does not know
            return Error.errors["#NAME?"]
        shown = found[self.output]
        first = np.ravel(shown.value if isinstance(shown, Ranges) else shown)[0]
        bare = getattr(first, "item", lambda: first)()
        if isinstance(bare, bool):
            raise TypeError("a cell shows a truth value, which the book's rules forbid")
        return 0 if bare is BLANK else bare


def list_steps(compiled: schedula.DispatchPipe) -> Iterator[Step]:
    """Yield what the engine compiled, in order: its own dispatcher takes three times as long."""
    nodes = {node["outputs"][0]: node for node in compiled.dsp.function_nodes.values()}
    needs = {output: [i for i in node["inputs"] if i in nodes] for output, node in nodes.items()}
    for output in TopologicalSorter(needs).static_order():
        yield Step(nodes[output]["function"], nodes[output]["inputs"], output)


def fill(shape: tuple[int, int], value: object) -> np.ndarray:
    """Return the values of an area as the engine holds them."""
    table = np.empty(shape, object)
    table.ravel()[:] = value if isinstance(value, tuple) else [value]
    return table


class FormulasByForm:
    """A workbook in the engine `formulas`."""

    def __init__(self, file: File) -> None:
        """Compile each form and put the cells into an order in which they can be worked out."""
        self.file = file
        self.forms: dict[str, Form] = {}
        self.uses: dict[Cell, tuple[Form, list[Area]]] = {}
        needs: dict[Cell | Area, list[Cell | Area]] = {}
        for cell, text in file.formulas.items():
            form, areas = self.read(text, cell[0])
            self.uses[cell] = form, areas
            needs[cell] = list(areas)
            for area in areas:
                needs.setdefault(area, [c for c in area.cells() if c in file.formulas])
        self.order = list(TopologicalSorter(needs).static_order())

    def read(self, text: str, title: str) -> tuple[Form, list[Area]]:
        """Return the form of a formula, and its areas in the order in which the form wants them."""
        places: dict[Area, str] = {}
        parts, col = ["="], 1
        for token in Tokenizer(text).items:
            if token.type == "OPERAND" and token.subtype == "RANGE":
                area = find_area(token.value, title, self.file)
                if area not in places:
                    places[area] = write_place(area, col)
                    col += area.shape[1]
                parts.append(places[area])
            else:
                parts.append(token.value)
        form, areas = "".join(parts), {place: area for area, place in places.items()}
        if form not in self.forms:
            self.forms[form] = Form(form, areas)
        return self.forms[form], [areas[place] for place in self.forms[form].places]

    def solve(self, typed: Mapping[Cell, Value]) -> dict[Cell, Value]:
        """Return the value of each formula cell after typing; nothing stays for the next call."""
        shown: dict[Cell, object] = {**self.file.constants, **typed}
        areas: dict[Area, object] = {}
        for item in self.order:
            if isinstance(item, Area):
                found = [shown.get(cell) for cell in item.cells()]
                values = tuple(BLANK if value is None else value for value in found)
                areas[item] = values if len(values) > 1 else values[0]
            else:
                form, needed = self.uses[item]
                shown[item] = form.work_out(tuple(areas[area] for area in needed))
        return {cell: take(shown[cell]) for cell in self.file.formulas}


def find_area(text: str, title: str, file: File) -> Area:
    """Return what a name or an address in a formula of a sheet means."""
    if text in file.names:
        cells = file.names[text]
        return Area(*cells[0], *cells[-1][1:])
    found = ADDRESS.fullmatch(text)
    if found is None:
        raise LookupError(f"{title}: a formula reads {text!r}, which is no name and no address")
    sheet = found["quoted"].replace("''", "'") if found["quoted"] else found["bare"] or title
    row, col = int(found["row"]), column_index_from_string(found["col"])
    if found["last_col"] is None:
        return Area(sheet, row, col, row, col)
    return Area(
        sheet, row, col, int(found["last_row"]), column_index_from_string(found["last_col"])
    )


def write_place(area: Area, col: int) -> str:
    """Return the address on a blank sheet that an area has in the text of a form."""
    rows, cols = area.shape
    first, last = f"{get_column_letter(col)}1", f"{get_column_letter(col + cols - 1)}{rows}"
    return first if first == last else f"{first}:{last}"


def take(value: object) -> Value:
    """Return a value without the engine's own types; its errors become their codes."""
    return plain(value if isinstance(value, int | float) else str(value))
