"""Laws that hold for any machine, tried on the reference with many."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace
from typing import Any

from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st
from workbook.files import Value

from builder.calculation import calculate, find_arguments, find_reference
from builder.formula.graph import find_precedents
from builder.spec.load import find_specs, load_spec
from builder.spec.records import Check, Choice, Input, Record, Result
from builder.spec.specification import Spec
from builder.trial.comparison import as_number
from proof import properties_laws as laws
from proof.figures import Rate, Section
from proof.properties_machines import Given, NoNumberError, Side, machines, rinses, washes


@dataclass(frozen=True, slots=True)
class Law:
    """One law: what it is tried on, who judges, and the results it asks for."""

    draw: Callable[[Spec], st.SearchStrategy[Any]]
    judge: Callable[[Side, Given], Iterator[str]]
    asks: tuple[str, ...]


LAWS = (
    Law(machines, laws.follow_dimensions, laws.HOLDUPS),
    Law(
        rinses,
        laws.double_vessels,
        (*laws.DOUBLED, *laws.KEPT, *laws.HOLDUPS, "rinse_by_elements_L"),
    ),
    Law(rinses, laws.owe_the_rule, ("rinse_owed_L", "elements_n")),
    Law(washes, laws.dose_each_element, ("cleaner_strength_gpL",)),
    Law(washes, laws.mirror_margins, tuple(laws.MARGINS)),
)
EXAMPLES = 80


class Reference:
    """The Python reference, with what stands behind some results only, which works out faster."""

    def __init__(self, spec: Spec, asks: Iterable[str]) -> None:
        self.spec = narrow(spec, asks)

    def solve(self, given: Given) -> dict[str, Value]:
        return {name: as_number(value) for name, value in calculate(self.spec, given).items()}


def narrow(spec: Spec, wanted: Iterable[str]) -> Spec:
    """Return the specs with what stands behind some results only."""
    kept = {name for name, q in spec.quantities.items() if isinstance(q, Input | Choice | Record)}
    waiting = list(wanted)
    while waiting:
        name = waiting.pop()
        if name in kept or name not in spec.quantities:
            continue
        kept.add(name)
        quantity = spec.quantities[name]
        waiting += find_precedents(quantity, spec.quantities)
        if isinstance(quantity, Result | Check):
            function = find_reference(quantity.reference)
            waiting += find_arguments(quantity, function).values() if callable(function) else []
    quantities = {name: q for name, q in spec.quantities.items() if name in kept}
    return replace(spec, quantities=quantities)


def try_law(law: Law, side: Side, examples: int) -> list[str]:
    """Return the findings of the first example that fails; the examples are the same each time."""
    faults: list[str] = []

    @settings(
        derandomize=True,
        database=None,
        deadline=None,
        max_examples=examples,
        phases=(Phase.generate,),
        suppress_health_check=list(HealthCheck),
    )
    @given(law.draw(side.spec))
    def run(case: Given) -> None:
        if not faults:
            faults.extend(list_faults(law, side, case))

    run()
    return faults


def list_faults(law: Law, side: Side, case: Given) -> Iterator[str]:
    """Yield the findings of one example, a missing number among them."""
    try:
        yield from law.judge(side, case)
    except NoNumberError as error:
        yield str(error)


def measure() -> Section:
    spec = load_spec(find_specs())
    found = {law.judge.__name__: try_law(law, Reference(spec, law.asks), EXAMPLES) for law in LAWS}
    held = sum(not faults for faults in found.values())
    return Section(
        "Laws",
        "What holds for any machine (twice the vessels hold twice the water; a margin mirrors its "
        "limit; each dimension adds or takes away) holds in the reference.",
        "a law that nobody wrote down; the workbook, which is compared with the reference above.",
        [Rate("laws that held", held, len(LAWS))],
        [f"{EXAMPLES} machines drawn for each law"],
        [f"{name}: {fault}" for name, faults in found.items() for fault in faults],
    )
