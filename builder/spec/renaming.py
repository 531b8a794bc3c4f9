"""What older editions call otherwise, and what became of the values that their log kept."""

from dataclasses import dataclass, field

from builder.spec.records import Place


@dataclass(frozen=True, slots=True, kw_only=True)
class Kept:
    """The column of a line in force for a column of an older log, and the strip of its pH."""

    column: str
    strip: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Renaming:
    """Names by their old ones, and how a line in force (`grid`) comes from kept values.

    `first` are results of today that a line takes, `product` what is a product of two others,
    `needed` what a line must have, `temp` the input at whose temperature a kept pH was meant.
    """

    place: Place
    grid: str
    day: str
    days: str
    temp: str
    needed: list[str]
    first: dict[str, str] = field(default_factory=dict)
    product: dict[str, list[str]] = field(default_factory=dict)
    names: dict[str, str] = field(default_factory=dict)
    kept: dict[str, Kept] = field(default_factory=dict)
