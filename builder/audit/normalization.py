"""One spelling for formulas and references that programs spell differently when they save."""

import re
from collections.abc import Callable
from datetime import date, datetime, time, timedelta

from openpyxl.formula import Tokenizer
from openpyxl.formula.tokenizer import Token, TokenizerError
from openpyxl.utils.datetime import to_excel
from openpyxl.worksheet.datavalidation import DataValidation

CellValue = float | str | bool | None

FUTURE = re.compile(r"_XLFN\.(_XLWS\.)?")
SINGLE_CELL = re.compile(r"\$?[A-Z]{1,3}\$?[0-9]{1,7}")


def normalize_formula(formula: str) -> str:
    """Return the formula in one spelling; texts and operators stay as they are."""
    try:
        tokens = Tokenizer(formula).items
    except (TokenizerError, IndexError):  # the latter where a bracket closes what none opened
        return formula
    return "=" + "".join(spell(token) for token in tokens if token.type != Token.WSPACE)


def spell(token: Token) -> str:
    """Return one token: numbers by value, names and functions without case or quotes."""
    value = str(token.value)
    if token.type == Token.FUNC:
        return FUTURE.sub("", value.upper())
    if token.type != Token.OPERAND or token.subtype == Token.TEXT:
        return value
    if token.subtype == Token.NUMBER:
        return repr(float(value))
    if token.subtype == Token.LOGICAL:
        return f"{value.upper()}()"
    return unquote(value).upper()


def unquote(reference: str) -> str:
    """Return a reference without the quotes round its sheet."""
    sheet, mark, cell = reference.rpartition("!")
    if len(sheet) > 1 and sheet.startswith("'") and sheet.endswith("'"):
        sheet = sheet[1:-1].replace("''", "'")
    return f"{sheet}{mark}{cell}"


def normalize_target(target: str) -> str:
    """Return what a defined name points to; one absolute cell as `Sheet!B5`.

    A cell without `$` moves with whoever uses the name, so it must not look like an absolute one.
    """
    sheet, mark, cell = unquote(target.strip().removeprefix("=")).rpartition("!")
    if not mark or not SINGLE_CELL.fullmatch(cell):
        return f"{sheet}{mark}{cell}"
    if cell.count("$") == 2:
        return f"{sheet}!{cell.replace('$', '')}"
    return f"{sheet}!{cell}" if "$" in cell else f"{sheet}!{cell} relative"


def describe_validation(rule: DataValidation, spell: Callable[[str], str]) -> str:
    """Return what a cell accepts, as `list =pump_words, else warning`, formulas as spelled.

    Prompts do not count, nor the bounds that programs fill in although the rule does not use them.
    """
    kind = rule.type or "any"
    if kind == "any":
        return kind
    strictness = (rule.errorStyle or "stop") if rule.showErrorMessage else "nothing"
    bounds = [spell(f"={rule.formula1}")]
    if kind in {"list", "custom"}:
        arrow = " without arrow" if rule.showDropDown else ""
        return f"{kind}{arrow} {bounds[0]}, else {strictness}"
    operator = rule.operator or "between"
    if operator.lower().endswith("between"):
        bounds.append(spell(f"={rule.formula2}"))
    return f"{kind} {operator} {' and '.join(bounds)}, else {strictness}"


def normalize_value(value: object) -> CellValue:
    """Return a cell's value as number, text, truth or None; an empty text is nothing."""
    if value is None or value == "":
        return None
    if isinstance(value, bool):
        return value
    if isinstance(value, int | float):
        return float(value)
    if isinstance(value, datetime | date | time | timedelta):
        serial = to_excel(value)  # type: ignore[no-untyped-call]
        return None if serial is None else float(serial)
    return str(value)
