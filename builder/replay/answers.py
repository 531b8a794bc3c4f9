"""Reads what a season shows, and says it in the words of stories."""

from collections.abc import Mapping
from datetime import timedelta

from builder.calculation import Value
from builder.replay.entries import DAY_0
from builder.spec.stories import COUNT, DATE, TRUTH, Answer, StoryWords

Shown = Mapping[str, list[Value]]  # by the name of a result or list
Told = str | float | bool | None


def read_answers(shown: Shown, words: StoryWords, rows: int) -> dict[str, object]:
    """Return every answer by its word: one, or one for each row of the story."""
    return {
        key: read_answer(answer, shown, rows)
        for key, answer in {**words.told, **words.asked}.items()
    }


def read_answer(answer: Answer, shown: Shown, rows: int) -> object:
    """Return one answer."""
    values = shown.get(answer.name) or [classify(v, answer) for v in shown[answer.behind]]
    if answer.form == COUNT:
        return sum(isinstance(value, float) for value in values)
    if answer.by_row:
        return [tell(answer, value) for value in values[:rows]]
    return tell(answer, values[0])


def classify(value: Value, answer: Answer) -> Value:
    """Return the number of the first class of an answer that a number is in."""
    if not isinstance(value, float):
        return value
    return next((float(n) for n, last in enumerate(answer.last, 1) if value <= last), None)


def read_record(shown: Shown, words: StoryWords) -> list[dict[str, object]]:
    """Return the lines of the record; a line without its first answer is none."""
    columns = {key: shown[answer.name] for key, answer in words.record.items()}
    first = next(iter(columns.values()))
    return [
        {key: tell(words.record[key], column[line]) for key, column in columns.items()}
        for line, value in enumerate(first)
        if value is not None
    ]


def tell(answer: Answer, value: Value) -> Told:
    """Return a value as stories say it: a word, a date as text, a whole number without point."""
    if answer.words:
        return tell_word(answer.words, value)
    if not isinstance(value, float):
        return answer.codes.get(str(value), value)
    if answer.form == DATE:
        return (DAY_0 + timedelta(days=value)).isoformat()
    if answer.form == TRUTH:
        return bool(value)
    return int(value) if value.is_integer() else value


def tell_word(words: list[str], value: Value) -> str:
    """Return the word of a number from 1; nothing for none, and whatever else as it is."""
    if not isinstance(value, float):
        return value or ""
    known = value.is_integer() and 0 < value <= len(words)
    return words[int(value) - 1] if known else "" if not value else f"no word {value:g}"
