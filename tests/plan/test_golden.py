"""The plan of a small machine as text: a changed cell is a changed line.

The French text holds only the lines that differ from the English: words, never formulas.
`pytest tests/plan --update-golden` writes the texts anew; read the difference before committing it.
"""

from pathlib import Path

import pytest

from builder.exchange.machine import read_machine
from builder.plan.layout import plan_book
from builder.plan.text import write_text
from builder.production import Engine, shorten, work_case
from builder.spec.load import find_specs, load_spec

GOLDEN = Path(__file__).with_name("golden")
MACHINE = Path(__file__).parents[2] / "examples" / "one_vessel.toml"
LONGEST, ROWS, LISTED = 24, 2, 20


def make_lines(lang):
    spec = load_spec(find_specs())
    short, worked = shorten(spec, LONGEST, ROWS), work_case(spec, lang)
    book = plan_book(short, read_machine(MACHINE, spec), lang, "metric", worked)
    return write_text(book, Engine().solve(book)).splitlines()


@pytest.fixture(scope="module")
def english():
    return make_lines("en")


def compare(name, found, request):
    path = GOLDEN / f"{name}.txt"
    if request.config.getoption("--update-golden"):
        path.parent.mkdir(exist_ok=True)
        path.write_text("\n".join(found) + "\n", encoding="utf-8")
    expected = path.read_text(encoding="utf-8").splitlines()
    changed = [line for line in found if line not in set(expected)]
    gone = [line for line in expected if line not in set(found)]
    assert (changed[:LISTED], gone[:LISTED]) == ([], []), "read them; --update-golden keeps them"
    assert found == expected


def test_the_plan_of_a_small_machine_is_the_one_that_was_read(english, request):
    compare("en", english, request)


def test_the_french_plan_differs_in_the_words_that_were_read(english, request):
    known = set(english)
    compare("fr", [line for line in make_lines("fr") if line not in known], request)
