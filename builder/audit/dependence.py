"""What a workbook's own formulas use: cells, areas and names, followed back to what was typed."""

from collections.abc import Iterable, Iterator

from openpyxl.formula import Tokenizer
from openpyxl.formula.tokenizer import Token, TokenizerError
from openpyxl.utils.cell import coordinate_to_tuple, range_boundaries

from builder.audit.book import Book
from builder.audit.normalization import unquote


class Dependence:
    """Follows formulas back; what they use is `Sheet!B5`, `Sheet!$B$1:$B$9`, or a name."""

    def __init__(self, book: Book, places: Iterable[str]) -> None:
        """Keep the workbook and the cells to look for; formulas are read when somebody asks."""
        self.book = book
        self.titles = {title.casefold(): title for title in book.sheets}
        self.names: dict[str, list[str]] = {}
        for name, target in [*book.names.items(), *book.local_names.items()]:
            self.names.setdefault(fold(name), []).append(target)
        self.spots: dict[str, list[tuple[int, int, str]]] = {}
        for place in places:
            sheet, _, cell = place.rpartition("!")
            self.spots.setdefault(sheet, []).append((*coordinate_to_tuple(cell), place))
        self.found: dict[str, list[str]] = {}

    def follow_back(self, cells: Iterable[str]) -> set[str]:
        """Return the cells, and all that they follow from, names without regard to case."""
        seen: set[str] = set()
        waiting = list(cells)
        while waiting:
            node = waiting.pop()
            if node not in seen:
                seen.add(node)
                waiting += self.list_uses(node)
        return seen

    def list_uses(self, node: str) -> list[str]:
        """Return what a cell, an area or a name uses directly."""
        if node not in self.found:
            self.found[node] = list(self.find_uses(node))
        return self.found[node]

    def find_uses(self, node: str) -> Iterator[str]:
        """Yield the same, read from the workbook."""
        sheet, _, area = node.rpartition("!")
        if node in self.book.cells:
            for operand in list_operands(self.book.cells[node].formula):
                yield self.place(operand, sheet)
        elif is_place(node):
            if ":" in area:  # a single cell that is not in the book holds nothing
                yield from self.list_cells(sheet, area)
        else:
            for target in self.names.get(node, []):
                for operand in list_operands(f"={target}") if not is_place(target) else [target]:
                    yield self.place(operand, "")

    def place(self, operand: str, own: str) -> str:
        """Return the cell, area or name that an operand of a formula of a sheet stands for."""
        sheet, mark, area = unquote(operand).rpartition("!")
        if not mark and fold(area) in self.names:
            return fold(area)
        title = self.titles.get(sheet.casefold(), sheet) if mark else own
        return f"{title}!{area.upper().replace('$', '')}"

    def list_cells(self, sheet: str, area: str) -> Iterator[str]:
        """Yield the cells of an area that hold anything; an area may be a million rows long."""
        try:
            bounds = range_boundaries(area)
        except ValueError:
            return
        left, top, right, bottom = (bound or 0 for bound in bounds)
        for row, column, place in self.spots.get(sheet, []):
            if left <= column <= (right or column) and top <= row <= (bottom or row):
                yield place


def list_operands(formula: str) -> list[str]:
    """Return the references and names in a formula; none where it cannot be read."""
    try:
        tokens = Tokenizer(formula.strip("{}")).items if formula else []
    except (TokenizerError, IndexError):  # the latter where a bracket closes what none opened
        return []
    return [
        str(token.value)
        for token in tokens
        if token.type == Token.OPERAND and token.subtype == Token.RANGE
    ]


def is_place(node: str) -> bool:
    """Tell whether a node is a cell or an area, not a name."""
    return "!" in node


def fold(name: str) -> str:
    """Return a name as programs compare it, without the sheet that alone knows it."""
    return name.rpartition("!")[2].casefold()
