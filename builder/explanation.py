"""Explains a name: what it stands for, its formula with names and with numbers, and its source."""

import inspect
from collections.abc import Iterable
from functools import cached_property

from builder.calculation import Value, calculate, find_reference
from builder.exchange.machine import Machine, canonical
from builder.explanation_record import (
    ALL,
    FIRST,
    GIVEN,
    OTHERS,
    WORKED,
    Explanation,
    Precedent,
    Working,
)
from builder.formula.grids import GridName, row_formula
from builder.formula.tokens import Name, find_names, replace_names
from builder.meaning import LAST, Meaning, find_meaning
from builder.problems import EXIT_USAGE, UserError, suggest
from builder.production import find_case
from builder.solution import Solution, show
from builder.spec.records import Check, Choice, Grid, Input, Quantity, Record, Result
from builder.spec.specification import Spec


class Explainer:
    """Explains names for one machine in one language; the workbook is worked out if it must be."""

    def __init__(self, spec: Spec, machine: Machine, lang: str) -> None:
        """Keep what is asked; nothing is worked out yet."""
        self.spec, self.machine, self.lang = spec, machine, lang

    @cached_property
    def values(self) -> dict[str, Value]:
        """The values of all quantities by the references."""
        return calculate(self.spec, canonical(self.machine, self.spec))

    @cached_property
    def solution(self) -> Solution:
        """The workbook of the machine."""
        return Solution(self.spec, self.machine, self.lang)

    @cached_property
    def worked(self) -> Solution:
        """The workbook of the worked case, which has a log."""
        return Solution(self.spec, find_case(self.spec), self.lang)

    def explain(self, name: str) -> Explanation:
        """Return the explanation of a name; raise UserError if nothing is called so."""
        meaning = self.find(name)
        quantity = meaning.quantity
        reference = self.find_path(quantity)
        made = name not in self.spec.quantities and name in self.solution.book.names
        return Explanation(
            name=name,
            kind=meaning.kind,
            label=meaning.label,
            unit=meaning.unit,
            places=[f"{place.file}:{place.line}" for place in meaning.places],
            cell=self.solution.locate(name) if made else "",
            bound=meaning.bound,
            grids=list_grids(quantity, self.spec) if meaning.kind == "record" else [],
            working=self.work(name, meaning),
            close=quantity.close if isinstance(quantity, Check) else "",
            level=quantity.level if isinstance(quantity, Check) else "",
            limits=list_limits(quantity),
            options=self.list_options(quantity),
            columns=quantity.columns if isinstance(quantity, Grid) else [],
            source=self.describe_source(quantity),
            reference=f"builder.reference.{reference}" if reference else "",
            summary=summarise(reference),
            proof=getattr(quantity, "proof", ""),
        )

    def find_path(self, quantity: Quantity | None) -> str:
        """Return the reference of a quantity, of a column that of its grid if it has none."""
        own = getattr(quantity, "reference", "")
        worked = isinstance(quantity, Record) and not own and not quantity.entry
        grids = [self.spec.quantities[name] for name in list_grids(quantity, self.spec)]
        return next((getattr(grid, "reference", "") for grid in grids), "") if worked else own

    def find(self, name: str) -> Meaning:
        """Return what a name stands for; raise UserError with the nearest name."""
        meaning = find_meaning(name, self.spec, self.lang)
        if meaning:
            return meaning
        names = self.solution.book.names
        if name in names:
            return Meaning("cell", self.solution.label(name))
        near = suggest(name, [*self.spec.quantities, *names])
        near = near or " Names stand in the specs and in the workbook."
        raise UserError(f"no quantity is called {name!r}.{near}", EXIT_USAGE)

    def work(self, name: str, meaning: Meaning) -> Working:
        """Return formulas and numbers of whatever has some."""
        quantity, part = meaning.quantity, meaning.part
        if isinstance(quantity, Record):
            grids = list_grids(quantity, self.spec)
            if part is None and grids:
                grid = self.spec.quantities[grids[0]]
                part = GridName(grid, quantity.name, "") if isinstance(grid, Grid) else None
            if part and meaning.kind in (LAST, "list", "record"):
                return self.work_row(part, quantity)
        if meaning.kind in ("result", "check") and isinstance(quantity, Result | Check):
            return self.work_result(quantity)
        if isinstance(quantity, Grid) and part is None:
            return self.work_grid(quantity)
        if name in self.spec.quantities:
            return Working(value=self.values.get(name))
        if name not in self.solution.book.names:
            return Working()
        return self.work_cell(name)

    def work_cell(self, name: str) -> Working:
        """Return the formula that the workbook has in the cell of a name."""
        solution, formula = self.solution, self.solution.formula(name)
        used = {n: solution.value(n) for n in list_names(formula) if n in solution.book.names}
        formulas = {ALL: formula} if formula else {}
        numbers = solution.fill(formula) if formula else ""
        return Working(formulas, numbers, solution.value(name), uses=self.list_uses(used))

    def work_grid(self, grid: Grid) -> Working:
        """Return the last row of a grid in which something stands."""
        solution, case = self.solution, GIVEN
        rows = [solution.last_row(grid, name) for name in grid.columns]
        if rows.count(None) == len(rows):
            solution, case = self.worked, WORKED
            rows = [solution.last_row(grid, name) for name in grid.columns]
        row = max((row for row in rows if row is not None), default=0)
        columns = {name: solution.cell(grid, name, row) for name in grid.columns}
        return Working(row=row + 1, case=case, uses=self.list_uses(columns))

    def work_result(self, quantity: Result | Check) -> Working:
        """Return the formula of a result or check with the numbers of the references."""
        both = filter(None, (quantity.formula, getattr(quantity, "close", "")))
        names = [name.text for formula in both for name in find_names(formula)]

        def value(name: str) -> Value:
            return self.values[name] if name in self.values else self.solution.value(name)

        def fill(name: Name) -> str:
            known = name.text in self.values or self.solution.is_cell(name.text)
            return show(value(name.text)) if known else name.text

        return Working(
            {ALL: quantity.formula},
            replace_names(quantity.formula, fill),
            self.values[quantity.name],
            uses=self.list_uses({name: value(name) for name in names}),
        )

    def work_row(self, part: GridName, column: Record) -> Working:
        """Return the formulas of a column and the numbers of its last row in which something is.

        Where the machine has none, as in a log that is blank, the worked case stands in.
        """
        grid, solution, case = part.grid, self.solution, GIVEN
        row = solution.last_row(grid, column.name)
        if row is None:
            solution, case = self.worked, WORKED
            row = solution.last_row(grid, column.name)
        first, others = (row_formula(grid, column, first=rows) for rows in (True, False))
        listed = {ALL: first} if first == others else {FIRST: first, OTHERS: others}
        formulas = {rows: formula for rows, formula in listed.items() if formula}
        formula = others if row else first
        if row is None:
            return Working(formulas, uses=self.list_uses(dict.fromkeys(list_names(formula))))
        return Working(
            formulas,
            solution.fill(formula, grid, row) if formula else "",
            solution.cell(grid, column.name, row),
            row + 1,
            case,
            self.list_uses(
                {text: solution.look_up(n, grid, row) for text, n in list_names(formula).items()}
            ),
        )

    def list_uses(self, values: dict[str, Value]) -> list[Precedent]:
        """Return the names that a formula uses, with what they stand for."""
        found = []
        for name, value in values.items():
            meaning = self.find(name.removeprefix("PRIOR(").removesuffix(")"))
            found.append(Precedent(name, meaning.label, value, meaning.unit))
        return found

    def list_options(self, quantity: Quantity | None) -> dict[str, str]:
        """Return the codes of a choice with their words."""
        options = quantity.options if isinstance(quantity, Choice | Record | Result) else {}
        return {code: words.pick(self.lang) for code, words in options.items()}

    def describe_source(self, quantity: Quantity | None) -> dict[str, str]:
        """Return title and place of a quantity's source, and how it was seen."""
        if quantity is None or quantity.source is None:
            return {}
        source, at = self.spec.sources[quantity.source.id], quantity.source.at
        title = source.title.pick(self.lang)
        return {"title": title, "at": at.pick(self.lang) if at else "", "seen": source.seen}


def list_names(formula: str) -> dict[str, Name]:
    """Return the names of a formula by the words that stand there, such as `PRIOR(next_pH)`."""
    names = find_names(formula) if formula else []
    return {f"PRIOR({name.text})" if name.prior else name.text: name for name in names}


def list_grids(quantity: Quantity | None, spec: Spec) -> list[str]:
    """Return the grids of which something is a column."""
    grids: Iterable[Grid] = (q for q in spec.quantities.values() if isinstance(q, Grid))
    return [grid.name for grid in grids if quantity and quantity.name in grid.columns]


def list_limits(quantity: Quantity | None) -> list[float]:
    """Return the smallest and the largest value that an input may have."""
    limits = quantity.limits if isinstance(quantity, Input | Record) else None
    return [limits.min, limits.max] if limits else []


def summarise(reference: str) -> str:
    """Return the first line of a reference function's docstring; a constant has none."""
    try:
        found = find_reference(reference) if reference else None
    except LookupError:
        return ""
    return (inspect.getdoc(found) or "").partition("\n")[0] if callable(found) else ""
