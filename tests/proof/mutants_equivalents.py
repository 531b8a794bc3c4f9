"""Mutants that are no fault: they give the same values for every input; each class has a reason."""

import re
import tomllib
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from proof.mutants_list import Mutant

LISTED = Path(__file__).with_name("equivalents.toml")


@dataclass(frozen=True, slots=True)
class Kind:
    """A class of equivalents: which formulas, which changes of them, why, and how many at most."""

    of: re.Pattern[str]
    text: re.Pattern[str]
    reason: str
    most: int

    def fits(self, mutant: Mutant) -> bool:
        """Tell whether a mutant belongs to this class."""
        return bool(self.of.fullmatch(mutant.label) and self.text.search(mutant.text))


def read_kinds(path: Path = LISTED) -> list[Kind]:
    """Return the classes that are listed."""
    entries = tomllib.loads(path.read_text(encoding="utf-8")).get("equivalent", [])
    return [
        Kind(re.compile(e["of"]), re.compile(e["text"]), e["reason"], e["most"]) for e in entries
    ]


def find_kind(mutant: Mutant, kinds: list[Kind]) -> Kind | None:
    """Return the first class that a mutant belongs to."""
    return next((kind for kind in kinds if kind.fits(mutant)), None)


def judge_survivors(survivors: Iterable[Mutant], kinds: list[Kind]) -> tuple[int, list[str]]:
    """Return how many survivors are listed, and what is wrong with the others or with the list."""
    found = [(mutant, find_kind(mutant, kinds)) for mutant in survivors]
    faults = [f"survived: {mutant.title} ({mutant.kind})" for mutant, kind in found if not kind]
    counts = Counter(kind for _, kind in found if kind)
    for kind in kinds:
        told = f"equivalents of {kind.of.pattern!r} with {kind.text.pattern!r}"
        if counts[kind] > kind.most:
            faults.append(f"{told}: {counts[kind]} survived, {kind.most} at most are listed")
        elif not counts[kind]:
            faults.append(f"{told}: none survived, so the entry goes")
    return sum(counts.values()), faults
