"""Figures of the proof, as they stand in docs/proof.md and must not fall."""

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from enum import Enum

ROW = re.compile(r"^\| (?P<name>[^|]+) \| (?P<value>[-+0-9.e]+) \|")


class Better(Enum):
    """In which direction a figure may move."""

    HIGHER = "may rise"
    LOWER = "may fall"
    ANY = "may move"


@dataclass(frozen=True, slots=True)
class Figure:
    """One measured number; its name is its key in docs/proof.md."""

    name: str
    value: float
    better: Better

    def is_worse_than(self, kept: float) -> bool:
        """Tell whether the figure, as it would be printed, fell behind the one that was kept."""
        now = float(self.show())
        if self.better is Better.HIGHER:
            return now < kept
        return self.better is Better.LOWER and now > kept

    def show(self) -> str:
        """Return the value as the page prints it."""
        return f"{self.value:.10g}"


@dataclass(frozen=True, slots=True)
class Section:
    """What one part of the proof measured; faults turn the proof red whatever the figures say."""

    title: str
    figures: list[Figure]
    lines: list[str] = field(default_factory=list)
    faults: list[str] = field(default_factory=list)


def write_page(sections: Sequence[Section], headline: Iterable[str] = ()) -> str:
    """Return docs/proof.md; the figures of the headline come first and once more in their place."""
    parts = ["# Proof", "Written by `python -m proof` in `tests`, which fails when a figure falls."]
    every = {figure.name: figure for section in sections for figure in section.figures}
    short = [f"- {name}: **{every[name].show()}**" for name in headline if name in every]
    parts += ["\n".join(short)] if short else []
    for section in sections:
        rows = [f"| {f.name} | {f.show()} | {f.better.value} |" for f in section.figures]
        table = "\n".join(["| figure | value | |", "|---|---|---|", *rows])
        lines = "\n".join(f"- {line}" for line in section.lines)
        parts += [f"## {section.title}", table, *([lines] if lines else [])]
    return "\n\n".join(parts) + "\n"


def read_page(text: str) -> dict[str, float]:
    """Return the figures of a kept page by name."""
    found = (ROW.match(line) for line in text.splitlines())
    return {row["name"]: float(row["value"]) for row in found if row}


def find_falls(sections: Iterable[Section], kept: dict[str, float]) -> Iterator[str]:
    """Yield what is worse than it was, or gone."""
    now = {figure.name: figure for section in sections for figure in section.figures}
    for name, value in kept.items():
        if name not in now:
            yield f"{name}: was {value:g}, is not measured any more"
        elif now[name].is_worse_than(value):
            yield f"{name}: was {value:g}, is {now[name].value:g}"
