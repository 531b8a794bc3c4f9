"""The records that the specs become: one frozen dataclass for each kind of entry."""

from dataclasses import dataclass, field
from fractions import Fraction

PAPERS = ("letter", "a4")
DEFINITION, OTHER_ROUTE = "definition", "other route"
# Reasons to call that follow from no single fact of the log; all others stand in the specs alone.
ALTERED, UNREADABLE, EDITION, EARLIER = "altered", "unreadable", "edition", "earlier"
CONTEST, REWRITTEN, STOPS = "contest", "rewritten", "stops"
SILENT, NOTHING = "silent", "nothing"
OTHER_CAUSES = (
    *(ALTERED, UNREADABLE, EDITION, EARLIER),
    *(CONTEST, REWRITTEN, STOPS, SILENT, NOTHING),
)


@dataclass(frozen=True, slots=True)
class Place:
    """Where an entry stands, and on which line each of its keys."""

    file: str
    line: int
    keys: dict[str, int] = field(default_factory=dict, compare=False, repr=False)

    def at(self, *keys: str) -> int:
        """Return the line of a key, or of the nearest key around it."""
        for size in range(len(keys), 0, -1):
            if line := self.keys.get(".".join(keys[:size])):
                return line
        return self.line


@dataclass(frozen=True, slots=True)
class Language:
    """A language of workbooks: its name in itself, and how its readers print and write numbers."""

    code: str
    name: str
    locale: str
    paper: str
    decimal: str
    place: Place
    lint: str = ""


@dataclass(frozen=True, slots=True)
class Text:
    """The same words in every language, by its code."""

    words: dict[str, str]

    def pick(self, lang: str) -> str:
        """Return the words in a language."""
        return self.words[lang]


@dataclass(frozen=True, slots=True)
class Citation:
    """A place in a source of the registry."""

    id: str
    at: Text | None = None


@dataclass(frozen=True, slots=True)
class Source:
    """A published source, or an honest word on where a figure comes from."""

    id: str
    short: Text
    title: Text
    seen: str
    place: Place


@dataclass(frozen=True, slots=True)
class Edition:
    """A version of the program and the specs, and what it changes for a reader.

    Without a date it is not out yet, and its digest may still move.
    """

    version: str
    digest: str
    told: Text
    place: Place
    date: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Former:
    """An input of an earlier edition: the input that takes its value, and what it said besides."""

    name: str
    place: Place
    to: str
    also: dict[str, object] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class Cause:
    """A reason to call about a machine: its words, and the facts of log and checks behind it.

    `digits` is None where no amount is told. `specs/calls.toml` says what each key means.
    """

    key: str
    place: Place
    label: Text
    urgent: bool = False
    digits: int | None = None
    column: str = ""
    event: str = ""
    last: bool = False
    above: float | None = None
    below: float | None = None
    when: dict[str, float] = field(default_factory=dict)
    limits: list[str] = field(default_factory=list)
    instead: str = ""
    check: str = ""
    quantity: str = ""
    covers: list[str] = field(default_factory=list)
    heading: str = ""
    width: int = 12
    always: bool = False
    charted: bool = False


@dataclass(frozen=True, slots=True)
class Limits:
    """Smallest and largest value that is accepted, both included, in the canonical unit."""

    min: float
    max: float


