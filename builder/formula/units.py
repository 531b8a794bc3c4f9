"""Works out the unit of a formula from the units of what it uses, and demands the declared one.

Every name stands for one of its unit, so that whatever factor is left at the end is one that the
formula forgot. Nothing is ever executed: the tree of the formula is walked.

A temperature and a date are points on a scale whose zero means nothing: two points differ by a
gap, a gap moves a point, and nothing else can be done with a point.
"""

import re
from collections.abc import Callable, Iterable
from enum import Enum
from functools import reduce
from math import isclose
from typing import Any

from builder.formula.registry import make_registry
from builder.formula.syntax import (
    COMPARISONS,
    Call,
    Node,
    Number,
    Operand,
    Pair,
    Sign,
    Words,
)
from builder.spec.records import Unit

GAPS = {"degC_point": "delta_degree_Celsius", "date_point": "day"}
DATE = "date"
LITRE = re.compile(r"\b(m?)l\b")
ALIKE = frozenset({"MAX", "MIN", "AVERAGE", "MEDIAN"})
ADDED = frozenset({"SUM", "MOD"})
KEPT = frozenset({"ROUND", "ROUNDUP", "ROUNDDOWN", "INT", "TRUNC", "LARGE", "SMALL"})
PICKED = frozenset({"INDEX", "PRIOR"})
COUNTED = frozenset({"COUNT", "COUNTA", "COUNTBLANK", "ROWS"})
BARE = frozenset({"EXP", "LN", "LOG10"})
LOGICAL = frozenset({"AND", "OR", "NOT"})


class Kind(Enum):
    """What a part of a formula can be if it is not a number with a unit."""

    ZERO = "nothing but 0"
    BLANK = "a blank"
    TEXT = "a text"
    TRUTH = "a comparison"


Measure = Any
Lookup = Callable[[str], Measure]


class UnitError(ValueError):
    """Says which units do not go together."""


