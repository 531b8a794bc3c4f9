"""What the proof measures: shares that must not fall below a threshold, and counts that inform."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

INTRODUCTION = (
    "Written by `bash tests/run proof`, which fails where a rate is too low. "
    "Shares are what is demanded; the numbers behind them only inform."
)


@dataclass(frozen=True, slots=True)
class Rate:
    """How many of how many held, and the least share that must."""

    name: str
    good: int
    all: int
    least: float = 1.0

    @property
    def share(self) -> float:
        """Return the share that held; of nothing, nothing."""
        return self.good / self.all if self.all else 0.0

    def show(self) -> str:
        """Return a row of the table."""
        return f"| {self.name} | {self.good:,} of {self.all:,} | {100 * self.least:g}% at least |"


@dataclass(frozen=True, slots=True)
class Section:
    """One part: its claim, what it cannot see, its rates, and lines that only inform.

    Faults turn the proof red whatever the rates say.
    """

    title: str
    claim: str
    blind: str
    rates: list[Rate]
    lines: list[str] = field(default_factory=list)
    faults: list[str] = field(default_factory=list)

    def list_faults(self) -> Iterator[str]:
        """Yield the faults, and each rate that is too low."""
        yield from (f"{self.title}: {fault}" for fault in self.faults)
        for rate in self.rates:
            if rate.share < rate.least:
                yield f"{self.title}: {rate.name}: {rate.good} of {rate.all} is too few"


def write_page(sections: Sequence[Section], versions: dict[str, str]) -> str:
    """Return docs/proof.md: what is claimed, what it cannot see, and what was measured."""
    listed = ", ".join(f"{name} {version}" for name, version in versions.items())
    parts = [
        "# Proof",
        INTRODUCTION,
        f"Measured with {listed}. Not tried: Excel, phones, the web; nobody had them at hand.",
    ]
    for section in sections:
        rows = [rate.show() for rate in section.rates]
        table = "\n".join(["| what held | how often | demanded |", "|---|---|---|", *rows])
        lines = "\n".join(f"- {line}" for line in section.lines)
        blind = f"It cannot see: {section.blind}"
        parts += [f"## {section.title}", section.claim, table, *([lines] if lines else []), blind]
    return "\n\n".join(parts) + "\n"
