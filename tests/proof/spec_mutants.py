"""Specs with one thing changed: an operator, a name, a figure, an option, a unit."""

import random
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from builder.formula.tokens import split
from builder.spec.records import Check, Choice, Constant, Grid, Quantity, Record, Result
from builder.spec.specification import Spec

TURNED = {
    "+": ("-",),
    "-": ("+",),
    "*": ("/",),
    "/": ("*",),
    "<": ("<=", ">"),
    ">": (">=", "<"),
    "<=": ("<", ">="),
    ">=": (">", "<="),
    "=": ("<>",),
    "<>": ("=",),
    "^": ("*",),
    "MAX(": ("MIN(", "SUM("),
    "MIN(": ("MAX(",),
    "SUM(": ("MAX(", "COUNT("),
    "AND(": ("OR(",),
    "OR(": ("AND(",),
    "ROUNDUP(": ("ROUNDDOWN(",),
    "INT(": ("ROUNDUP(0+",),
    "ABS(": ("SUM(",),
    "EXP(": ("ABS(",),
    "LN(": ("LOG10(",),
    "LOG10(": ("LN(",),
    "SQRT(": ("ABS(",),
    "COUNT(": ("SUM(",),
}
FORMULAS = ("formula", "close")
# They move the way to a root and never the root: a first guess, the longest step, the gap that
# counts as none, the last step that is told small. A change shows nowhere unless the root is lost.
ON_THE_WAY = {
    "guess_gamma_n",
    "guess_share_n",
    "clip_pH",
    "gap_least_molpL",
    "secant_n",
    "step_pH",
    "step_largest_pH",
    # and digits that are rounded away, on either side of what any number here has
    "rounding_digits_n",
    "selftest_rel_n",
    "selftest_abs_n",
}
# grids, whose first row is a guess
ROOTS = {"start", "end", "low", "high", "final", "reading", "refill", "overfill"}
SLIP = 1.001


@dataclass(frozen=True, slots=True)
class Mutant:
    """Changed specs, and what was changed."""

    label: str
    spec: Spec


def draw_mutants(spec: Spec, seed: int, count: int) -> Iterator[Mutant]:
    """Yield mutants: most with a changed formula, the others with a figure, option or unit."""
    rng = random.Random(seed)  # noqa: S311 - no secret
    makers: list[tuple[Callable[[Spec, random.Random], Mutant], int]] = [
        (change_formula, 70),
        (change_constant, 14),
        (change_options, 5),
        (change_unit, 6),
        (change_grid, 5),
    ]
    kinds, weights = zip(*makers, strict=True)
    for _ in range(count):
        yield rng.choices(kinds, weights)[0](spec, rng)


def put(spec: Spec, quantity: Quantity, label: str) -> Mutant:
    """Return the specs with one entry in place of that of its name."""
    changed = replace(spec, quantities={**spec.quantities, quantity.name: quantity})
    return Mutant(f"{quantity.name}: {label}", changed)


def change_formula(spec: Spec, rng: random.Random) -> Mutant:
    """Change one token of one formula."""
    owners = [
        q
        for q in spec.quantities.values()
        if isinstance(q, Result | Check | Record) and q.name not in ON_THE_WAY
    ]
    while True:
        owner = rng.choice(owners)
        key = rng.choice(FORMULAS)
        formula = getattr(owner, key, "")
        changed = change_token(formula, spec, rng) if formula else ""
        if changed:
            return put(spec, replace(owner, **{key: changed}), f"{formula}  ->  {changed}")


def change_token(formula: str, spec: Spec, rng: random.Random) -> str:
    """Return a formula with one token changed, or nothing where the one drawn stays."""
    values = [token.value for token in split(formula)]
    place = rng.randrange(len(values))
    others = list_others(values[place], spec)
    if not others:
        return ""
    values[place] = rng.choice(others)
    return "".join(values)


def list_others(value: str, spec: Spec) -> list[str]:
    """Return what a token can be changed into: it must still make a formula."""
    if value in TURNED:
        return list(TURNED[value])
    if value.isdigit():
        return [str(int(value) + 1)]
    if value.startswith('"') and len(value) > 2:
        code = value.strip('"')
        return [
            f'"{other}"'
            for q in spec.quantities.values()
            if isinstance(q, Choice | Record) and code in q.options
            for other in q.options
            if other != code
        ]
    quantity = spec.quantities.get(value)
    if quantity is None or not quantity.unit:
        return []
    return [
        q.name
        for q in spec.quantities.values()
        if type(q) is type(quantity)
        and q.unit == quantity.unit
        and q.place.file == quantity.place.file
        and q.name != value
    ]


def change_constant(spec: Spec, rng: random.Random) -> Mutant:
    """Let one figure be wrong by a thousandth."""
    constants = [
        q
        for q in spec.quantities.values()
        if isinstance(q, Constant) and q.value and q.name not in ON_THE_WAY
    ]
    constant = rng.choice(constants)
    changed = constant.value * SLIP
    return put(spec, replace(constant, value=changed), f"{constant.value} -> {changed}")


def change_options(spec: Spec, rng: random.Random) -> Mutant:
    """Spell a code otherwise that formulas compare with."""
    worded = [q for q in spec.quantities.values() if isinstance(q, Choice | Record) and q.options]
    formulas = [getattr(q, "formula", "") for q in spec.quantities.values()]
    pairs = [
        (choice, code)
        for choice in worded
        for code in choice.options
        if any(f'"{code}"' in formula for formula in formulas)
    ]
    choice, code = rng.choice(pairs)
    options = {f"{c}_x" if c == code else c: words for c, words in choice.options.items()}
    return put(spec, replace(choice, options=options), f"option {code} -> {code}_x")


def change_unit(spec: Spec, rng: random.Random) -> Mutant:
    """Give an entry another unit of its dimension, or a unit another factor."""
    if rng.random() < 0.5:
        unit = rng.choice([u for u in spec.units.values() if u.factor != 1])
        changed = replace(unit, factor=unit.factor * 1001 / 1000)
        return Mutant(
            f"factor of {unit.key}", replace(spec, units={**spec.units, unit.key: changed})
        )
    while True:
        quantity = rng.choice([q for q in spec.quantities.values() if q.unit])
        dimension = spec.units[quantity.unit].dimension
        keys = [u.key for u in spec.units.values() if u.dimension == dimension]
        others = [key for key in keys if key != quantity.unit]
        if others:
            other = rng.choice(others)
            return put(spec, replace(quantity, unit=other), f"unit {quantity.unit} -> {other}")


def change_grid(spec: Spec, rng: random.Random) -> Mutant:
    """Swap what two names of a grid's formulas are bound to, or change one of its own formulas."""
    grids = [q for q in spec.quantities.values() if isinstance(q, Grid) and (q.first or q.rest)]
    while True:
        grid = rng.choice(grids)
        key = "rest" if grid.name in ROOTS else rng.choice(("first", "rest"))
        texts = getattr(grid, key)
        for name, formula in texts.items():
            if changed := change_token(formula, spec, rng):
                new = replace(grid, **{key: {**texts, name: changed}})
                return put(spec, new, f"{key}.{name} {formula}  ->  {changed}")
