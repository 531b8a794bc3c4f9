"""The workbook of a story, filled in for a person to look at."""

from builder.calculation import Value
from builder.exchange.machine import Machine, Typed
from builder.production import build_workbook
from builder.replay.entries import make_case
from builder.replay.players import stretch
from builder.replay.story import Story
from builder.spec.specification import Spec


def build_story(story: Story, spec: Spec, lang: str) -> bytes:
    """Return the .xlsx file with everything typed that the story types."""
    case = make_case(story, spec)
    given = {
        name: as_typed(value, spec.quantities[name].unit) for name, value in case.given.items()
    }
    units = str(case.given["reader_units"])
    machine = Machine(title=story.title, given=given, entries=case.rows)
    return build_workbook(stretch(spec, len(story.rows), short=False), machine, lang, units)


def as_typed(value: Value, unit: str) -> Typed:
    """Return a canonical number, or the code of a choice, as it is typed."""
    return Typed(value if isinstance(value, float) else None, str(value or ""), unit)
