"""Compares what a season tells with what its story expects."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from typing import TypeGuard

from builder.replay.story import RECORD, WITHIN, Story
from builder.trial.comparison import ABSOLUTE, RELATIVE

BLANK: tuple[object, ...] = (None, "")


@dataclass(frozen=True, slots=True)
class Difference:
    """One answer that is not what the story expects, with its row or its line of the record."""

    story: str
    place: str
    key: str
    expected: object
    found: object

    def __str__(self) -> str:
        """Return the place, what was expected and what was found."""
        place = f"{self.place} " if self.place else ""
        return f"{self.story}: {place}{self.key}: expected {self.expected!r}, found {self.found!r}"


def compare(
    story: Story, answers: dict[str, object], record: list[dict[str, object]]
) -> list[Difference]:
    """Return all differences of a story."""
    margin = story.expect.get(WITHIN, 0)
    within = float(margin) if isinstance(margin, int | float) else 0.0
    found = list(compare_answers(story, answers, within))
    return found + list(compare_record(story, record))


def compare_answers(
    story: Story, answers: dict[str, object], within: float
) -> Iterator[Difference]:
    """Yield the answers that differ, those of rows row by row."""
    for key in (key for key in story.expect if key not in (RECORD, WITHIN)):
        expected, found = story.expect[key], answers[key]
        if not isinstance(expected, list) or not isinstance(found, list):
            if not agree(expected, found, within):
                yield Difference(story.path, "", key, expected, found)
            continue
        for number, item in enumerate(expected):
            shown = found[number] if number < len(found) else None
            if not agree(item, shown):
                yield Difference(story.path, f"row {number + 1}", key, item, shown)


def compare_record(story: Story, record: list[dict[str, object]]) -> Iterator[Difference]:
    """Yield the lines of the record that differ; a story that expects some expects no others."""
    lines = story.expect.get(RECORD)
    if not isinstance(lines, list):
        return
    if len(lines) != len(record):
        yield Difference(story.path, RECORD, "lines", len(lines), len(record))
    for number, (line, found) in enumerate(zip(lines, record, strict=False), start=1):
        for key, item in line.items():
            if not agree(item, found[key]):
                yield Difference(story.path, f"{RECORD} {number}", key, item, found[key])


def agree(expected: object, found: object, within: float = 0.0) -> bool:
    """Tell whether an answer is the expected one; an empty text is nothing."""
    if isinstance(expected, date):
        expected = expected.isoformat()
    if is_number(expected) and is_number(found):
        size = max(abs(expected), abs(found))
        return abs(expected - found) <= max(within, ABSOLUTE, RELATIVE * size)
    return expected == found or (expected in BLANK and found in BLANK)


def is_number(value: object) -> TypeGuard[float]:
    """Tell whether a value is a number, which true and false are not."""
    return isinstance(value, int | float) and not isinstance(value, bool)
