"""Works out every formula with many machines, and names those that differ from the reference."""

from collections.abc import Iterator
from dataclasses import dataclass, field

from builder.calculation import Calculator
from builder.problems import Problem
from builder.production import shorten
from builder.spec.records import Grid, Quantity
from builder.spec.specification import Spec
from builder.trial.ancestry import Ancestry
from builder.trial.bench import Bench
from builder.trial.cases import Case, draw_cases, list_edges, list_fixed
from builder.trial.comparison import Difference, list_differences

LONGEST, KEPT = 24, 24
SEED, DRAWN = 20263, 10
REMEDY = "Correct the formula or the reference, whichever is wrong; steps have none: look there."
STEPS = 8  # of a way that a finding lists


@dataclass(slots=True)
class Slip:
    """What differs first in some cases: an example, and how many cases it is wrong in."""

    difference: Difference
    case: Case
    cases: set[str] = field(default_factory=set)


def try_formulas(spec: Spec) -> list[Problem]:
    """Return a finding for each formula that differs from its reference, at its file and line."""
    short = shorten(spec, LONGEST, KEPT)
    cases = [*list_fixed(short), *list_edges(short), *draw_cases(short, SEED, DRAWN)]
    return sorted(Trial(short).find_problems(cases))


class Trial:
    """One set of specs on the bench."""

    def __init__(self, spec: Spec) -> None:
        """Plan the workbook."""
        self.spec, self.bench = spec, Bench(spec, spec.main_language)
        self.calculator = Calculator(spec)
        self.ancestry = Ancestry(spec, self.calculator.work_out({}, {}).columns)

    def find_problems(self, cases: list[Case]) -> Iterator[Problem]:
        """Yield a finding for each quantity that differs where nothing before it does."""
        slips: dict[str, Slip] = {}
        errors: dict[str, str] = {}
        for case in cases:
            shown = self.bench.type(case)
            reference = self.calculator.work_out(case.given, case.rows)
            names, lang = self.bench.names, self.spec.main_language
            found = list(list_differences(reference, shown, names, self.spec, lang))
            for difference in self.ancestry.find_first(found):
                slip = slips.setdefault(difference.key, Slip(difference, case))
                slip.cases.add(case.label)
            for name in self.bench.find_errors(shown):
                errors.setdefault(name, case.label)
        yield from (self.describe(slip) for slip in slips.values())
        if not slips:
            yield from (self.describe_error(name, label) for name, label in errors.items())

    def describe(self, slip: Slip) -> Problem:
        """Return the finding of one slip, at the line of its formula."""
        difference = slip.difference
        owner = self.find_owner(difference)
        also = f", and in {len(slip.cases) - 1} more" if len(slip.cases) > 1 else ""
        text = f"{difference} for {slip.case.label}{also}.{self.tell_steps(difference)}"
        line = owner.place.at("formula")
        return Problem(owner.place.file, line, "formula-differs", owner.name, text, REMEDY)

    def find_owner(self, difference: Difference) -> Quantity:
        """Return the entry whose formula differs."""
        grid = self.spec.quantities[difference.name]
        own = isinstance(grid, Grid) and difference.column not in {**grid.first, **grid.rest}
        return self.spec.quantities[difference.column] if own else grid

    def tell_steps(self, difference: Difference) -> str:
        """Return where the steps stand that have no reference of their own."""
        steps = self.ancestry.list_steps(difference.key)
        places = [f"{step.name} ({step.place.file}:{step.place.at('formula')})" for step in steps]
        more = f" and {len(places) - STEPS} more" if len(places) > STEPS else ""
        return f" Steps on its way: {', '.join(places[:STEPS])}{more}." if places else ""

    def describe_error(self, name: str, label: str) -> Problem:
        """Return the finding of a cell that shows an error code."""
        quantity = self.ancestry.find_quantity(name)
        file, line = (quantity.place.file, quantity.place.line) if quantity else ("specs", 1)
        text = f"shows an error code for {label}."
        remedy = "Give the formula an answer, or a blank, for everything inside the limits."
        return Problem(file, line, "formula-error", name, text, remedy)
