"""Cleaners whose label tells little, in the geochemical code: what they hold and how they end."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from phreeqc import Phreeqc  # type: ignore[import-untyped]

from tests.reference.geochemistry import ask_code, cool

CLASSES = (0.0, 1.0, 5.0, 10.0, 30.0, 60.0)  # ends of ranges that labels print, %
SODA, SESQUI, PHOSPHATE, POTASH, CAUSTIC = 105.988, 226.03, 163.94, 56.106, 39.997  # g/mol
DISODIUM, TETRASODIUM, OXIDE, SILICA, WATER = 336.2, 380.17, 61.98, 60.08, 18.015
Totals = dict[str, float]


def find_class(share: float) -> tuple[float, float]:
    """Return the printed range that a share lies in."""
    return next((low, high) for low, high in pairwise(CLASSES) if share <= high)


@dataclass
class Cleaner:
    """Mol/L of a wash, as the code names its elements, and what the label and the bucket tell."""

    totals: Totals
    ranges: list[tuple[float, float]]
    strength_gpL: float
    temp: float


@dataclass
class End:
    """A reading of a spent wash with its errors, at a floor that it truly keeps or not."""

    floor: float
    pH: float
    temp: float
    margin: float


def draw_cleaner(dice: np.random.Generator) -> Cleaner:
    """Return a cleaner with potash, phosphate, sesquicarbonate, hydrates and acid EDTA in it."""
    spans = ((0.5, 30), (0, 6), (5, 30), (0, 12), (1, 8), (2, 20), (0, 10))
    caustic, potash, soda, sesqui, silicate, edta, phosphate = (
        float(dice.uniform(*span)) for span in spans
    )
    hydrate, acid = dice.random() < 0.25, dice.random() < 0.25
    ratio = 1.0 if hydrate else float(dice.choice([1.0, 2.0, 3.3]))
    strength, temp = float(dice.uniform(8.0, 24.0)), float(dice.uniform(28.0, 42.0))
    per_pct = strength / 100.0
    silicate_mol = per_pct * silicate / (OXIDE + ratio * SILICA + (5.0 * WATER if hydrate else 0.0))
    edta_mol = per_pct * edta / (DISODIUM if acid else TETRASODIUM)
    soda_mol, sesqui_mol = per_pct * soda / SODA, per_pct * sesqui / SESQUI
    phosphate_mol = per_pct * phosphate / PHOSPHATE
    sodium = per_pct * caustic / CAUSTIC + 2.0 * soda_mol + 3.0 * sesqui_mol + 2.0 * silicate_mol
    totals = {
        "Na": sodium + (2.0 if acid else 4.0) * edta_mol + 3.0 * phosphate_mol,
        "K": per_pct * potash / POTASH,
        "C(4)": soda_mol + 2.0 * sesqui_mol,
        "Si": ratio * silicate_mol,
        "Edta": edta_mol,
        "P": phosphate_mol,
    }
    ranges = [find_class(share) for share in (caustic, soda, silicate, edta)]
    return Cleaner(totals, ranges, strength, temp)


def read_fresh(
    dice: np.random.Generator, code: Phreeqc, cleaner: Cleaner
) -> tuple[float, float, float]:
    """Return the true start at the wash, and pH and degC of the fresh wash as read near 20 degC."""
    start = ask_code(code, cleaner.temp, cleaner.totals)[0]
    fresh = ask_code(code, 20.0, cleaner.totals)[0]
    return start, fresh + float(dice.uniform(-0.1, 0.1)), 20.0 + float(dice.uniform(-2.0, 2.0))


def draw_ends(
    dice: np.random.Generator, code: Phreeqc, cleaner: Cleaner, start: float, count: int
) -> Iterator[End]:
    """Yield readings at 15 to 28 degC, off by 0.1 pH and 2 K at most, after acid soil."""
    for _ in range(count):
        end = start - float(dice.uniform(0.2, 0.6))
        margin = float(dice.uniform(-0.35, 0.35))
        temp = float(dice.uniform(15.0, 28.0))
        pH = cool(code, cleaner.temp, cleaner.totals, end, temp) + float(dice.uniform(-0.1, 0.1))
        yield End(end - margin, pH, temp + float(dice.uniform(-2.0, 2.0)), margin)
