"""Lint of the finished file: one small function a rule."""

from collections.abc import Callable, Iterable, Iterator

from builder.exchange.demo import read_demo
from builder.production import Edition, shorten
from builder.spec.load import find_specs, load_spec
from proof import lint_formulas, lint_limits, lint_looks, lint_names, lint_pages, lint_structure
from proof.broken_files import BREAKS
from proof.figures import Rate, Section
from proof.lint_book import Book
from proof.lint_xml import Findings

Rule = Callable[[Book], Findings]
MODULES = (lint_formulas, lint_names, lint_limits, lint_structure, lint_pages, lint_looks)


def list_rules() -> Iterator[Rule]:
    for module in MODULES:
        for rule in vars(module).values():
            types = getattr(rule, "__annotations__", {})
            own = getattr(rule, "__module__", "") == module.__name__
            if own and types == {"book": Book, "return": Findings}:
                yield rule


RULES = tuple(list_rules())
LANGUAGES, UNITS = ("en", "fr"), ("metric", "us", "imperial")
WHOLE = "metric"  # units of the books that are judged with all rows of their grids


def judge(book: Book, rules: Iterable[Rule] = RULES) -> Iterator[str]:
    """Yield what rules find in a book, each line with its rule."""
    for rule in rules:
        for finding in rule(book):
            yield f"{rule.__name__}: {finding}"


def list_new(known: set[str], broken: Book, rules: Iterable[Rule]) -> Iterator[str]:
    """Yield the rules that find something in a broken book that is not known already."""
    for rule in rules:
        if set(judge(broken, [rule])) - known:
            yield rule.__name__


def list_caught(sound: bytes) -> set[str]:
    """Return the rules that speak about every file made to break them."""
    rules, known = {rule.__name__: rule for rule in RULES}, set(judge(Book(sound)))
    missed = {
        b.rule for b in BREAKS if not any(list_new(known, Book(b.change(sound)), [rules[b.rule]]))
    }
    return {b.rule for b in BREAKS} - missed


def measure() -> Section:
    """Judge the delivered books, and the rules by the files that break them."""
    spec = load_spec(find_specs())
    short = shorten(spec)
    pairs: set[lint_looks.Pair] = set()
    faults: list[str] = []
    for lang in LANGUAGES:
        for units in UNITS:
            held = spec if units == WHOLE else short
            book = Book(Edition(held, lang, units).build(read_demo(held)))
            faults += [f"lint, {lang} {units}: {finding}" for finding in judge(book)]
            pairs |= set(lint_looks.list_pairs(book))
    caught = list_caught(Edition(short, "en", "metric").build(read_demo(short)))
    uncaught = sorted({rule.__name__ for rule in RULES} - caught)
    faults += [f"lint: no broken file makes {rule} speak" for rule in uncaught]
    books = len(LANGUAGES) * len(UNITS)
    return Section(
        "Lint of the file",
        "Every delivered book keeps every rule of the finished file, and each rule has a file "
        "made to break it.",
        "what no rule says; how a page looks to an eye.",
        [Rate("rules that a broken file makes speak", len(caught), len(RULES))],
        [
            f"{books} books judged, {len(LANGUAGES)} of them with all rows of their grids",
            f"{len(BREAKS)} broken files, lowest contrast {lowest(pairs)}",
        ],
        faults,
    )


def lowest(pairs: set[lint_looks.Pair]) -> float:
    """Return the lowest contrast of pairs of colours, rounded down to what a reader compares."""
    return int(100 * min(lint_looks.contrast(*pair) for pair in pairs)) / 100
