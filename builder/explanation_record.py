"""What is told of a name, as plain records."""

from dataclasses import asdict, dataclass, field

from builder.calculation import Value

FIRST, OTHERS, ALL = "first", "others", ""  # rows of a grid that have one formula
GIVEN, WORKED = "", "worked"


@dataclass(frozen=True, slots=True)
class Precedent:
    """A name that a formula uses."""

    name: str
    label: str
    value: Value
    unit: str


@dataclass(frozen=True, slots=True)
class Working:
    """Formulas by the rows that have them, and one with the numbers of one row of one machine."""

    formulas: dict[str, str] = field(default_factory=dict)
    numbers: str = ""
    value: Value = None
    row: int = 0
    case: str = GIVEN
    uses: list[Precedent] = field(default_factory=list)


@dataclass(frozen=True, slots=True, kw_only=True)
class Explanation:
    """Everything that is known about one name."""

    name: str
    kind: str
    label: str
    unit: str
    places: list[str]
    cell: str
    bound: dict[str, str]
    grids: list[str]
    working: Working
    close: str
    level: str
    limits: list[float]
    options: dict[str, str]
    columns: list[str]
    source: dict[str, str]
    reference: str
    summary: str
    proof: str

    def to_json(self) -> dict[str, object]:
        """Return plain data for `--json`, the working beside the rest."""
        told = asdict(self)
        return {**told, **told.pop("working")}
