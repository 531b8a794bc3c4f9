"""A fingerprint moves with what a workbook works out, and with nothing else; check demands why."""

import re
from dataclasses import replace
from pathlib import Path

import pytest

from builder import __version__
from builder.problems import Problem
from builder.spec.editions import digest_words
from builder.spec.load import find_specs, load_spec
from builder.spec.records import Edition, Place, Text
from builder.spec.rules_editions import check_changes, check_edition, write_line
from builder.spec.specification import Spec

from .folders import BASE, lay_over

TOPIC = "topics/tank.toml"
FIRST = "[fill_L]\n"
LESS = 'options.less.en = "less"\noptions.less.fr = "moins"\n'


def change(folder: Path, old: str, new: str, file: str = TOPIC) -> Spec:
    """Return the clean specs with the first place of some words changed."""
    path = lay_over(BASE, folder) / file
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8")
    return load_spec(folder)


@pytest.mark.parametrize(
    ("old", "new"),
    [
        (FIRST, f"# A remark.\n{FIRST}"),
        ('kind = "input"\nlabel.en = "Words"', 'label.en = "Words"\nkind = "input"'),
        ('label.en = "Words"', 'label.en = "Other words"'),
        ('options.more.fr = "plus"', 'options.more.fr = "davantage"'),
        ('source = { id = "geometry" }', 'help.en = "Help."\nhelp.fr = "Aide."'),
        ("wash.tank_ok", "wash.core_ok"),
        ('tank_fill_L = "fill_L", ', ""),
        ('check = "tank_ok"', 'check = "tank_ok"\nproof = "other route"'),
        ("formula = 'level_L/2'", "formula = 'level_L/2'\nwidth = 20"),
        ("usual = 2\n", "usual = 2.0\n"),
    ],
)
def test_words_order_and_proof_move_no_fingerprint(tmp_path: Path, old: str, new: str) -> None:
    assert change(tmp_path / "specs", old, new).digest == load_spec(BASE).digest


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("usual = 2\n", "usual = 3\n"),
        ("max = 9", "max = 8"),
        ('unit = "L"', 'unit = "mm3/L"'),
        ("value = 1_000_000", "value = 1_000_001"),
        ("MAX(0,fill_L-tank_L)", "MAX(0,tank_L-fill_L)"),
        ('level = "stop"', 'level = "look"'),
        ("[tank_ok]", "[vat_ok]"),
        (LESS, LESS.replace("options.less", "options.fewer")),
        ("options.more.en", 'options.least.en = "a"\noptions.least.fr = "b"\noptions.more.en'),
        ("rows = 3", "rows = 4"),
        ('columns = ["level_L", "next_L"]', 'columns = ["next_L", "level_L"]'),
        ('aim_L = "fill_L"', 'aim_L = "tank_L"'),
        ("PRIOR(next_L)", "PRIOR(level_L)"),
        ('check = "tank_ok"\n', ""),
    ],
)
def test_what_reaches_a_formula_constant_name_or_limit_moves_the_fingerprint(
    tmp_path: Path, old: str, new: str
) -> None:
    assert change(tmp_path / "specs", old, new).digest != load_spec(BASE).digest


def test_order_of_options_moves_the_fingerprint_because_formulas_count_them(tmp_path: Path) -> None:
    more = 'options.more.en = "more"\noptions.more.fr = "plus"\n'
    assert change(tmp_path / "specs", more + LESS, LESS + more).digest != load_spec(BASE).digest


def test_factor_of_a_unit_moves_the_fingerprint_and_its_symbol_does_not(tmp_path: Path) -> None:
    text = (BASE / "units.toml").read_text(encoding="utf-8")
    factor = re.search(r'factor *= "([^"]*)"', text)
    symbol = re.search(r'symbol\.fr *= "[^"]*"', text)
    assert factor is not None
    assert symbol is not None
    units, digest = "units.toml", load_spec(BASE).digest
    other = change(tmp_path / "a", factor[0], f'factor = "{factor[1]}*2"', units)
    assert other.digest != digest
    assert change(tmp_path / "b", symbol[0], 'symbol.fr = "x"', units).digest == digest


def test_words_have_a_fingerprint_of_their_own_in_each_language(tmp_path: Path) -> None:
    other, base = change(tmp_path / "specs", '.fr = "Mots"', '.fr = "Autres"'), load_spec(BASE)
    assert digest_words(other, "en") == digest_words(base, "en")
    assert digest_words(other, "fr") != digest_words(base, "fr")


def edit(**other: str) -> Edition:
    given = {
        "version": "2.0",
        "digest": "aa",
        "told": Text({"en": "More.", "fr": "Plus."}),
        "date": "",
    }
    return Edition(place=Place("specs/editions.toml", 4, {"digest": 6}), **{**given, **other})


def find(*editions: Edition) -> list[Problem]:
    spec = replace(load_spec(BASE), digest="aa", editions=list(editions))
    return list(check_edition(spec, "2.0"))


@pytest.mark.parametrize(
    ("editions", "line", "remedy"),
    [
        ([], 1, '["2.0"] with digest = "aa" and told'),
        ([edit(version="1.9")], 4, '["2.0"] with digest = "aa" and told'),
        ([edit(digest="bb")], 6, 'not out yet: write digest = "aa"'),
        ([edit(digest="bb", date="2026-01-01")], 6, "raise __version__ in builder/__init__.py"),
    ],
)
def test_a_moved_fingerprint_that_is_not_told_is_a_finding_with_what_to_write(
    editions: list[Edition], line: int, remedy: str
) -> None:
    (problem,) = find(*editions)
    assert (problem.code, problem.line) == ("edition-not-told", line)
    assert remedy in problem.remedy


def test_a_told_edition_is_no_finding() -> None:
    assert find(edit(date="2026-01-01"), edit(version="1.9", digest="bb")) == []


def test_list_of_changes_holds_a_line_for_each_edition(tmp_path: Path) -> None:
    older = edit(version="1.9", date="2026-01-01")
    spec, path = replace(load_spec(BASE), editions=[edit(), older]), tmp_path / "changes.md"
    path.write_text(f"# Changes\n{write_line(edit(), 'en')}\n| 1.9 | or so |\n", encoding="utf-8")
    (problem,) = check_changes(spec, path)
    assert (problem.code, problem.name, problem.line) == ("edition-not-told", "1.9", 3)
    assert problem.remedy == "Write: | 1.9 | 2026-01-01 | `aa` | More. |"


def test_this_edition_is_told_in_specs_and_docs() -> None:
    spec = load_spec(find_specs())
    assert spec.editions[0].version == __version__
    assert (find_specs().parent / "docs" / "changes.md").is_file()
    assert list(check_edition(spec, __version__)) == []
    assert list(check_changes(spec, find_specs().parent / "docs" / "changes.md")) == []
