"""Bad entries: no error code anywhere, and a word that says what is wrong."""

import pytest

from builder.plan.inputs import name_state
from builder.spec.records import Choice, Input
from builder.trial.cases import Case, list_entries, typed_grids
from builder.trial.placement import list_row_cells, place_case
from workbook.cases import change_demo
from workbook.comparison import compare_cases, listed
from workbook.files import find_errors

TOGETHER = 10  # inputs that are bad at once, where a bad entry never becomes a number
ENTRIES = {
    "blank": (None, 1),
    "letters": ("abc", TOGETHER),
    "a space": (" ", TOGETHER),
    "digits as text": ("8", TOGETHER),
    "zero": (0.0, 1),
    "less than nothing": (-3.0, 1),
    "far too much": (1e9, TOGETHER),
}
UNKNOWN_WORD = "cubit"
WASH = 3  # place of the alkaline wash among the events, on which most columns of a log depend
BAD = ("missing", "text", "range", "unit")


def tell_state(quantity, entry):
    """Return which word an entry deserves."""
    if entry is None:
        blank = "none" if quantity.optional else "missing"
        return "usual" if quantity.usual is not None else "typical" if quantity.typical else blank
    if isinstance(entry, str):
        return "text"
    return "yours" if quantity.limits.min <= entry <= quantity.limits.max else "range"


def judge(engine, spec, typed, wanted):
    """Return what a workbook gets wrong after bad entries; `wanted` is the word of each input."""
    file = engine.file
    demo = place_case(change_demo(spec, "demo", element_size="8x40"), file.names, spec, "en")
    values = engine.solve({**demo, **typed})
    problems = find_errors(values)
    for name, word in wanted.items():
        found = values[file.cell(name_state(name))]
        if found != spec.words[word].pick("en"):
            problems.append(f"{name} is {found!r}, expected {spec.words[word].pick('en')!r}")
    bad = [name for name, word in wanted.items() if word in BAD]
    if values[file.cell("inputs_bad_n")] != len(bad):
        problems.append(f"{values[file.cell('inputs_bad_n')]} inputs are bad, expected {len(bad)}")
    labels = [spec.quantities[name].label.pick("en") for name in bad]
    labels = labels or [spec.words["nothing_to_mend"].pick("en")]
    labels += [values[file.cell(f"{word}_first_txt")] for word in ("stop", "look") if not bad]
    if values[file.cell("mend_first_txt")] not in labels:
        problems.append(f"first to mend is {values[file.cell('mend_first_txt')]!r}")
    return [f"{', '.join(wanted)}: {problem}" for problem in problems]


