"""Rules for the reasons to call: what they follow from exists, and their words have known gaps."""

from collections.abc import Collection, Iterator
from string import Formatter

from builder.formula.grids import list_group
from builder.problems import Problem, suggest
from builder.spec.records import OTHER_CAUSES, Cause, Check, Grid, Record
from builder.spec.specification import Spec

FILE, LOG, EVENT = "specs/calls.toml", "log", "event"
GAPS = ("amount", "limit", "day", "count", "names")


def check_calls(spec: Spec) -> Iterator[Problem]:
    """Demand that each reason to call follows from something that there is."""
    for cause in spec.causes.values():
        for key, names, known in list_uses(cause, spec):
            for name in names:
                if name not in known:
                    text = f"{key} {name!r} does not exist.{suggest(name, known)}"
                    yield find_fault(cause, text, "Name one that exists.", key)
    if spec.causes:
        yield from check_others(spec)


def list_uses(cause: Cause, spec: Spec) -> Iterator[tuple[str, Collection[str], Collection[str]]]:
    """Yield each key of a reason with the names that it uses, and those that it may use."""
    quantities = spec.quantities
    grid, event = quantities.get(LOG), quantities.get(EVENT)
    group = list_group(grid, quantities) if isinstance(grid, Grid) else []
    columns = [name for member in group for name in member.columns]
    checks = [name for name, quantity in quantities.items() if isinstance(quantity, Check)]
    yield "column", filter_names(cause.column), columns
    yield "when", cause.when, columns
    yield "event", filter_names(cause.event), event.options if isinstance(event, Record) else ()
    yield "limits", cause.limits, quantities
    yield "instead", filter_names(cause.instead), quantities
    yield "quantity", filter_names(cause.quantity), quantities
    yield "check", filter_names(cause.check), checks
    yield "covers", cause.covers, checks
    yield "heading", filter_names(cause.heading), spec.words
    first = find_gaps(cause.label.pick(spec.main_language))
    for words in cause.label.words.values():
        yield "label", find_gaps(words), GAPS
        yield "label", first, find_gaps(words)


def find_gaps(words: str) -> list[str]:
    """Return what is filled into words."""
    return [gap for _, gap, _, _ in Formatter().parse(words) if gap is not None]


def filter_names(name: str) -> list[str]:
    """Return a name as a list, an empty one as none."""
    return [name] if name else []


def check_others(spec: Spec) -> Iterator[Problem]:
    """Demand the reasons that no single fact gives, no others without one, and one to draw."""
    for key in OTHER_CAUSES:
        if key not in spec.causes:
            text = "is missing: the audit, or what is left, gives this reason."
            yield Problem(FILE, 1, "bad-call", key, text, "Put it in its place among the others.")
    for key, cause in spec.causes.items():
        if not cause.column and key not in OTHER_CAUSES:
            text = "has no column, and nothing else gives it."
            yield find_fault(cause, text, "Name a column of the log, or remove it.")
    if sum(cause.charted for cause in spec.causes.values()) != 1:
        text = "not exactly one reason is drawn."
        yield Problem(FILE, 1, "bad-call", "charted", text, "Write charted = true in one.")


def find_fault(cause: Cause, text: str, remedy: str, *keys: str) -> Problem:
    """Return a finding about a reason."""
    return Problem(FILE, cause.place.at(*keys), "bad-call", cause.key, text, remedy)
