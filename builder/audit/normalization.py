"""One spelling for formulas and references that programs spell differently when they save."""

import re
from datetime import date, datetime, time, timedelta

from openpyxl.formula import Tokenizer
from openpyxl.formula.tokenizer import Token, TokenizerError
from openpyxl.utils.datetime import to_excel

CellValue = float | str | bool | None

FUTURE = re.compile(r"_XLFN\.(_XLWS\.)?")
SINGLE_CELL = re.compile(r"\$?[A-Z]{1,3}\$?[0-9]{1,7}")


def normalize_formula(formula: str) -> str:
    """Return the formula in one spelling; texts and operators stay as they are."""
    try:
        tokens = Tokenizer(formula).items
    except TokenizerError:
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
    """Return what a defined name points to; one absolute cell as `Sheet!B5`."""
    sheet, mark, cell = unquote(target.strip().removeprefix("=")).rpartition("!")
    whole = SINGLE_CELL.fullmatch(cell) and cell.count("$") == 2
    return f"{sheet}!{cell.replace('$', '')}" if mark and whole else f"{sheet}{mark}{cell}"


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
