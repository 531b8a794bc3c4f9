"""Plays stories one after the other, and tells what differs from what they expect."""

from collections.abc import Iterator
from dataclasses import dataclass

from builder.replay.answers import read_answers, read_record
from builder.replay.comparison import Difference, compare
from builder.replay.engine import Engine
from builder.replay.entries import make_case
from builder.replay.players import open_player, stretch
from builder.replay.story import RECORD, Story, demand_words
from builder.spec.specification import Spec


@dataclass(frozen=True, slots=True)
class Played:
    """What a story has told, by the words of its answers, and where that differs."""

    story: Story
    engine: Engine
    answers: dict[str, object]
    record: list[dict[str, object]]
    differences: list[Difference]

    def to_json(self, told: list[str]) -> dict[str, object]:
        """Return the answers that every story has."""
        answers = {key: self.answers[key] for key in told}
        return {
            "story": self.story.path,
            "engine": str(self.engine),
            **answers,
            RECORD: self.record,
        }


def replay(
    stories: list[Story], spec: Spec, engine: Engine, lang: str, *, short: bool
) -> Iterator[Played]:
    """Yield each story as it is played; a workbook is planned once for all of them."""
    words = demand_words(spec)
    longest = max((len(story.rows) for story in stories), default=0)
    spec = stretch(spec, longest, short=short or engine == Engine.REFERENCE)
    with open_player(engine, spec, lang) as player:
        for story in stories:
            shown = player.play(make_case(story, spec))
            answers = read_answers(shown, words, len(story.rows))
            record = read_record(shown, words)
            yield Played(story, engine, answers, record, compare(story, answers, record))