def group(names, size):
    """Return names some apart from each other, `size` together."""
    step = -(-len(names) // size)
    return [names[first::step] for first in range(step)]


@pytest.mark.parametrize(("entry", "size"), ENTRIES.values(), ids=ENTRIES)
def test_each_input_names_what_is_wrong_with_an_entry(fast, short_spec, entry, size):
    problems = []
    inputs = {n: q for n, q in short_spec.quantities.items() if isinstance(q, Input)}
    for names in group(list(inputs), size):
        typed = {fast.file.cell(f"{name}_typed"): entry for name in names}
        wanted = {name: tell_state(inputs[name], entry) for name in names}
        problems += judge(fast, short_spec, typed, wanted)
    assert not problems, listed(problems)


def test_each_input_names_an_unknown_unit(fast, short_spec):
    file, problems = fast.file, []
    inputs = {n: q for n, q in short_spec.quantities.items() if isinstance(q, Input)}
    with_unit = [name for name in inputs if f"{name}_typed_unit" in file.names]
    for names in group(with_unit, TOGETHER):
        typed = {file.cell(f"{name}_typed_unit"): UNKNOWN_WORD for name in names}
        typed |= {file.cell(f"{name}_typed"): inputs[name].limits.max for name in names}
        problems += judge(fast, short_spec, typed, dict.fromkeys(names, "unit"))
    assert not problems, listed(problems)


@pytest.mark.parametrize(("entry", "word"), [(None, "usual"), ("abc", "range")])
def test_each_choice_names_what_is_wrong_with_a_word(fast, short_spec, entry, word):
    problems = []
    for name, quantity in short_spec.quantities.items():
        if isinstance(quantity, Choice):
            typed = {fast.file.cell(f"{name}_typed"): entry}
            problems += judge(fast, short_spec, typed, {name: word})
    assert not problems, listed(problems)


def test_no_entry_into_a_log_makes_an_error_code(fast, short_spec):
    problems = []
    for name, grid in typed_grids(short_spec).items():
        for column in list_entries(short_spec, grid):
            bad = [entry for entry, _ in ENTRIES.values()][: grid.rows]
            rows = [{**fill_row(short_spec, grid), column.name: entry} for entry in bad]
            rows += [fill_row(short_spec, grid)] * (grid.rows - len(rows))
            errors = find_errors(fast.solve(type_rows(name, rows, fast.file, short_spec)))
            problems += [f"{name} {column.name}: {error}" for error in errors]
    assert not problems, listed(problems)


def test_codes_typed_into_a_log_count_as_their_words(fast, short_spec):
    for name, grid in typed_grids(short_spec).items():
        rows = [fill_row(short_spec, grid)] * grid.rows
        typed = dict(list_row_cells(name, rows, fast.file.names, short_spec, "en"))
        words, codes = fast.solve(typed), dict(typed)
        for column in list_entries(short_spec, grid):
            for cell in fast.file.names[f"{name}_{column.name}_list"] if column.options else []:
                codes[cell] = rows[0][column.name]
        found = fast.solve(codes)
        copies = set(typed.values())  # the record shows words as they were typed
        other = [cell for cell in words if words[cell] != found[cell]]
        assert not [cell for cell in other if words[cell] not in copies]


def test_a_minus_sign_in_a_log_gives_what_the_reference_gives(fast, short_spec):
    cases = []
    for name, grid in typed_grids(short_spec).items():
        row = fill_row(short_spec, grid)
        for column in list_entries(short_spec, grid):
            if column.entry == "number":
                rows = [{**row, column.name: -3.0}, row]
                cases.append(Case(f"{name} {column.name}", rows={name: rows}))
    differences = compare_cases(cases, fast, fast.file, short_spec)
    assert not differences, listed(differences)


def test_an_unknown_event_alone_begins_a_row_and_is_named(fast, short_spec):
    event, verdict, which = (
        fast.file.names[f"log_{name}_list"][0] for name in ("event", "verdict", "cell_n")
    )
    shown = fast.solve({event: UNKNOWN_WORD})
    assert shown[verdict] == short_spec.quantities["verdict"].words[1].pick("en")
    assert shown[which] == short_spec.quantities["event"].label.pick("en")


def fill_row(spec, grid):
    """Return a row in which every cell is typed: limits' middles, first choices, letters."""
    row = {}
    for column in list_entries(spec, grid):
        if column.options:
            row[column.name] = list(column.options)[:WASH][-1]
        elif column.entry == "text":
            row[column.name] = "AB"
        else:
            limits = column.limits
            row[column.name] = (limits.min + limits.max) // 2 if limits else 10.0
    return row


def type_rows(grid, rows, file, spec):
    """Return the cells of rows of which some entries are no option of their column."""
    typed = dict(list_row_cells(grid, [legal(row, spec) for row in rows], file.names, spec, "en"))
    for number, row in enumerate(rows):
        for key, value in row.items():
            if value not in spec.quantities[key].options:
                typed[file.names[f"{grid}_{key}_list"][number]] = value
    return typed


def legal(row, spec):
    """Return a row with a blank for each word that is no option."""
    return {
        key: None
        if spec.quantities[key].options and value not in spec.quantities[key].options
        else value
        for key, value in row.items()
    }
