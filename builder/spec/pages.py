"""The records of sheets: where quantities stand, and how a sheet prints."""

from dataclasses import dataclass, field

from builder.spec.records import Citation, Place, Text


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
    """One step of a card; `show` names the quantity whose number stands beside it."""

    text: Text
    show: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """A part of a sheet, top to bottom."""

    kind: str
    place: Place
    heading: Text | None = None
    rows: list[str] = field(default_factory=list)
    text: list[Text] = field(default_factory=list)
    steps: list[Step] = field(default_factory=list)
    table: str = ""
    source: Citation | None = None
    chart: Chart | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """Where quantities stand and how the sheet prints."""

    key: str
    place: Place
    title: Text
    order: int
    intro: list[Text] = field(default_factory=list)
    blocks: list[Block] = field(default_factory=list)
    widths: list[float] = field(default_factory=list)
    landscape: bool = False
    pages: int = 1
    pages_wide: int = 1
    columns: int = 9
