"""Inputs that are chosen by what should come of them, worked out by the references."""

from collections.abc import Callable
from dataclasses import dataclass

from scipy.optimize import brentq
from workbook.files import Value

from builder.calculation import Known, evaluate, find_arguments, find_reference
from builder.spec.records import Check, Choice, Constant, Input, Result
from builder.spec.specification import Spec


@dataclass(frozen=True, slots=True)
class Like:
    """As much as a quantity comes to, times something, plus something."""

    name: str
    times: float = 1.0
    plus: float = 0.0


@dataclass(frozen=True, slots=True)
class Until:
    """As much as makes a quantity come to a number; found between two ends."""

    name: str
    value: float
    low: float
    high: float


Aim = Value | Like | Until


def settle(spec: Spec, aims: dict[str, Aim]) -> dict[str, Value]:
    """Return the numbers behind aims: what is plain first, then each with those before it."""
    given: dict[str, Value] = {}
    for name, aim in sorted(aims.items(), key=lambda item: isinstance(item[1], Like | Until)):
        if isinstance(aim, Like):
            given[name] = demand(spec, given, aim.name) * aim.times + aim.plus
        elif isinstance(aim, Until):
            given[name] = float(brentq(make_gap(spec, given, name, aim), aim.low, aim.high))
        else:
            given[name] = aim
    return given


def make_gap(
    spec: Spec, given: dict[str, Value], name: str, aim: Until
) -> Callable[[float], float]:
    """Return the function whose root is aimed at."""
    return lambda number: demand(spec, {**given, name: number}, aim.name) - aim.value


def demand(spec: Spec, given: dict[str, Value], name: str) -> float:
    """Return a quantity by its reference, or raise LookupError where there is none."""
    value = Lazy(spec, given).get(name)
    if not isinstance(value, int | float):
        raise LookupError(f"{name} is {value!r} for {given}")  # noqa: TRY004 not found
    return float(value)


class Lazy:
    """Works out by the references only what one quantity needs."""

    def __init__(self, spec: Spec, given: dict[str, Value]) -> None:
        """Start from what is given."""
        self.spec = spec
        self.known: Known = {**given}

    def get(self, name: str) -> Value:
        """Return one quantity; columns of grids stay unknown."""
        quantity = self.spec.quantities.get(name)
        if name not in self.known:
            if isinstance(quantity, Input | Choice | Constant):
                self.known[name] = quantity.value
            elif isinstance(quantity, Result | Check):
                function = find_reference(quantity.reference)
                if callable(function):
                    for argument in find_arguments(quantity, function).values():
                        self.get(argument)
                self.known[name] = evaluate(quantity, self.known)
        value = self.known.get(name)
        return None if isinstance(value, list) else value
