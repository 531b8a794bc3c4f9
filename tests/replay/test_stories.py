"""Every story ends as its author worked out by hand, whatever plays it."""

from pathlib import Path

import pytest

from builder.calculation import Calculator
from builder.replay.engine import Engine
from builder.replay.entries import make_case
from builder.replay.players import stretch
from builder.replay.replay import replay
from builder.replay.story import Story, read_stories
from builder.spec.specification import Spec
from builder.trial.bench import Bench
from builder.trial.comparison import list_differences as list_differences_of

FOLDER = Path(__file__).parents[1] / "stories"
FEW_ROWS = 32  # all but a handful of stories have fewer


@pytest.fixture(scope="module")
def stories(spec: Spec) -> list[Story]:
    return read_stories(sorted(FOLDER.glob("*.toml")), spec)


def list_differences(stories: list[Story], spec: Spec, engine: Engine, lang: str) -> list[str]:
    """Return all that differs; stories of few rows share a short workbook, the others a long."""
    few = [story for story in stories if len(story.rows) <= FEW_ROWS]
    many = [story for story in stories if len(story.rows) > FEW_ROWS]
    return [
        str(difference)
        for some in (few, many)
        for played in replay(some, spec, engine, lang, short=True)
        for difference in played.differences
    ]


@pytest.mark.parametrize("engine", [Engine.REFERENCE, Engine.IRONCALC])
def test_all_stories_end_as_worked_out_by_hand(stories, spec, engine):
    assert list_differences(stories, spec, engine, "en") == []


@pytest.mark.parametrize("lang", ["en", "fr"])
def test_all_stories_end_so_in_the_office_program_too(stories, spec, lang):
    assert list_differences(stories, spec, Engine.OFFICE, lang) == []


def test_there_are_stories(stories):
    assert len(stories) > 100


def test_every_result_of_every_story_is_that_of_its_reference(stories, spec):
    few = [story for story in stories if len(story.rows) <= FEW_ROWS]
    short = stretch(spec, FEW_ROWS, short=True)
    bench, calculator = Bench(short, "en"), Calculator(short)
    differences = [
        f"{story.path}: {difference}"
        for story in few
        for case in [make_case(story, short)]
        for difference in list_differences_of(
            calculator.work_out(case.given, case.rows), bench.type(case), bench.names, short, "en"
        )
    ]
    assert differences == []
