"""Properties of margins, of typed units, and of the two languages."""

from collections.abc import Iterator

from hypothesis import strategies as st
from workbook.files import Cell, Value, show
from workbook.test_builds import find_pairs, list_codes, pair_formulas

from builder.spec.records import Check, Result
from builder.spec.specification import Spec
from builder.trial.cases import Case, draw_cases
from builder.trial.comparison import agree
from builder.trial.placement import place_case
from proof.properties_machines import Given, number
from proof.properties_sides import Results, Side, Workbook
from proof.properties_volumes import compare

SHIFT_PH = 0.25
MARGINS = {  # by definition: limit less value, or value less limit
    "ceiling_margin_pH": ("ceiling_pH", 1),
    "start_floor_margin_pH": ("floor_pH", -1),
    "floor_margin_pH": ("floor_pH", -1),
}


def mirror_margins(side: Side, given: Given) -> Iterator[str]:
    """A margin moves with its limit, one up, the other down; at one limit they are opposite."""
    before = side.solve(Case("before", given))
    for name, (limit, sign) in MARGINS.items():
        for shift in (SHIFT_PH, -SHIFT_PH):
            moved = {**given, limit: number(given, limit) + shift}
            after = side.solve(Case("after", moved))
            expected = number(before, name) + sign * shift
            why = f"{limit} moved by {shift}"
            yield from compare(side, name, number(after, name), expected, why)
    same = side.solve(Case("same", {**given, "floor_pH": given["ceiling_pH"]}))
    opposite = -number(same, "ceiling_margin_pH")
    name = "start_floor_margin_pH"
    yield from compare(side, name, number(same, name), opposite, "floor and ceiling the same")


def cases(spec: Spec) -> st.SearchStrategy[Case]:
    """Return random cases: machines near the demo machine and far from it, logs and units."""
    return st.integers(0, 2**32).map(lambda seed: list(draw_cases(spec, seed, 2))[seed % 2])


def keep_results_in_any_unit(side: Side, case: Case) -> Iterator[str]:
    """What is typed in other units gives the same results, but for rounding."""
    typed = side.solve(case)
    canonical = side.solve(Case(case.label, case.given, case.rows))
    for name, quantity in side.spec.quantities.items():
        if isinstance(quantity, Result | Check):
            tolerance = quantity.tolerance if isinstance(quantity, Result) else None
            if not agree(typed[name], canonical[name], tolerance):
                where = f"{name}, {side.locate(name)}, {case.label} typed in other units"
                yield f"{where}: found {typed[name]!r}, expected {canonical[name]!r}"


class Languages:
    """The English and the French workbook side by side."""

    def __init__(self, spec: Spec) -> None:
        """Build both."""
        self.spec = spec
        self.english, self.french = Workbook(spec, "en"), Workbook(spec, "fr")
        self.known = {(text.pick("en"), text.pick("fr")) for text in find_pairs(spec)}
        self.shared = list_codes(spec)

    def show(self, book: Workbook, case: Case) -> dict[Cell, Value]:
        """Return what all formulas of one workbook show."""
        return book.engine.solve(place_case(case, book.file.names, self.spec, book.lang))

    def solve(self, case: Case) -> Results:
        """Return the results of the English workbook."""
        return self.english.solve(case)

    def locate(self, name: str) -> str:
        """Return the cell of a result in the English workbook."""
        return self.english.locate(name)


def agree_in_both_languages(side: Languages, case: Case) -> Iterator[str]:
    """Cell by cell the same number, or the same word in the other language."""
    english = side.show(side.english, case)
    french = side.show(side.french, case)
    names = {cell: name for name, cell in side.english.cells.items()}
    for one, other in pair_formulas(side.english.file, side.french.file):
        pair = (english[one], french[other])
        same = pair[0] == pair[1] and (
            not isinstance(pair[0], str) or is_typed(pair[0], side, case)
        )
        if not same and pair not in side.known:
            where = f"{names.get(one, 'a cell')}, {show(one)} and {show(other)}"
            yield f"{where}: {case.label} gives {pair[0]!r} in English and {pair[1]!r} in French"


def is_typed(text: str, side: Languages, case: Case) -> bool:
    """Tell whether a text is a code, or was typed in a row: then it is the same in both."""
    rows = (row for rows in case.rows.values() for row in rows)
    return text in side.shared or any(text in row.values() for row in rows)
