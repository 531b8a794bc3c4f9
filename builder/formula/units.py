"""Works out the unit of a formula from the units of what it uses, and demands the declared one.

Every name stands for one of its unit, so that whatever factor is left at the end is one that the
formula forgot. Nothing is ever executed: the tree of the formula is walked.
"""

from collections.abc import Callable
from functools import reduce
from math import isclose

from builder.formula.grids import UNUSABLE
from builder.formula.measures import Kind, Measure, Measures, UnitError, is_nothing
from builder.formula.syntax import COMPARISONS, Call, Node, Number, Operand, Pair, Sign, Words

ALIKE = frozenset({"MAX", "MIN", "AVERAGE", "MEDIAN"})
ADDED = frozenset({"SUM", "MOD"})
KEPT = frozenset({"ROUND", "ROUNDUP", "ROUNDDOWN", "INT", "TRUNC", "LARGE", "SMALL"})
PICKED = frozenset({"INDEX", "PRIOR"})
COUNTED = frozenset({"COUNT", "COUNTA", "COUNTBLANK", "ROWS"})
BARE = frozenset({"EXP", "LN", "LOG10", "TINV"})
LOGICAL = frozenset({"AND", "OR", "NOT"})
TEXTUAL = frozenset({"LOWER", "TRIM", "UPPER"})
Lookup = Callable[[str], Measure]


class UnitAlgebra(Measures):
    """Works out the unit of a formula, node by node."""

    def check(self, tree: Node, unit: str, lookup: Lookup) -> str:
        """Return what is wrong with the unit of a formula, or nothing."""
        try:
            found, wanted = self.work_out(tree, lookup), self.measure(unit)
        except UnitError as error:
            return str(error)
        if is_nothing(found) or found is wanted:
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
                return Kind.TEXT if text not in ("", UNUSABLE) else Kind.BLANK
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
        if function in COUNTED or function in TEXTUAL:
            return Kind.TEXT if function in TEXTUAL else self.plain
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
        if function == "COUNTIFS":
            for first in range(0, len(given), 2):
                self.call_list("COUNTIF", given[first : first + 2])
            return self.plain
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
            for number in numbers:
                self.need_plain(number, function)
            return self.plain
        if function in ("SUMSQ", "SQRT"):
            merged = self.merge(numbers, function)
            return merged if merged is Kind.ZERO else merged ** (2 if function == "SUMSQ" else 0.5)
        raise UnitError(f"the unit of {function} is not worked out")


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