class UnitAlgebra:
    """Computes with units of measure alone."""

    def __init__(self, units: dict[str, Unit]) -> None:
        """Take the units of the specs."""
        self.units = units
        self.registry = make_registry()
        self.plain = self.registry.Quantity(1.0)
        self.typed = self.registry.Quantity(1.0, "typed")

    def measure(self, key: str) -> Measure:
        """Return one of a unit, or a date; raise UnitError where its `pint` cannot be read."""
        if key == DATE:
            return self.registry.Quantity(1.0, "date_point")
        try:
            return self.registry.Quantity(1.0, self.registry.parse_units(self.units[key].pint))
        except Exception as error:
            raise UnitError(f"pint = {self.units[key].pint!r} is no unit") from error

    def check(self, tree: Node, unit: str, lookup: Lookup) -> str:
        """Return what is wrong with the unit of a formula, or nothing."""
        try:
            found, wanted = self.work_out(tree, lookup), self.measure(unit)
        except UnitError as error:
            return str(error)
        if found in (Kind.ZERO, Kind.BLANK):
            return ""
        if isinstance(found, Kind) or found.dimensionality != wanted.dimensionality:
            return f"formula gives {self.show(found)}, unit says {unit}"
        factor = self.ratio(found, wanted)
        missing = f"a factor {factor:.6g} is missing for {unit}"
        return "" if isclose(factor, 1.0, rel_tol=1e-9) else missing

    def check_kind(self, tree: Node, kind: Kind, lookup: Lookup) -> str:
        """Return what is wrong with a condition or with a formula of texts, or nothing."""
        try:
            found = self.work_out(tree, lookup)
        except UnitError as error:
            return str(error)
        return "" if found is kind else f"formula gives {self.show(found)}, not {kind.value}"

    def ratio(self, one: Measure, other: Measure) -> float:
        """Return how many of the other make one."""
        return float((one / other).to_base_units().magnitude)

    def show(self, measure: Measure) -> str:
        """Return a measure in words or in symbols of units."""
        if isinstance(measure, Kind):
            return measure.value
        return LITRE.sub(r"\1L", f"{measure.units:~C}") or "a plain number"

    def work_out(self, node: Node, lookup: Lookup) -> Measure:
        """Return the unit of a tree, or its kind."""
        match node:
            case Number() | Words() | Operand():
                return self.work_out_leaf(node, lookup)
            case Sign(_, inner):
                return self.need_amount(self.work_out(inner, lookup), "a sign")
            case Call("SUMPRODUCT", arguments):
                lists = [self.work_out(count_truths(item), lookup) for item in arguments]
                return reduce(lambda one, other: self.multiply("*", one, other), lists, self.plain)
            case Call(function, arguments):
                return self.call(function, [self.work_out(item, lookup) for item in arguments])
            case Pair("^", left, right):
                return self.raise_power(self.work_out(left, lookup), right, lookup)
            case Pair(sign, left, right):
                return self.pair(sign, self.work_out(left, lookup), self.work_out(right, lookup))

    def work_out_leaf(self, leaf: Number | Words | Operand, lookup: Lookup) -> Measure:
        """Return the unit of a number or name; a text has none."""
        match leaf:
            case Number(text):
                return self.plain if float(text) else Kind.ZERO
            case Words(text):
                return Kind.TEXT if text else Kind.BLANK
            case Operand(text):
                return lookup(text)

    def pair(self, sign: str, left: Measure, right: Measure) -> Measure:
        """Return the unit of a sum, product, quotient or comparison."""
        if sign in COMPARISONS:
            self.merge([left, right], sign)
            return Kind.TRUTH
        if sign in ("+", "-"):
            return self.add(sign, self.need_number(left, sign), self.need_number(right, sign))
        return self.multiply(sign, left, right)

    def add(self, sign: str, left: Measure, right: Measure) -> Measure:
        """Return the unit of a sum or difference; a gap in kelvin leads from degC to kelvin."""
        if Kind.ZERO in (left, right) or not (self.is_point(left) or self.is_point(right)):
            return self.merge([left, right], sign)
        if self.is_point(left) and self.is_point(right):
            if sign == "-":
                return self.find_gap(self.merge([left, right], sign))
            raise UnitError("+ adds two points of a scale; only gaps can be added")
        point, gap = (left, right) if self.is_point(left) else (right, left)
        self.merge([self.find_gap(point), gap], sign)
        if sign == "-" and point is right:
            raise UnitError("- takes a point of a scale from a gap")
        return gap if gap.units == self.registry.kelvin else point

    def multiply(self, sign: str, left: Measure, right: Measure) -> Measure:
        """Return the unit of a product or quotient."""
        left, right = self.need_amount(left, sign), self.need_amount(right, sign)
        if sign == "/" and right is Kind.ZERO:
            raise UnitError("divides by 0")
        if Kind.ZERO in (left, right):
            return Kind.ZERO
        return left * right if sign == "*" else left / right

    def raise_power(self, base: Measure, power: Node, lookup: Lookup) -> Measure:
        """Return the unit of a power; only a plain number has a power that is worked out."""
        base = self.need_amount(base, "^")
        self.need_plain(self.work_out(power, lookup), "^")
        if base is Kind.ZERO or self.is_plain(base):
            return base
        match power:
            case Number(text):
                return base ** float(text)
            case Sign("-", Number(text)):
                return base ** -float(text)
        raise UnitError(f"raises {self.show(base)} to a power that is not a fixed number")

    def call(self, function: str, given: list[Measure]) -> Measure:
        """Return the unit of what a function gives."""
        if function == "PI":
            return self.plain
        if not given:
            raise UnitError(f"{function} has too few arguments")
        if function in COUNTED:
            return self.plain
        if function == "IF":
            return self.choose(given)
        if function in LOGICAL:
            return self.need_truth(given, function)
        if function in ("IFERROR", "CHOOSE"):
            branches = given[1:] if function == "CHOOSE" else given
            self.need_plain(given[0] if function == "CHOOSE" else self.plain, function)
            return self.merge(branches, function)
        return self.call_list(function, given)

    def call_list(self, function: str, given: list[Measure]) -> Measure:
        """Return the unit of what is found or counted in a list."""
        if function in PICKED:
            for place in given[1:]:
                self.need_plain(place, function)
            return given[0]
        if function in ("MATCH", "COUNTIF", "SUMIF", "LOOKUP"):
            if len(given) < 2:
                raise UnitError(f"{function} has too few arguments")
            one, other, *rest = given
            if function in ("MATCH", "LOOKUP") or other is not Kind.TEXT:
                self.merge([one, other], function)
            return {"SUMIF": [one, *rest][-1], "LOOKUP": given[-1]}.get(function, self.plain)
        return self.call_numbers(function, [self.need_number(m, function) for m in given])

    def choose(self, given: list[Measure]) -> Measure:
        """Return the unit that both branches of an IF share."""
        if len(given) != 3:
            raise UnitError("IF needs three arguments")
        self.need_truth(given[:1], "IF")
        return self.merge(given[1:], "IF")

    def call_numbers(self, function: str, numbers: list[Measure]) -> Measure:
        """Return the unit of what a function of numbers gives."""
        if function in ALIKE:
            return self.merge(numbers, function)
        if function in KEPT:
            for digits in numbers[1:]:
                self.need_plain(digits, function)
            return numbers[0]
        return self.call_amounts(function, [self.need_amount(m, function) for m in numbers])

    def call_amounts(self, function: str, numbers: list[Measure]) -> Measure:
        """Return the unit of what a function gives that a point of a scale cannot enter."""
        if function == "ABS" or function in ADDED:
            return self.merge(numbers, function)
        if function in BARE:
            self.need_plain(numbers[0], function)
            return self.plain
        if function in ("SUMSQ", "SQRT"):
            merged = self.merge(numbers, function)
            return merged if merged is Kind.ZERO else merged ** (2 if function == "SUMSQ" else 0.5)
        raise UnitError(f"the unit of {function} is not worked out")

    def merge(self, measures: Iterable[Measure], where: str) -> Measure:
        """Return the one unit that all share; 0 and a blank go with everything."""
        listed = list(measures)
        first, *others = [m for m in listed if m not in (Kind.ZERO, Kind.BLANK)] or [listed[0]]
        for other in others:
            if not self.is_alike(first, other):
                pair = f"{self.show(first)} and {self.show(other)}"
                raise UnitError(f"{where} brings {pair} together")
        return first

    def is_alike(self, one: Measure, other: Measure) -> bool:
        """Tell whether two measures may be added: same dimension, same factor."""
        if isinstance(one, Kind) or isinstance(other, Kind):
            return one is other
        same = one.dimensionality == other.dimensionality
        return same and isclose(self.ratio(one, other), 1.0, rel_tol=1e-9)

    def is_plain(self, measure: Measure) -> bool:
        """Tell whether a measure is a number without a unit, or 0."""
        return measure is Kind.ZERO or self.is_alike(measure, self.plain)

    def need_number(self, measure: Measure, where: str) -> Measure:
        """Return the measure if one can compute with it."""
        if isinstance(measure, Kind) and measure is not Kind.ZERO:
            raise UnitError(f"{where} is given {measure.value}")
        return measure

    def is_point(self, measure: Measure) -> bool:
        """Tell whether a measure is a point of a scale, such as a temperature or a date."""
        return not isinstance(measure, Kind) and self.find_gap(measure) is not measure

    def find_gap(self, measure: Measure) -> Measure:
        """Return the unit of the gap between two points, or the measure if it is no point."""
        for name, gap in GAPS.items():
            point = self.registry.Quantity(1.0, name)
            if measure.dimensionality == point.dimensionality:
                return self.registry.Quantity(self.ratio(measure, point), gap)
        return measure

    def need_amount(self, measure: Measure, where: str) -> Measure:
        """Return the measure if it is an amount, and no point of a scale."""
        if self.is_point(self.need_number(measure, where)):
            raise UnitError(f"{where} is given a point of a scale, {self.show(measure)}")
        return measure

    def need_plain(self, measure: Measure, where: str) -> Measure:
        """Return the measure if it has no unit."""
        if not self.is_plain(self.need_number(measure, where)):
            raise UnitError(f"{where} needs a plain number, not {self.show(measure)}")
        return measure

    def need_truth(self, measures: Iterable[Measure], where: str) -> Kind:
        """Return the kind of a condition if all of them are conditions."""
        for measure in measures:
            if measure is not Kind.TRUTH:
                raise UnitError(f"{where} needs a comparison, not {self.show(measure)}")
        return Kind.TRUTH


def count_truths(node: Node) -> Node:
    """Return an argument of SUMPRODUCT with the comparisons in its arithmetic as 1 and 0."""
    match node:
        case Pair(sign, left, right) if sign not in COMPARISONS:
            return Pair(sign, count_truth(left), count_truth(right))
        case Sign(sign, inner):
            return Sign(sign, count_truth(inner))
    return node


def count_truth(node: Node) -> Node:
    """Return a part of arithmetic, 1 or 0 where it is a comparison."""
    if isinstance(node, Pair) and node.sign in COMPARISONS:
        return Call("IF", (node, Number("1"), Number("0")))
    return count_truths(node)
