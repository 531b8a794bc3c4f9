"""Units of measure: their factors, their readers, and the unit of every formula."""

from collections.abc import Iterator
from contextlib import suppress
from math import isclose

from builder.formula.grids import CONVERSIONS, LIST, ROW_NUMBER, WORDS, split_grid_name
from builder.formula.measures import DATE, Kind, Measure, UnitError
from builder.formula.tokens import find_functions
from builder.formula.units import Lookup, UnitAlgebra
from builder.problems import Problem, suggest
from builder.spec.records import Check, Constant, Quantity, Record, Result, Unit
from builder.spec.rules_formulas import FUNCTIONS
from builder.spec.rules_texts import Formula, find_fault, is_worded, list_bound
from builder.spec.specification import Spec

READERS = ("metric", "us", "imperial")


def check_unit_entries(spec: Spec) -> Iterator[Problem]:
    """Suffixes are unique, and every reader sees a unit of the same dimension."""
    suffixes: dict[str, Unit] = {}
    for unit in spec.units.values():
        twin = suffixes.setdefault(unit.suffix, unit)
        if twin is not unit:
            text = f"suffix {unit.suffix!r} belongs to {twin.key} already."
            remedy = "Give each unit its own suffix: names tell their unit by it."
            yield find_fault(unit, "suffix-twice", unit.key, text, remedy, "suffix")
        if unit.factor <= 0:
            text = f"factor {unit.factor} is not above 0."
            yield find_fault(unit, "bad-factor", unit.key, text, "Correct it.", "factor")
        yield from check_readers(unit, spec)


def check_readers(unit: Unit, spec: Spec) -> Iterator[Problem]:
    """Each reader has a unit to see, and it is of the same dimension."""
    for key in sorted({*READERS, *unit.reader}):
        shown = unit.reader.get(key)
        other = spec.units.get(shown or "")
        if key not in READERS:
            text = f"reader {key!r} is not known.{suggest(key, READERS)}"
        elif shown is None:
            text = f"reader {key!r} is missing."
        elif other is None:
            text = f"reader {key} = {shown!r} is no unit.{suggest(shown, spec.units)}"
        elif other.dimension != unit.dimension:
            text = f"reader {key} = {shown!r} is a {other.dimension}, not a {unit.dimension}."
        else:
            continue
        remedy = f"Give a unit for each of {', '.join(READERS)}."
        yield find_fault(unit, "bad-reader", unit.key, text, remedy, "reader")


def check_factors(spec: Spec) -> Iterator[Problem]:
    """Compare the factors with the library of units, within each dimension."""
    algebra = UnitAlgebra(spec.units)
    firsts: dict[str, Unit] = {}
    for unit in (unit for unit in spec.units.values() if unit.factor > 0):
        try:
            measure = algebra.measure(unit.key)
            first = firsts.setdefault(unit.dimension, unit)
            other = algebra.measure(first.key)
        except UnitError as error:
            remedy = "Write units as the library pint knows them."
            yield find_fault(unit, "bad-pint", unit.key, f"{error}.", remedy, "pint")
            continue
        if measure.dimensionality != other.dimensionality:
            text = f"pint = {unit.pint!r} and that of {first.key} are of different dimensions."
            yield find_fault(unit, "bad-pint", unit.key, text, "Correct one of them.", "pint")
            continue
        if unit.offset and not algebra.is_point(measure):
            text = f"pint = {unit.pint!r} is a gap, but the unit has an offset."
            remedy = "Give it a point of a scale, as degC_point is."
            yield find_fault(unit, "bad-pint", unit.key, text, remedy, "pint")
        ratio, wanted = algebra.ratio(measure, other), float(unit.factor / first.factor)
        if not isclose(ratio, wanted, rel_tol=1e-12):
            text = f"1 {unit.key} = {wanted:.12g} {first.key} by factor, {ratio:.12g} by pint."
            yield find_fault(unit, "bad-factor", unit.key, text, "Correct it.", "factor")


def check_formula_units(spec: Spec) -> Iterator[Problem]:
    """Every formula gives the unit that its quantity declares, with factor 1."""
    algebra = UnitAlgebra(spec.units)
    sound = {key for key in spec.units if is_sound(key, algebra)}
    lookup = make_lookup(spec, algebra, sound)
    idle = {name for name, quantity in spec.quantities.items() if opts_out(quantity)}
    for formula in list_bound(spec):
        owner = formula.column or formula.owner
        if formula.made:
            continue
        try:
            wrong = judge(formula, algebra, lookup, sound)
        except UnknownUnitError:
            idle.discard(owner.name)
            continue
        if wrong and opts_out(owner):
            idle.discard(owner.name)
        elif wrong:
            where = f", in grid {formula.grid.name}" if formula.grid else ""
            remedy = "Correct the formula; only an empirical fit says unit_check = why not."
            yield formula.fault("wrong-unit", f"{wrong}{where}.", remedy)
    for name in idle:
        text, remedy = "unit_check excuses a formula whose unit is right.", "Remove unit_check."
        yield find_fault(spec.quantities[name], "idle-opt-out", name, text, remedy, "unit_check")


