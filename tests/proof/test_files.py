"""Each damage is real and stands alone in its place; an audit that overlooks one turns it red."""

from collections import Counter

import pytest

from builder.audit.findings import Finding, Report
from builder.audit.normalization import normalize_formula
from builder.exchange.demo import read_demo
from proof import files
from proof.files import Bench, Tally, count, deal, list_wrong, open_bench, pick
from proof.files_draft import Mutant, Sign
from proof.files_formulas import change_formula, list_changes
from proof.files_rows import list_insertions, list_swaps
from proof.files_shares import change_shares
from proof.files_whole import list_whole
from proof.lint_book import Book


@pytest.fixture(scope="module")
def bench(spec) -> Bench:
    """Return the bench of a book whose long grids are cut, as their rows are alike."""
    return open_bench("book", spec, read_demo(spec), "en", "metric")


@pytest.fixture(scope="module")
def dealt(bench) -> list[list[Mutant]]:
    return deal(bench.list_dealt(), files.FILES)


def find(dealt, kind: str) -> Mutant:
    return next(m for mutants in dealt for m in mutants if m.kind == kind)


def report(*faults: Finding) -> Report:
    return Report("back.xlsx", "1", list(faults), [], 0, 0)


def test_every_damage_changes_its_piece(bench, dealt) -> None:
    same = [
        str(mutant)
        for mutant in (*(m for mutants in dealt for m in mutants), *list_whole(bench.draft))
        if any(text == bench.draft.pieces[key] for key, text in mutant.changes.items())
    ]
    assert same == []


def test_every_damage_is_dealt_once_and_no_place_twice_in_a_file(bench, dealt) -> None:
    made = Counter(mutant.kind for mutant in bench.list_dealt())
    assert Counter(m.kind for mutants in dealt for m in mutants) == made
    for mutants in dealt:
        keys = [key for mutant in mutants for key in mutant.changes]
        assert len(keys) == len(set(keys))


def test_every_formula_and_every_name_of_the_book_is_damaged(bench, dealt) -> None:
    places = {
        kind: {m.place if kind.startswith("formula") else m.quantity for m in pile}
        for kind, pile in group(dealt).items()
    }
    checks = {m.place for m in group(dealt)["check changed"]}
    formulas = {place for place, _ in Book(bench.draft.write({})).formulas}
    assert places["formula changed"] | checks == formulas
    assert places["name deleted"] == {name.name for name in bench.draft.book.names}


def group(dealt) -> dict[str, list[Mutant]]:
    kinds: dict[str, list[Mutant]] = {}
    for mutants in dealt:
        for mutant in mutants:
            kinds.setdefault(mutant.kind, []).append(mutant)
    return kinds


@pytest.mark.parametrize("formula", ["A1+2", 'IF($B$2>=0,"x",MAX(C3:C9))', "machine_title"])
def test_a_changed_formula_says_something_else(formula: str) -> None:
    own = normalize_formula(f"={formula}")
    changed = [*list_changes(formula), change_formula(formula, "seed")]
    assert [text for text in changed if normalize_formula(f"={text}") == own] == []


def test_swapped_rows_are_told_where_what_is_locked_differs(bench) -> None:
    mutants = [m for parity in (0, 1) for m in list_swaps(bench.draft, parity)]
    unlocked = bench.draft.book.unlocked
    assert len(mutants) > 1000
    assert all(mutant.signs for mutant in (*mutants, *list_insertions(bench.draft)))
    assert unlocked


def test_a_book_with_nothing_damaged_is_sound(bench) -> None:
    assert [str(fault) for fault in bench.audit([]).faults] == []


def test_a_shared_formula_is_wrong_in_each_of_its_cells(bench) -> None:
    damaged, mutants = change_shares(bench.sound)
    own, found = (dict(Book(data).formulas) for data in (bench.sound, damaged))
    told = {sign.place for mutant in mutants for sign in mutant.signs}
    assert told == {place for place, formula in found.items() if formula != own[place]}
    assert len(told) > 3 * len(mutants) > 300


@pytest.mark.parametrize(
    ("overlooked", "kind"),
    [
        ("builder.audit.structure.compare_looks", "formula in the ink of its ground"),
        ("builder.audit.structure.compare_cells", "constant changed"),
        ("builder.audit.structure.compare_names", "name redirected"),
        ("builder.audit.structure.compare_colours", "colours of stop on ok"),
        ("builder.audit.trimmings.find_unseen", "row hidden"),
    ],
)
def test_an_audit_that_overlooks_a_kind_turns_red(
    bench, dealt, monkeypatch, overlooked: str, kind: str
) -> None:
    mutant = find(dealt, kind)
    sound, blind = Tally(), Tally()
    count(sound, bench, [mutant])
    monkeypatch.setattr(overlooked, lambda *_: iter(()))
    count(blind, bench, [mutant])
    assert (sound.faults, sound.named[kind]) == ([], 1)
    assert blind.faults == [f"book: {mutant}: not named"]
    assert (blind.made[kind], blind.named[kind]) == (1, 0)


def test_an_audit_that_names_another_place_turns_red() -> None:
    mutant = Mutant("formula changed", "Rinse!B5", "rinse_L", {}, (Sign("Rinse!B5", "formula, "),))
    right = Finding("Rinse!B5", "rinse_L", "formula, found =1, expected =2")
    wrong = Finding("Rinse!B6", "", "formula, found =1, expected =2")
    follows = Finding("Rinse!B7", "", "value, found 1, expected 2 (ironcalc)")
    assert list(list_wrong(report(right, follows), [mutant])) == []
    assert list(list_wrong(report(wrong), [mutant])) == [f"{wrong} although it is sound"]
    assert files.is_seen(mutant.signs[0], files.read(report(right)))
    assert not files.is_seen(mutant.signs[0], files.read(report(wrong, follows)))


def test_areas_rows_and_columns_are_found_one_by_one() -> None:
    lost = "colours of states lost in B2, H7:H9; a program that saved the file dropped them"
    spans = "rows or columns 7, AB, found hidden, expected shown"
    told = files.read(report(Finding("Rinse!B2", "", lost), Finding("Rinse", "", spans)))
    assert told["Rinse!H7:H9"] == ["colours of states lost"]
    assert told["Rinse AB"] == ["span, found hidden"]


def test_the_shares_tried_alone_are_of_different_kinds(dealt) -> None:
    mutants = [mutant for pile in dealt for mutant in pile]
    first, second = (pick(mutants, slice(n * 10, n * 10 + 10)) for n in (0, 1))
    assert len({m.kind for m in (*first, *second)}) == 20


def test_a_file_is_put_together_again_as_it_was(bench) -> None:
    assert Book(bench.draft.write({})).parts == bench.draft.book.parts


def test_damage_spells_the_place_and_the_quantity(dealt) -> None:
    mutant = find(dealt, "check emptied")
    assert str(mutant) == f"check emptied, {mutant.place}, {mutant.quantity}"
    assert mutant.quantity.endswith("_ok")
