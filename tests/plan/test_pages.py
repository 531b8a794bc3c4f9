"""Pages whose tables and names come from the specs; `--update-golden` writes the tables anew."""

import re
from dataclasses import fields
from pathlib import Path

import pytest

from builder.reference import causes
from builder.spec import records
from builder.spec.specification import Spec
from builder.trial.cases import find_figure

DOCS = Path(__file__).parents[2] / "docs"
PAGE = DOCS / "log.md"
RANKS = (causes.STOP, causes.INCOMPLETE, causes.LOOK, causes.OK)
FIGURES = (
    *("line_slack_frac", "line_slack_pH", "doubt_pH", "acid_lowest_pH", "acid_weak_pH"),
    *("sugar_resolution_brix", "sugar_alarm_brix", "recheck_wait_h"),
    *("flow_wash_pct", "flow_stop_pct", "flow_high_pct", "test_most_gap_degC"),
    *("drop_most_frac", "gauge_step_bar", "prefilter_most_bar"),
    *("storage_most_d", "gap_most_d", "day_most_h", "differs_most_frac"),
)


def list_sentences(spec: Spec, lang: str) -> list[list[str]]:
    """Return the heading and a row for each sentence: number, verdict, what the log says."""
    why, verdict = spec.quantities["why"], spec.quantities["verdict"]
    words = dict(zip(RANKS, verdict.words, strict=True))
    heading = ["", verdict.label.pick(lang), why.label.pick(lang)]
    rows = [
        [str(n), words[causes.rank(n)].pick(lang), sentence.pick(lang)]
        for n, sentence in enumerate(why.words, start=1)
    ]
    return [heading, *rows]


def list_figures(spec: Spec, lang: str) -> list[list[str]]:
    """Return a row for each figure: what it is, its value, where it comes from."""
    rows = [["", "", ""]]
    for name in FIGURES:
        quantity = spec.quantities[name]
        share = quantity.unit == "frac"
        figure = find_figure(quantity)
        number = f"{figure * (100 if share else 1):g}"
        number = number.replace(".", spec.languages[lang].decimal)
        unit = spec.units["pct" if share else quantity.unit].symbol.pick(lang)
        cited = quantity.source
        source = cited.at or spec.sources[cited.id].short
        value = f"{number}\N{NO-BREAK SPACE}{unit}".strip()
        rows.append([quantity.label.pick(lang), value, source.pick(lang)])
    return rows


TABLES = {"sentences": list_sentences, "figures": list_figures}


def write_table(rows: list[list[str]]) -> str:
    lines = [f"| {' | '.join(row)} |" for row in rows]
    return "\n".join([lines[0], "|---" * len(rows[0]) + "|", *lines[1:]])


@pytest.mark.parametrize("lang", ["en", "fr"])
@pytest.mark.parametrize("table", TABLES)
def test_the_page_of_the_log_shows_what_the_specs_say(spec, request, table, lang) -> None:
    text = PAGE.read_text(encoding="utf-8")
    expected = write_table(TABLES[table](spec, lang))
    pattern = re.compile(rf"(<!-- {table} {lang} -->\n)((?:\|.*\n)*)")
    if request.config.getoption("--update-golden"):
        text = pattern.sub(lambda found: f"{found[1]}{expected}\n", text)
        PAGE.write_text(text, encoding="utf-8")
    assert pattern.search(text)[2].splitlines() == expected.splitlines()


def test_the_page_of_renewal_says_what_became_of_every_older_name(spec) -> None:
    page = (DOCS / "renewal.md").read_text("utf-8")
    section = page.split("### What became of ", 1)[1].split("\n##", 1)[0]
    named = re.findall(r"^\| (.+) \| (.+) \|$", section, re.M)
    old, now = (set(re.findall(r"`(\w+)`", "".join(side))) for side in zip(*named, strict=True))
    moved = spec.renaming
    changed = [*moved.names, *moved.kept, *spec.former]
    assert {name.removeprefix("log_") for name in changed} - old == set()
    taken = [kept.column for kept in moved.kept.values()]
    taken += [*moved.first, *moved.first.values(), *(former.to for former in spec.former.values())]
    assert {
        *taken,
        *(also for former in spec.former.values() for also in former.also),
    } - now == set()
    fates = {"dropped", "test"}
    assert now - spec.quantities.keys() - fates == set()


@pytest.mark.parametrize(
    "kind",
    [
        *(records.Input, records.Choice, records.Constant, records.Result),
        *(records.Check, records.Record, records.Grid),
    ],
)
def test_developers_find_every_key_of_a_kind(kind) -> None:
    text = (DOCS.parent / "DEVELOPERS.md").read_text("utf-8")
    row = re.search(rf"^\| `{kind.__name__.lower()}` \|.*\| `([\w ]+)` \|$", text, re.M)
    listed, keys = set(row[1].split()), {field.name for field in fields(kind)}
    common = {field.name for field in fields(records.Quantity)}
    assert listed - keys == keys - listed - common == set()
