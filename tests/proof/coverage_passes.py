"""What the passes to a pH should show: first guess, slope, step and ionic strength of each row.

The results only tell where the passes end. Here each row is worked out from the species of the
reference: a slope is the spread of charges, and a guess the base that the salts leave free.
"""

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from builder.reference.equilibrium import _log_kw, _species
from builder.reference.water import activity_coefficient_n
from builder.spec.records import Tolerance
from proof.coverage_scene import Scene, Sight, Wanted

BY = "oracle: a pass to the pH"
NEAR = Tolerance(1e-6, 1e-6, "goes out from a value that the sheet works out in passes itself")
LEAST_GAP = 1e-12  # as of the working sheet: below it no further step is made
LARGEST_STEP = 1.0
GUESSED_SHARE = 1 / 50  # of the alkali that is taken as free at least
Row = dict[str, float]
NEEDED = (
    *("carbonate_molpL", "silicate_molpL", "edta_molpL", "alkali_eqpL", "end_alkali_eqpL"),
    *("wash_temp_degC", "base_temp_degC", "end_reading_degC", "floor_pH", "end_pH"),
    *("wash_start_pH", "guess_ionic_molpL", "ionic_max_molpL"),
)


@dataclass(frozen=True, slots=True)
class Bath:
    """A wash at a temperature."""

    temp_degC: float
    alkali: float
    totals: tuple[float, float, float]
    guess: float
    top: float


@dataclass(frozen=True, slots=True)
class Pass:
    """One look at a bath: alkali free and bound by one strength, slope, ionic strength."""

    free: float
    bound: float
    slope: float
    ionic: float


def look_at(bath: Bath, pH: float, ionic: float, find: Callable[[float, float], float]) -> Pass:
    """Return a pass; `find` gives the strength of the salts from what is free and bound."""
    g = activity_coefficient_n(ionic, bath.temp_degC)
    hydrogen, hydroxide = 10.0**-pH / g, 10.0 ** (_log_kw(bath.temp_degC) + pH) / g
    species = _species(pH, bath.temp_degC, math.log10(g), bath.totals)
    free, bound = hydroxide - hydrogen, sum(c * z for c, z in species)
    strength = find(free, bound)
    need = free + strength * bound
    strong = 2 * max(bath.alkali * strength, need) - need
    weak = strength * sum(c * z * z for c, z in species)
    spread = strength * find_spread(species, bath.totals)
    ionic = min(bath.top, 0.5 * (strong + hydrogen + hydroxide + weak))
    return Pass(free, bound, hydrogen + hydroxide + spread, ionic)


def find_spread(species: list[tuple[float, int]], totals: tuple[float, ...]) -> float:
    """Return how far the charges of each salt lie apart: what holds a pH."""
    each = len(species) // len(totals)
    spread = 0.0
    for place, total in enumerate(totals):
        own = species[place * each : (place + 1) * each]
        mean = sum(c * z for c, z in own) / total if total else 0.0
        spread += sum(c * (z - mean) ** 2 for c, z in own)
    return spread


def seek(bath: Bath, aim: float, rows: int) -> Iterator[Row]:
    """Yield the passes to the pH at which the need is what is aimed at."""
    held = sum(z * c for c, z in zip(bath.totals, (2, 1, 4), strict=True))
    base = max(aim - held, aim * GUESSED_SHARE)
    gamma = activity_coefficient_n(bath.guess, bath.temp_degC)
    pH, ionic = math.log10(base * gamma) - _log_kw(bath.temp_degC), bath.guess
    for _ in range(rows):
        now = look_at(bath, pH, ionic, lambda *_: 1.0)
        need = now.free + now.bound
        step = math.log10(aim / need) * need / now.slope
        following = pH + max(-LARGEST_STEP, min(LARGEST_STEP, step))
        yield {
            "trial_pH": pH,
            "ionic_molpL": ionic,
            "slope_n": now.slope,
            "next_pH": following,
            "step_pH": abs(following - pH),
        }
        pH, ionic = following, now.ionic


def settle(
    bath: Bath, pH: float, rows: int, share: Callable[[float, float], float]
) -> Iterator[Row]:
    """Yield the passes to the ionic strength at a pH; the salts are more by a share."""
    ionic, before = bath.guess, (math.nan, math.nan)
    for row in range(rows):
        now = look_at(bath, pH, ionic, lambda free, bound: 1 + max(0.0, share(free, bound)))
        gap = now.ionic - ionic
        secant = -1.0 if row == 0 else 0.0
        if row and abs(gap) >= LEAST_GAP:
            secant = (ionic - before[0]) / (gap - before[1])
        strength = 1 + max(0.0, share(now.free, now.bound))
        need = now.free + strength * now.bound
        yield {"trial_pH": pH, "ionic_molpL": ionic, "need_eqpL": need, "strength_n": strength}
        before = ionic, gap
        ionic = min(bath.top, max(0.0, ionic - gap * secant))


def want_passes(scene: Scene) -> Sight:
    """Yield the passes of all working blocks whose quantities are there."""
    get = {name: number(scene, name) for name in NEEDED}
    totals = (get["carbonate_molpL"], get["silicate_molpL"], get["edta_molpL"])
    alkali, end = get["alkali_eqpL"], get["end_alkali_eqpL"]
    rest = (alkali, totals, get["guess_ionic_molpL"], get["ionic_max_molpL"])
    warm, base, cool = (
        Bath(get[name], *rest) for name in ("wash_temp_degC", "base_temp_degC", "end_reading_degC")
    )

    def top_up(free: float, bound: float) -> float:
        return (free + bound - end) / (alkali - bound)

    for grid, bath, aim in (("start", warm, alkali), ("start25", base, alkali), ("end", warm, end)):
        yield from put(scene, grid, bath, aim, lambda rows, b=bath, a=aim: seek(b, a, rows))
    for grid, bath, pH, share in (
        ("low", warm, get["floor_pH"], lambda *_: 0.0),
        ("final", cool, get["end_pH"], lambda *_: 0.0),
        ("refill", warm, get["wash_start_pH"] + 0 * end, top_up),
    ):
        yield from put(scene, grid, bath, pH, lambda n, b=bath, p=pH, s=share: settle(b, p, n, s))


def put(
    scene: Scene, grid: str, bath: Bath, aim: float, work: Callable[[int], Iterator[Row]]
) -> Sight:
    """Yield the cells of one block; nothing where something is missing."""
    if any(map(math.isnan, (bath.temp_degC, bath.alkali, bath.guess, *bath.totals, aim))):
        return
    names = scene.file.names
    tolerance = NEAR if grid in ("end", "refill") else None
    for place, row in enumerate(work(len(names[f"{grid}_trial_pH_list"]))):
        for column, found in row.items():
            if cells := names.get(f"{grid}_{column}_list"):
                yield cells[place], Wanted(found, BY, tolerance)


def number(scene: Scene, name: str) -> float:
    """Return a number of the reference, or nan for none."""
    value = scene.season.values[name]
    return float(value) if isinstance(value, int | float) else math.nan