def check_conversions(spec: Spec) -> Iterator[Problem]:
    """Every constant that converts is exactly one in base units."""
    algebra = UnitAlgebra(spec.units)
    for quantity in spec.quantities.values():
        if isinstance(quantity, Constant) and quantity.unit in spec.units:
            with suppress(UnitError):
                yield from check_conversion(quantity, algebra)


def make_lookup(spec: Spec, algebra: UnitAlgebra, sound: set[str]) -> Lookup:
    """Return the function that tells the unit of each name in the formulas."""

    def lookup(name: str) -> Measure:
        part = split_grid_name(name, spec.quantities)
        quantity = spec.quantities.get(part.column if part else name)
        if part and part.part in CONVERSIONS:
            return algebra.plain
        if is_text(quantity) or (part and part.part in WORDS):
            return Kind.TEXT
        if name == ROW_NUMBER:
            return algebra.plain
        if quantity is None or quantity.unit not in sound:
            raise UnknownUnitError
        return measure_name(quantity, part.part if part else "", algebra)

    return lookup


def opts_out(quantity: Quantity) -> bool:
    """Tell whether a quantity gives a reason why its formula's unit is not checked."""
    return isinstance(quantity, Result | Record) and bool(quantity.unit_check.strip())


def count_opt_outs(spec: Spec) -> tuple[int, int]:
    """Return how many results and columns opt out of the unit check, of how many with a formula."""
    judged = {(formula.column or formula.owner).name for formula in list_bound(spec)}
    found = [q for q in spec.quantities.values() if isinstance(q, Result | Record)]
    return sum(map(opts_out, found)), sum(quantity.name in judged for quantity in found)


def is_text(quantity: Quantity | None) -> bool:
    """Tell whether the cells of this quantity show a text that no unit belongs to."""
    return is_worded(quantity) or (isinstance(quantity, Record) and quantity.text)


def find_unit(quantity: Quantity) -> str:
    """Return the unit of a quantity, or a date where a number of days shows one."""
    typed = isinstance(quantity, Record) and quantity.entry == "date"
    dated = typed or (isinstance(quantity, Result | Record) and quantity.date)
    return DATE if dated else quantity.unit


def measure_name(quantity: Quantity, part: str, algebra: UnitAlgebra) -> Measure:
    """Return the unit of a name: what was typed is in a unit of its row, and so has one too many.

    A formula that forgets to take the column of what can be used then has a wrong unit.
    """
    measure = algebra.measure(find_unit(quantity))
    raw = isinstance(quantity, Record) and quantity.unit_of and part in ("", LIST)
    return algebra.find_gap(measure) / algebra.typed if raw else measure


class UnknownUnitError(Exception):
    """Leaves a formula alone whose names or units other rules have found fault with."""


def is_sound(key: str, algebra: UnitAlgebra) -> bool:
    """Tell whether the library of units can read a unit."""
    try:
        algebra.measure(key)
    except UnitError:
        return False
    return True


def judge(formula: Formula, algebra: UnitAlgebra, lookup: Lookup, sound: set[str]) -> str:
    """Return what is wrong with the units of one formula, or nothing."""
    quantity = formula.column or formula.owner
    tree = formula.read()
    functions = {*find_functions(formula.text)} - {"PRIOR"}
    if tree is None or not functions <= FUNCTIONS:
        return ""
    if isinstance(quantity, Check):
        return algebra.check_kind(tree, Kind.TRUTH, lookup)
    if is_text(quantity):
        return algebra.check_kind(tree, Kind.TEXT, lookup)
    if quantity.unit not in sound:
        return ""
    return algebra.check(tree, find_unit(quantity), lookup)


def check_conversion(constant: Constant, algebra: UnitAlgebra) -> Iterator[Problem]:
    """Demand that a constant that converts is exactly one in base units."""
    unit = algebra.units[constant.unit]
    if not unit.dimension.startswith("conversion"):
        return
    one = algebra.ratio(algebra.measure(unit.key) * constant.value, algebra.plain)
    if not isclose(one, 1.0, rel_tol=1e-12):
        text = f"{constant.value:g} {unit.key} is a factor {one:.6g}, not 1."
        remedy = "A conversion must leave the amount as it is."
        yield find_fault(constant, "wrong-unit", constant.name, text, remedy, "value")
