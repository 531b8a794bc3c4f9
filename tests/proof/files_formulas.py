"""Formulas changed in one token, as a slip of the hand or a mistaken repair would."""

import random
import re
from collections.abc import Iterator

from openpyxl.formula.tokenizer import Token

from proof.lint_xml import tokens

SWAPPED = {"+": "-", "-": "+", "*": "/", "/": "*", "<": ">", ">": "<", "=": "<>", "<>": "="}
SWAPPED |= {"<=": "<", ">=": ">", "^": "*", "&": "="}
FUNCTIONS = {"MIN(": "MAX(", "MAX(": "MIN(", "AND(": "OR(", "OR(": "AND(", "SUM(": "COUNT("}
FUNCTIONS |= {"ROUND(": "ROUNDUP(", "COUNT(": "COUNTA(", "LOG10(": "LN(", "INT(": "ABS("}
CELL = re.compile(r"(\$?[A-Z]{1,3}\$?)([0-9]{1,7})")


def change_formula(formula: str, seed: str) -> str:
    """Return a formula with one token changed, or with something added that has no effect."""
    options = [*list_changes(formula), f"{formula}+0", f'{formula}&""']
    return random.Random(seed).choice(options)  # noqa: S311 - no secret


def list_changes(formula: str) -> Iterator[str]:
    """Yield the formula with each token changed in turn."""
    parts = tokens(formula)
    for number, token in enumerate(parts):
        changed = change_token(token)
        if changed != token.value:
            before, after = parts[:number], parts[number + 1 :]
            yield "".join([*(t.value for t in before), changed, *(t.value for t in after)])


def change_token(token: Token) -> str:
    """Return another token, or the same where there is nothing like it."""
    value = str(token.value)
    if token.type in {Token.OP_IN, Token.OP_PRE}:
        return SWAPPED.get(value, value)
    if token.type == Token.FUNC:
        return FUNCTIONS.get(value, value)
    if token.type != Token.OPERAND:
        return value
    if token.subtype == Token.NUMBER:
        return f"{float(value) + 1:g}"
    if token.subtype == Token.TEXT:
        return f'{value[:-1]} "'
    sheet, mark, cell = value.rpartition("!")
    moved = CELL.fullmatch(cell)
    return f"{sheet}{mark}{moved[1]}{int(moved[2]) + 1}" if moved else value
