"""Properties that hold for any valid input, tried with many, on the reference and the workbook."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any

from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from builder.production import shorten
from builder.spec.load import find_specs, load_spec
from builder.spec.specification import Spec
from proof import properties_volumes as volumes
from proof import properties_words as words
from proof.figures import Rate, Section
from proof.properties_machines import NoNumberError, machines, rinses, washes
from proof.properties_sides import Reference, Side, narrow
from proof.properties_words import Languages

Draw = Callable[[Spec], st.SearchStrategy[Any]]
Judge = Callable[[Any, Any], Iterator[str]]


@dataclass(frozen=True, slots=True)
class Law:
    """One property: what it is tried on, who judges, and the results it asks the reference for."""

    draw: Draw
    judge: Judge
    asks: tuple[str, ...] = ()


LAWS = (
    Law(machines, volumes.follow_dimensions, volumes.HOLDUPS),
    Law(
        rinses,
        volumes.double_vessels,
        (*volumes.DOUBLED, *volumes.KEPT, *volumes.HOLDUPS, "rinse_by_elements_L"),
    ),
    Law(rinses, volumes.owe_the_rule, ("rinse_owed_L", "elements_n")),
    Law(washes, volumes.dose_each_element, ("cleaner_strength_gpL",)),
    Law(washes, words.mirror_margins, tuple(words.MARGINS)),
    Law(words.cases, words.keep_results_in_any_unit),
)
LANGUAGES = Law(words.cases, words.agree_in_both_languages)
EXAMPLES = 80


@dataclass(slots=True)
class Trial:
    """How many examples were tried, and the findings of the first that failed."""

    tried: int = 0
    faults: tuple[str, ...] = ()


def list_faults(law: Law, side: Side, case: object) -> Iterator[str]:
    """Yield the findings of one example, a missing number among them."""
    try:
        yield from law.judge(side, case)
    except NoNumberError as error:
        yield str(error)


def try_law(law: Law, side: Side, spec: Spec, examples: int) -> Trial:
    """Try a property on the same examples each time; stop at the first that fails."""
    trial = Trial()

    @settings(
        derandomize=True,
        database=None,
        deadline=None,
        max_examples=examples,
        phases=(Phase.generate,),
        suppress_health_check=list(HealthCheck),
    )
    @given(law.draw(spec))
    def run(case: object) -> None:
        if not trial.faults:
            trial.tried += 1
            trial.faults = tuple(list_faults(law, side, case))

    run()
    return trial


def refer(law: Law, spec: Spec) -> Reference:
    """Return the reference with what a law asks of it."""
    return Reference(narrow(spec, law.asks) if law.asks else spec)


def measure() -> Section:
    """Try all properties on the reference and on the workbook."""
    spec = shorten(load_spec(find_specs()))
    both = Languages(spec)
    trials = {}
    for law in LAWS:
        for kind, side in (("reference", refer(law, spec)), ("workbook", both.english)):
            trials[f"{law.judge.__name__}, {kind}"] = try_law(law, side, spec, EXAMPLES)
    trials[LANGUAGES.judge.__name__] = try_law(LANGUAGES, both, spec, EXAMPLES)
    faults = [f"property {name}: {fault}" for name, t in trials.items() for fault in t.faults]
    tried = sum(trial.tried for trial in trials.values())
    held = sum(not trial.faults for trial in trials.values())
    return Section(
        "Properties",
        "Laws that hold for any machine (twice the vessels hold twice the water; a margin mirrors "
        "its limit; units and languages change no result) hold on reference and workbook.",
        "a law that nobody wrote down.",
        [Rate("laws that held on a side", held, len(trials))],
        [f"{tried:,} machines drawn"],
        faults,
    )
