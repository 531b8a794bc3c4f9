"""The text of formulas: a closed list of functions, no hidden figures, short, one IF deep."""

import re
from collections.abc import Iterator

from openpyxl.formula.tokenizer import Token, TokenizerError

from builder.formula.syntax import Call, FormulaError, Operand, parse, walk
from builder.formula.tokens import split
from builder.problems import Problem, suggest
from builder.spec.records import Grid, Record
from builder.spec.rules_texts import Formula, list_written
from builder.spec.specification import Spec

# Right in every spreadsheet program and engine that was tried. No volatile, no array, no locale.
FUNCTION_LINES = (
    "ABS AND AVERAGE AVERAGEIFS CEILING CHOOSE CONCATENATE CORREL COUNT COUNTA COUNTBLANK COUNTIF",
    "COUNTIFS DATE DAY DEVSQ EXACT EXP FLOOR IF IFERROR INDEX INT INTERCEPT ISERROR ISTEXT LARGE",
    "LEFT LEN LN LOG10 LOOKUP LOWER MATCH MAX MEDIAN MID MIN MOD MONTH NA NOT OR PERCENTILE PI",
    "POWER PRODUCT REPT RIGHT ROUND ROUNDDOWN ROUNDUP ROWS SIGN SLOPE SMALL SQRT STDEV SUBSTITUTE",
    "SUM SUMIF SUMIFS SUMPRODUCT SUMSQ TINV TRIM TRUNC UPPER VAR VLOOKUP WEEKDAY YEAR",
)
FUNCTIONS = frozenset(name for line in FUNCTION_LINES for name in line.split())
NUMBERS = ("0", "1", "2", "4")
ROW_NUMBERS = ("0", "1", "2", "3", "4", "6", "7", "10", "12")
LENGTH_MAX = 200
ADDRESS = re.compile(r"\$?[A-Za-z]{1,3}\$?[0-9]+")
FOREIGN = (("[", "a table"), ("!", "a sheet"), (":", "a range"))
SIGNS = {"&": "joins texts", "%": "divides by 100", ";": "starts a row"}


def check_formulas(spec: Spec) -> Iterator[Problem]:
    """Judge each formula as it is written."""
    for formula in list_written(spec):
        if len(formula.text) > LENGTH_MAX:
            text = f"the formula has {len(formula.text)} characters, {LENGTH_MAX} at most."
            remedy = "Cut it into named rows that a reader can follow."
            yield formula.fault("too-long", text, remedy)
        faults = list(check_tokens(formula))
        yield from faults or check_tree(formula)


def check_tokens(formula: Formula) -> Iterator[Problem]:
    """Judge a formula token by token."""
    try:
        tokens = split(formula.text)
    except (TokenizerError, IndexError):
        yield fault_unreadable(formula, "brackets or quotes do not match")
        return
    before = ""
    for token in tokens:
        if token.type == Token.FUNC and token.subtype == Token.OPEN:
            yield from check_function(formula, token.value.rstrip("("))
        elif token.type == Token.OPERAND:
            yield from check_operand(formula, token)
        elif token.value in SIGNS and token.type != Token.WSPACE:
            text = f"the sign {token.value} {SIGNS[token.value]}."
            remedy = "Use + - * / ^ and comparisons only; a figure is a named constant."
            yield formula.fault("forbidden-sign", text, remedy)
        elif token.type == before == Token.OP_PRE:
            text = f"two signs follow each other: {token.value}."
            remedy = "Write IF(condition,1,0) where a condition becomes a number."
            yield formula.fault("forbidden-sign", text, remedy)
        before = token.type


def check_function(formula: Formula, function: str) -> Iterator[Problem]:
    """Judge the name of a function."""
    if function == "PRIOR":
        if not isinstance(formula.owner, Record | Grid):
            text = "PRIOR asks for the row above, and there are no rows here."
            yield formula.fault("wrong-prior", text, "Use PRIOR in the columns of grids only.")
    elif function not in FUNCTIONS:
        text = f"function {function} is not allowed.{suggest(function.upper(), FUNCTIONS)}"
        remedy = "Use one that every spreadsheet program has, such as MAX, SUMSQ, IF or ROUNDUP."
        yield formula.fault("unknown-function", text, remedy)


def check_operand(formula: Formula, token: Token) -> Iterator[Problem]:
    """Judge a number or a name; whether a name is known is another rule."""
    value = token.value
    if token.subtype == Token.NUMBER:
        bare = ROW_NUMBERS if isinstance(formula.owner, Record | Grid) else NUMBERS
        allowed = (*bare, *map(str, range(formula.places + 2)))
        if value not in allowed:
            text = f"the number {value} stands in the formula."
            remedy = f"Make it a named constant with a source; bare are only {', '.join(bare)}."
            yield formula.fault("forbidden-number", text, remedy)
    elif token.subtype == Token.RANGE:
        remedy = "Formulas use the names of quantities only."
        for sign, what in FOREIGN:
            if sign in value:
                yield formula.fault("forbidden-name", f"{value} points to {what}.", remedy)
                return
        if ADDRESS.fullmatch(value):
            yield formula.fault("forbidden-name", f"{value} is the address of a cell.", remedy)
    elif token.subtype != Token.TEXT:
        text = f"{value} is neither a number, nor a text, nor a name."
        yield formula.fault("forbidden-name", text, "Write 1 and 0, and no error values.")


def check_tree(formula: Formula) -> Iterator[Problem]:
    """Judge how a formula is built, once its tokens are fine."""
    try:
        tree = parse(formula.text)
    except FormulaError as error:
        yield fault_unreadable(formula, str(error))
        return
    calls = [node for node in walk(tree) if isinstance(node, Call)]
    branches = [branch for call in calls if call.function == "IF" for branch in call.arguments]
    inside = [node for branch in branches for node in walk(branch) if isinstance(node, Call)]
    if any(call.function == "IF" for call in inside):
        remedy = "Cut it into two rows, or put the conditions side by side."
        yield formula.fault("nested-if", "an IF stands inside an IF.", remedy)
    for call in calls:
        names = [node for node in call.arguments if isinstance(node, Operand)]
        if call.function == "PRIOR" and not len(call.arguments) == len(names) == 1:
            text = "PRIOR takes the name of one column."
            yield formula.fault("wrong-prior", text, "Write PRIOR(name).")


def fault_unreadable(formula: Formula, why: str) -> Problem:
    """Return the finding about a formula that is none."""
    text = f"the formula cannot be read: {why}."
    return formula.fault("not-a-formula", text, f"Correct {formula.text!r}.")
