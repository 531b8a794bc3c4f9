"""Units of measure as formulas have them: amounts, points of a scale, and what is no number.

A temperature and a date are points on a scale whose zero means nothing: two points differ by a
gap, a gap moves a point, and nothing else can be done with a point.
"""

import re
from collections.abc import Iterable
from enum import Enum
from math import isclose
from typing import Any

from builder.formula.registry import make_registry
from builder.spec.records import Unit

GAPS = {"degC_point": "delta_degree_Celsius", "date_point": "day"}
DATE = "date"
LITRE = re.compile(r"\b(m?)l\b")


class Kind(Enum):
    """What a part of a formula can be if it is not a number with a unit."""

    ZERO = "nothing but 0"
    BLANK = "a blank"
    TEXT = "a text"
    TRUTH = "a comparison"


Measure = Any


class UnitError(ValueError):
    """Says which units do not go together."""


class Measures:
    """Adds, multiplies and compares units of measure alone."""

    def __init__(self, units: dict[str, Unit]) -> None:
        """Take the units of the specs."""
        self.units = units
        self.registry = make_registry()
        self.plain = self.registry.Quantity(1.0)
        self.typed = self.registry.Quantity(1.0, "typed")
        self.points = [(self.registry.Quantity(1.0, name), gap) for name, gap in GAPS.items()]
        self.known: dict[str, Measure] = {}

    def measure(self, key: str) -> Measure:
        """Return one of a unit, or a date; raise UnitError where its `pint` cannot be read."""
        if key not in self.known:
            self.known[key] = self.make(key)
        return self.known[key]

    def make(self, key: str) -> Measure:
        """Return one of a unit for the first time."""
        if key == DATE:
            return self.registry.Quantity(1.0, "date_point")
        try:
            return self.registry.Quantity(1.0, self.registry.parse_units(self.units[key].pint))
        except Exception as error:
            raise UnitError(f"pint = {self.units[key].pint!r} is no unit") from error

    def ratio(self, one: Measure, other: Measure) -> float:
        """Return how many of the other make one."""
        return float((one / other).to_base_units().magnitude)

    def show(self, measure: Measure) -> str:
        """Return a measure in words or in symbols of units."""
        if isinstance(measure, Kind):
            return measure.value
        return LITRE.sub(r"\1L", f"{measure.units:~C}") or "a plain number"

    def add(self, sign: str, left: Measure, right: Measure) -> Measure:
        """Return the unit of a sum or difference; a gap in kelvin leads from degC to kelvin."""
        if (
            Kind.ZERO is left
            or Kind.ZERO is right
            or not (self.is_point(left) or self.is_point(right))
        ):
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
        if left is Kind.ZERO or right is Kind.ZERO:
            return Kind.ZERO
        return left * right if sign == "*" else left / right

    def merge(self, measures: Iterable[Measure], where: str) -> Measure:
        """Return the one unit that all share; 0 and a blank go with everything."""
        listed = list(measures)
        first, *others = [m for m in listed if not is_nothing(m)] or [listed[0]]
        for other in others:
            if not self.is_alike(first, other):
                pair = f"{self.show(first)} and {self.show(other)}"
                raise UnitError(f"{where} brings {pair} together")
        return first

    def is_alike(self, one: Measure, other: Measure) -> bool:
        """Tell whether two measures may be added: same dimension, same factor."""
        if one is other or isinstance(one, Kind) or isinstance(other, Kind):
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
        for point, gap in self.points:
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


def is_nothing(measure: Measure) -> bool:
    """Tell whether a measure is 0 or a blank, and so goes with everything."""
    return measure is Kind.ZERO or measure is Kind.BLANK
