"""Formulas that no engine is given, because what they take has no bound.

Engines work through a formula by recursion, no deeper than its brackets and operators are many. In
a megabyte of stack, the least that a system gives, the weakest engine died of 265 brackets inside
brackets or 656 operators in a chain (measured); our own formulas have 61 of both at most.
"""

import re

from openpyxl.utils.cell import column_index_from_string

from builder.spec.rules_formulas import FUNCTIONS

MOST_SIGNS = 8_192  # as many as spreadsheet programs take
MOST_OPERATORS = 256
MOST_BRACKETS = 64  # as many as spreadsheet programs allow
MOST_CELLS = 20_000
MOST_WORK = 20_000_000
OPERATORS, OPENING = "+-*/^&=<>%", "({"
BRACKET = re.compile(r"[(){}]")
QUOTED = re.compile(r"\"[^\"]*\"|'[^']*'")
SPELLED = {"TRUE", "FALSE"}  # constants, which some programs save as calls
CALL = re.compile(r"([^\W\d][\w.]*)\s*\(")
AREA = re.compile(r"\$?([A-Z]{0,3})\$?([0-9]{0,7}):\$?([A-Z]{0,3})\$?([0-9]{0,7})", re.IGNORECASE)
PREFIX = re.compile(r"^_XLFN\.(_XLWS\.)?")
LAST_COLUMN, LAST_ROW = 16_384, 1_048_576


def keep_safe(formulas: dict[str, str]) -> dict[str, str]:
    """Return the formulas whose work has a bound, by place, as far as the work of all has one."""
    safe: dict[str, str] = {}
    work = 0
    for place, formula in formulas.items():
        if len(formula) > MOST_SIGNS:
            continue
        bare = QUOTED.sub('""', formula)
        cells = count_cells(bare)
        if is_bounded(bare) and cells <= MOST_CELLS and work + cells <= MOST_WORK:
            work += cells
            safe[place] = formula
    return safe


def is_bounded(formula: str) -> bool:
    """Tell whether a formula is shallow, and of functions that our own formulas use."""
    if is_deep(formula):
        return False
    return {PREFIX.sub("", name.upper()) for name in CALL.findall(formula)} <= FUNCTIONS | SPELLED


def is_deep(formula: str) -> bool:
    """Tell whether operators, or brackets inside brackets, are more than an engine can follow."""
    if sum(map(formula.count, OPERATORS)) > MOST_OPERATORS:
        return True
    level = deepest = 0
    for sign in BRACKET.findall(formula):
        level += 1 if sign in OPENING else -1
        deepest = max(deepest, level)
    return deepest > MOST_BRACKETS


def count_cells(formula: str) -> int:
    """Return how many cells a formula may go through: areas side by side can span a table."""
    if ":" not in formula:
        return 1
    sizes = [measure(*found) for found in AREA.findall(formula)]
    tallest = max((rows for rows, _ in sizes), default=1)
    widest = max((columns for _, columns in sizes), default=1)
    return max(tallest * widest, sum(rows * columns for rows, columns in sizes))


def measure(left: str, top: str, right: str, bottom: str) -> tuple[int, int]:
    """Return rows and columns of an area; one without rows or columns has them all."""
    rows = abs(int(bottom) - int(top)) + 1 if top and bottom else LAST_ROW
    if not left or not right:
        return rows, LAST_COLUMN
    return rows, abs(column_index_from_string(right) - column_index_from_string(left)) + 1
