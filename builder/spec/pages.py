"""The records of sheets: where quantities stand, and how a sheet prints."""

from dataclasses import dataclass, field

from builder.spec.records import Citation, Place, Text

TICKS = ("done", "date", "initials")  # what is typed beside each step of a checklist
# How the names of typed cells end in each kind of block, before `_typed`; which of them hold days.
TYPED = {"checklist": {f"_{tick}": tick == "date" for tick in TICKS}, "fields": {"": False}}


@dataclass(frozen=True, slots=True)
class Series:
    """One line or set of points of a curve: two columns of a grid."""

    grid: str
    x: str
    y: str
    look: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Chart:
    """A picture of results: bars from one row to another, or a curve of grids."""

    type: str
    alt: Text
    x_title: Text
    y_title: Text
    first: str = ""
    last: str = ""
    series: list[Series] = field(default_factory=list)
    x_range: list[float] = field(default_factory=list)
    y_range: list[float] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class Step:
    """One step of a card or a checklist, or a field to fill in.

    `show` names the quantity whose number stands beside a step of a card, `beside` one more that
    stands before it; `alarm` says that the number should be 0. Where steps lead to sheets, `key` is
    that of a sheet; else it names the typed cells of a step or field for good, whatever its words
    or its row become; `date` says that a field holds a day; `when` are choices, each with the code
    it must have for a step of a checklist to apply.
    """

    text: Text
    show: str = ""
    key: str = ""
    date: bool = False
    when: dict[str, str] = field(default_factory=dict)
    beside: str = ""
    alarm: bool = False


BEHIND = "behind"
ROLES = ("start", "type", "print", BEHIND)  # whom a sheet is for: the first three, people


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """A part of a sheet, top to bottom; what stands on the `back` begins a new page."""

    kind: str
    place: Place
    heading: Text | None = None
    rows: list[str] = field(default_factory=list)
    text: list[Text] = field(default_factory=list)
    steps: list[Step] = field(default_factory=list)
    table: str = ""
    source: Citation | None = None
    chart: Chart | None = None
    drawing: str = ""
    alt: Text | None = None
    back: bool = False

    def typed_keys(self) -> list[tuple[str, bool]]:
        """Return the names, without `_typed`, of cells that people fill in; True for a day."""
        ends = TYPED.get(self.kind, {})
        return [
            (step.key + end, day or step.date) for step in self.steps for end, day in ends.items()
        ]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """Where quantities stand, whom the sheet is for, and how it prints.

    `frozen` columns stay in view; what stands behind prints its first page alone. `percent` is how
    large it prints, where that is not left to its width.
    """

    key: str
    place: Place
    title: Text
    role: str
    intro: list[Text] = field(default_factory=list)
    blocks: list[Block] = field(default_factory=list)
    widths: list[float] = field(default_factory=list)
    frozen: int = 0
    landscape: bool = False
    pages: int = 0
    pages_wide: int = 1
    percent: int = 0
    columns: int = 9
