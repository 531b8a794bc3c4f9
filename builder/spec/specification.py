"""Everything the specs say, and the worked case behind the self-test."""

from dataclasses import dataclass, field

from builder.spec.pages import Sheet
from builder.spec.records import (
    Cause,
    Edition,
    Former,
    Language,
    Place,
    Quantity,
    Source,
    Text,
    Unit,
)
from builder.spec.renaming import Renaming
from builder.spec.stories import StoryWords


@dataclass(frozen=True, slots=True, kw_only=True)
class Worked:
    """A case without zeros, ones, ties or idle branches, for the self-test."""

    place: Place
    given: dict[str, object] = field(default_factory=dict)
    entries: dict[str, list[dict[str, float | str | None]]] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Spec:
    """Everything the specs say."""

    languages: dict[str, Language]
    quantities: dict[str, Quantity]
    sheets: list[Sheet]
    units: dict[str, Unit]
    sources: dict[str, Source]
    words: dict[str, Text]
    tables: dict[str, list[list[str]]]
    digest: str
    drawings: dict[str, bytes] = field(default_factory=dict)
    word_places: dict[str, Place] = field(default_factory=dict)
    worked: Worked = field(default_factory=lambda: Worked(place=Place("", 1)))
    editions: list[Edition] = field(default_factory=list)
    causes: dict[str, Cause] = field(default_factory=dict)
    former: dict[str, Former] = field(default_factory=dict)
    stories: StoryWords | None = None
    renaming: Renaming | None = None

    @property
    def main_language(self) -> str:
        """The code of the first language: of the command line, and of books that name none."""
        return next(iter(self.languages))
