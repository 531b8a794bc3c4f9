"""What the words of a story stand for: names, codes and units of the specs, and its answers."""

from dataclasses import dataclass, field

from builder.spec.records import Place

EVENT = "event"  # the word of a row that picks its sound values
DATE, TRUTH, COUNT = "date", "truth", "count"
FORMS = ("", DATE, TRUTH, COUNT)
LIST = "_list"


@dataclass(frozen=True, slots=True, kw_only=True)
class Target:
    """The input or choice in which a fact of a story is typed, divided by the fact `over`.

    With a `grid` it is a column, and the fact stands in its first row.
    """

    name: str
    grid: str = ""
    words: dict[str, str] = field(default_factory=dict)
    over: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Columns:
    """The grid of a story's rows or lines, and the column behind each word of a story."""

    grid: str
    columns: dict[str, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Measure:
    """The column in which a line says in which unit its rows are typed, and the usual unit."""

    column: str
    unit: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Event:
    """The code of an event, and what its row holds where a story says nothing else."""

    code: str
    sound: dict[str, object] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """The result or list that answers, and what its numbers 1 to n, or its codes, are called.

    `form` is `date`, `truth` (1 or 0), `count` (how many numbers a list has), or nothing.
    A reference shows no words: there the numbers of `behind` answer, word n up to the n-th of
    `last`.
    """

    name: str
    behind: str = ""
    last: list[float] = field(default_factory=list)
    words: list[str] = field(default_factory=list)
    codes: dict[str, str] = field(default_factory=dict)
    form: str = ""

    @property
    def by_row(self) -> bool:
        """Tell whether there is one answer for each row."""
        return self.name.endswith(LIST) and self.form != COUNT


@dataclass(frozen=True, slots=True, kw_only=True)
class StoryWords:
    """All that stories say and ask, by their own words.

    `facts` is what each story begins with; `own_line` are the facts that its own line in force
    takes where its units are not those of the facts.
    """

    place: Place
    facts: dict[str, object]
    given: dict[str, Target]
    rows: Columns
    events: dict[str, Event]
    lines: Columns
    own_line: dict[str, object]
    units: dict[str, Measure]
    told: dict[str, Answer]
    asked: dict[str, Answer]
    record: dict[str, Answer]
