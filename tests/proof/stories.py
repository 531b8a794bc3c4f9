"""Stories of seasons, worked out by hand, played through the reference and two engines."""

from pathlib import Path

from workbook.tools import OFFICE, list_missing

from builder.replay.comparison import Difference
from builder.replay.engine import Engine
from builder.replay.replay import replay
from builder.replay.story import Story, read_stories
from builder.spec.load import find_specs, load_spec
from builder.spec.specification import Spec
from proof.figures import Rate, Section

FOLDER = Path(__file__).parents[1] / "stories"
FEW_ROWS = 32  # all but a handful of stories have fewer: a short workbook is enough for them
NAMES = {
    Engine.REFERENCE: "the reference",
    Engine.IRONCALC: "ironcalc",
    Engine.OFFICE: "LibreOffice",
}
LISTED = 20


def measure() -> Section:
    """Play every story through each engine."""
    spec = load_spec(find_specs())
    stories = read_stories(sorted(FOLDER.glob("*.toml")), spec)
    there = [
        engine for engine in NAMES if engine != Engine.OFFICE or not any(list_missing(*OFFICE))
    ]
    told = {engine: play(stories, spec, engine) for engine in there}
    rates = [
        Rate(
            f"stories that end in {NAMES[engine]} as worked out by hand",
            sum(not differences for differences in played),
            len(played),
        )
        for engine, played in told.items()
    ]
    faults = [str(one) for played in told.values() for found in played for one in found]
    faults += [f"LibreOffice left out: {text}" for text in list_missing(*OFFICE)]
    return Section(
        "Stories",
        "Whoever wrote a story saw neither formula nor reference; each tells what was typed in a "
        "season and what the log, the record and the forecast are to say.",
        "what no story tells; a mistake that a story's author shares with the formulas.",
        rates,
        [f"{len(stories)} stories, {sum(len(s.rows) for s in stories):,} typed rows of the log"],
        faults[:LISTED],
    )


def play(stories: list[Story], spec: Spec, engine: Engine) -> list[list[Difference]]:
    """Return what differs in each story; those of few rows share a short workbook."""
    few = [story for story in stories if len(story.rows) <= FEW_ROWS]
    many = [story for story in stories if len(story.rows) > FEW_ROWS]
    return [
        played.differences
        for some in (few, many)
        for played in replay(some, spec, engine, spec.main_language, short=True)
    ]
