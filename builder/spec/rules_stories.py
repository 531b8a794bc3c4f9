"""Rules for what the words of stories stand for: each name, code and unit is one of the specs."""

from collections.abc import Collection, Iterator

from builder.formula.grids import LIST, split_grid_name
from builder.problems import Problem, suggest
from builder.spec.records import Choice, Grid, Input, Place, Record, Result
from builder.spec.specification import Spec
from builder.spec.stories import EVENT, FORMS, Answer, Columns, StoryWords

Use = tuple[str, Collection[str], tuple[str, ...]]  # a name, the names it may be, where it stands


def check_stories(spec: Spec) -> Iterator[Problem]:
    """Demand that all words of stories stand for something that there is."""
    if spec.stories is None:
        return
    for name, known, keys in list_uses(spec.stories, spec):
        if name not in known:
            text = f"{name!r} is none that can stand here.{suggest(name, known)}"
            yield find_fault(spec.stories.place, text, keys)


def list_uses(words: StoryWords, spec: Spec) -> Iterator[Use]:
    """Yield each name with the names that it may be."""
    typed = [n for n, q in spec.quantities.items() if isinstance(q, Input | Choice)]
    for key in words.facts:
        yield key, {*words.given, *typed}, ("facts", key)
    for key, target in words.given.items():
        known = list_typed(target.grid, spec) if target.grid else typed
        yield target.name, known, ("given", key, "name")
        yield from list_codes(target.words.values(), target.name, spec, ("given", key, "words"))
        if target.over:
            yield target.over, words.facts, ("given", key, "over")
    yield from list_columns(words.rows, spec, "rows")
    yield from list_columns(words.lines, spec, "lines")
    yield from list_events(words, spec)
    for key, fact in words.own_line.items():
        yield key, words.lines.columns, ("own_line", key)
        if isinstance(fact, str):
            yield fact, words.facts, ("own_line", key)
    for key, measure in words.units.items():
        yield measure.column, list_typed(words.lines.grid, spec), ("units", key, "column")
        yield from list_codes([measure.unit], measure.column, spec, ("units", key, "unit"))
    for table in ("told", "asked", "record"):
        for key, answer in getattr(words, table).items():
            yield from list_answer(answer, spec, (table, key))


def list_columns(columns: Columns, spec: Spec, table: str) -> Iterator[Use]:
    """Yield a grid and the columns that are typed into it."""
    grids = [name for name, quantity in spec.quantities.items() if isinstance(quantity, Grid)]
    yield columns.grid, grids, (table, "grid")
    for key, name in columns.columns.items():
        yield name, list_typed(columns.grid, spec), (table, "columns", key)


def list_typed(grid: str, spec: Spec) -> list[str]:
    """Return the columns of a grid that are typed."""
    found = spec.quantities.get(grid)
    names = found.columns if isinstance(found, Grid) else []
    return [name for name in names if getattr(spec.quantities.get(name), "entry", "")]


def list_events(words: StoryWords, spec: Spec) -> Iterator[Use]:
    """Yield the code of each event, and the columns of its sound values."""
    for key, event in words.events.items():
        column = words.rows.columns.get(EVENT, "")
        yield from list_codes([event.code], column, spec, ("events", key, "code"))
        for name in event.sound:
            yield name, words.rows.columns, ("events", key, "sound", name)


def list_codes(
    codes: Collection[str], name: str, spec: Spec, keys: tuple[str, ...]
) -> Iterator[Use]:
    """Yield codes with the options of a choice, or of a column of choices."""
    found = spec.quantities.get(name)
    for code in codes:
        yield code, found.options if isinstance(found, Choice | Record) else (), keys


def list_answer(answer: Answer, spec: Spec, keys: tuple[str, ...]) -> Iterator[Use]:
    """Yield the result or list of an answer, and its form."""
    results = [name for name, quantity in spec.quantities.items() if isinstance(quantity, Result)]
    for key in ("name", "behind"):
        name = getattr(answer, key)
        part = split_grid_name(name, spec.quantities)
        lists = [name] if part and part.part == LIST else []
        if name or key == "name":
            yield name, [*lists, *results], (*keys, key)
    yield answer.form, FORMS, (*keys, "form")


def find_fault(place: Place, text: str, keys: tuple[str, ...]) -> Problem:
    """Return a finding about a word of stories."""
    name, remedy = ".".join(keys), "Name one that exists."
    return Problem(place.file, place.at(*keys), "bad-story-word", name, text, remedy)
