"""Formulas are read in the spreadsheet's order of operators."""

import pytest

from builder.formula.syntax import Call, FormulaError, Node, Number, Pair, Sign, parse


def compute(node: Node) -> float:
    """Work out a tree of numbers."""
    match node:
        case Number(text):
            return float(text)
        case Sign(sign, inner):
            return compute(inner) if sign == "+" else -compute(inner)
        case Pair(sign, left, right):
            a, b = compute(left), compute(right)
            return {"+": a + b, "-": a - b, "*": a * b, "/": a / b, "^": a**b, "<": a < b}[sign]
        case _:
            raise AssertionError(node)


# The values that spreadsheet programs give; -2^2 and 2^3^2 differ from Python's.
@pytest.mark.parametrize(
    ("formula", "value"),
    [
        ("-2^2", 4),
        ("2^3^2", 64),
        ("2^-2", 0.25),
        ("7-4-2", 1),
        ("8/4/2", 1),
        ("2+3*4", 14),
        ("(2+3)*4", 20),
        ("2*3^2", 18),
        ("1+1<4-1", 1),
        ("10-2^2*2", 2),
    ],
)
def test_operators_bind_as_in_a_spreadsheet(formula: str, value: float) -> None:
    assert compute(parse(formula)) == value


def test_function_keeps_its_arguments_in_order() -> None:
    assert parse("MAX(1, 2)") == Call("MAX", (Number("1"), Number("2")))
    assert parse("PI()") == Call("PI", ())


@pytest.mark.parametrize(
    ("formula", "why"),
    [
        ("", "ends too early"),
        ("a_n+", "ends too early"),
        ("(a_n", "ends too early"),
        ("a_n)", "do not match"),
        ('"a', "do not match"),
        ("a_n b_n", "'b_n' is not expected"),
        ("MAX(,1)", "',' is not expected"),
        ("MAX(1;2)", "bracket should close"),
        ("a_n&b_n", "'&' is not allowed"),
        ("a_n%", "'%' is not expected"),
        ("TRUE", "TRUE is not allowed"),
    ],
)
def test_what_is_no_formula_is_refused_with_the_reason(formula: str, why: str) -> None:
    with pytest.raises(FormulaError, match=why):
        parse(formula)