@dataclass(frozen=True, slots=True)
class Tolerance:
    """How far formula and reference may differ, and why more than the usual 1e-9 relative."""

    abs: float = 0.0
    rel: float = 0.0
    why: str = ""


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit of measure; `factor` and `offset` lead to the base unit of its dimension."""

    key: str
    dimension: str
    factor: Fraction
    offset: Fraction
    suffix: str
    pint: str
    symbol: Text
    reader: dict[str, str]
    place: Place


@dataclass(frozen=True, slots=True, kw_only=True)
class Quantity:
    """What every entry of a topic has."""

    name: str
    place: Place
    label: Text
    unit: str = ""
    digits: int = 0
    help: Text | None = None
    source: Citation | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Input(Quantity):
    """A number that the producer types; no value of the specs is a machine's.

    A blank one is what is `usual`, a rule of practice; or nothing, and formulas then take the
    result `typical`, which follows from the size of the elements; or missing, unless `optional`.
    """

    limits: Limits
    usual: float | None = None
    typical: str = ""
    optional: bool = False
    whole: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice(Quantity):
    """One of a closed list of words; formulas see its code, of a blank one the `usual`."""

    usual: str
    options: dict[str, Text]


@dataclass(frozen=True, slots=True, kw_only=True)
class Constant(Quantity):
    """A figure that nobody types; its reference holds it a second time on purpose."""

    value: float
    reference: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Result(Quantity):
    """A quantity that is worked out; `check` names the verdict shown beside it.

    `words` are shown for 1 to n, or the words that a column of a grid shows, `words_of`.

    `proof` says how far its reference goes: `other route`, or the `definition` once more.
    One with `options` is no number but one of their codes.
    """

    formula: str
    reference: str
    proof: str = DEFINITION
    arguments: dict[str, str] = field(default_factory=dict)
    tolerance: Tolerance | None = None
    check: str = ""
    unit_check: str = ""
    options: dict[str, Text] = field(default_factory=dict)
    words: list[Text] = field(default_factory=list)
    words_of: str = ""
    date: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Check(Quantity):
    """A condition that should hold; otherwise its level is the verdict: look or stop."""

    formula: str
    level: str
    reference: str
    proof: str = DEFINITION
    close: str = ""
    needed: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Record(Quantity):
    """A column of a grid: one formula for all its rows, or typed cells of some entry.

    `entry` is number, date, choice or text; the words of a choice stand in `options`.
    The unit of a typed number may be that of a choice of units, `unit_of`, whose codes are units
    that lead to its `measure`.
    A column may only read a typed one: `codes` of a choice; `used`, a number with its `factor` and
    `offset`; `factor_of` and `offset_of` a choice of units.
    `words` are what a formula's value 1 to n shows, or the headings of the columns of `columns_of`;
    numbers in the formula of a column with `places` are places in the words of another one.
    `optional` names need not be there; `blank` replaces the usual nothing.
    """

    formula: str = ""
    reference: str = ""
    proof: str = DEFINITION
    arguments: dict[str, str] = field(default_factory=dict)
    tolerance: Tolerance | None = None
    unit_check: str = ""
    blank: str = ""
    entry: str = ""
    limits: Limits | None = None
    options: dict[str, Text] = field(default_factory=dict)
    unit_of: str = ""
    measure: str = ""
    codes: str = ""
    used: str = ""
    factor: str = ""
    offset: str = ""
    factor_of: str = ""
    offset_of: str = ""
    words: list[Text] = field(default_factory=list)
    columns_of: str = ""
    places: str = ""
    optional: list[str] = field(default_factory=list)
    date: bool = False
    text: bool = False
    width: float = 0.0

    @property
    def made_from(self) -> str:
        """The typed column that this one reads, if it does only that."""
        return self.codes or self.used or self.factor_of or self.offset_of

    @property
    def worded(self) -> bool:
        """Whether its cells show words of a list by their places."""
        return bool(self.words or self.columns_of)


@dataclass(frozen=True, slots=True, kw_only=True)
class Grid(Quantity):
    """Rows of records; `first` and `rest` override formulas, `bind` renames what they use.

    `beside` names a grid in whose rows this one goes on to the right; formulas of an `open` grid
    deal with blanks themselves. `reference` gives all columns that it knows at once. `newest` is
    the quantity that tells which row of the choices of units holds now.
    """

    rows: int
    columns: list[str]
    guard: str = ""
    beside: str = ""
    open: bool = False
    newest: str = ""
    reference: str = ""
    proof: str = DEFINITION
    bind: dict[str, str] = field(default_factory=dict)
    first: dict[str, str] = field(default_factory=dict)
    rest: dict[str, str] = field(default_factory=dict)
