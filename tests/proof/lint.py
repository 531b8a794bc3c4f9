"""Lint of the finished file: one small function a rule, all in one list."""

from collections.abc import Callable, Iterable, Iterator

from builder.exchange.machine import Machine
from builder.production import Edition, shorten
from builder.spec.load import find_specs, load_spec
from proof import (
    lint_formulas,
    lint_limits,
    lint_looks,
    lint_names,
    lint_pages,
    lint_structure,
)
from proof.broken_files import BREAKS
from proof.figures import Rate, Section
from proof.lint_book import Book
from proof.lint_xml import Findings

Rule = Callable[[Book], Findings]
RULES: tuple[Rule, ...] = (
    lint_formulas.functions_are_portable,
    lint_formulas.nothing_is_volatile,
    lint_formulas.formulas_are_no_arrays,
    lint_formulas.formulas_stay_in_the_file,
    lint_formulas.references_lead_to_cells,
    lint_formulas.references_have_ends,
    lint_formulas.references_are_single,
    lint_formulas.numbers_are_readable,
    lint_formulas.criteria_are_whole_numbers,
    lint_formulas.signs_stand_alone,
    lint_formulas.formulas_are_short,
    lint_formulas.formulas_nest_little,
    lint_formulas.columns_repeat_one_formula,
    lint_formulas.formulas_have_values,
    lint_formulas.values_are_no_errors,
    lint_names.names_follow_the_pattern,
    lint_names.names_are_no_addresses,
    lint_names.names_differ_in_more_than_case,
    lint_names.names_belong_to_the_book,
    lint_names.names_lead_to_cells,
    lint_names.names_lead_to_one_column,
    lint_names.names_are_shown,
    lint_names.names_of_typed_cells_lead_to_unlocked_cells,
    lint_limits.titles_of_sheets_fit,
    lint_limits.titles_of_sheets_differ,
    lint_limits.texts_of_cells_fit,
    lint_limits.lists_of_validations_fit,
    lint_limits.prompts_fit,
    lint_limits.footers_fit,
    lint_limits.styles_are_few,
    lint_limits.conditional_formats_are_few,
    lint_limits.sheets_are_small,
    lint_limits.rows_and_columns_are_of_size,
    lint_limits.cells_stand_in_order,
    lint_limits.the_file_is_small,
    lint_structure.parts_are_known,
    lint_structure.nothing_is_a_program,
    lint_structure.nothing_leads_out_of_the_file,
    lint_structure.sheets_are_shown,
    lint_structure.rows_and_columns_are_shown,
    lint_structure.cells_are_not_merged,
    lint_structure.sheets_are_protected,
    lint_structure.unlocked_cells_are_for_typing,
    lint_structure.rows_and_columns_are_locked,
    lint_structure.calculation_is_plain,
    lint_structure.conditional_formats_compare_words,
    lint_structure.the_file_follows_the_standard,
    lint_pages.the_book_tells_its_language,
    lint_pages.sheets_speak_one_language,
    lint_pages.sheets_begin_with_their_title,
    lint_pages.headings_are_frozen,
    lint_pages.sheets_fit_their_paper,
    lint_pages.prints_repeat_their_heads,
    lint_pages.pages_are_numbered,
    lint_pages.nobody_is_named,
    lint_pages.dates_are_fixed,
    lint_pages.no_computer_is_named,
    lint_looks.texts_stand_out,
    lint_looks.lines_of_charts_stand_out,
    lint_looks.charts_have_words,
    lint_looks.charts_have_titles,
    lint_looks.axes_have_titles,
    lint_looks.lines_of_charts_have_names,
    lint_looks.number_formats_are_of_no_country,
)
LANGUAGES, UNITS = ("en", "fr"), ("metric", "us", "imperial")


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
    pairs: set[lint_looks.Pair] = set()
    faults: list[str] = []
    for lang in LANGUAGES:
        for units in UNITS:
            book = Book(Edition(spec, lang, units).build(Machine()))
            faults += [f"lint, {lang} {units}: {finding}" for finding in judge(book)]
            pairs |= set(lint_looks.list_pairs(book))
    caught = list_caught(Edition(shorten(spec), "en", "metric").build(Machine()))
    uncaught = sorted({rule.__name__ for rule in RULES} - caught)
    faults += [f"lint: no broken file makes {rule} speak" for rule in uncaught]
    books = len(LANGUAGES) * len(UNITS)
    return Section(
        "Lint of the file",
        "Every delivered book keeps every rule of the finished file, and each rule has a file "
        "made to break it.",
        "what no rule says; how a page looks to an eye.",
        [Rate("rules that a broken file makes speak", len(caught), len(RULES))],
        [f"{books} books judged, {len(BREAKS)} broken files, lowest contrast {lowest(pairs)}"],
        faults,
    )


def lowest(pairs: set[lint_looks.Pair]) -> float:
    """Return the lowest contrast of pairs of colours, rounded down to what a reader compares."""
    return int(100 * min(lint_looks.contrast(*pair) for pair in pairs)) / 100
