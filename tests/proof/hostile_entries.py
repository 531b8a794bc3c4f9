"""Formulas and values where people type, as no spreadsheet program lets them be typed."""

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from audit.edits import edit_cell

PLANTED = "planted.txt"
DAMAGED = "is damaged"
# What is carried over takes longer than an audit, and all formulas go the same way.
RENEWED = (
    "a formula that runs a program",
    "a formula that is none",
    "a formula of a million signs",
    "another book",
    "a million rows",
    "itself",
)


@dataclass(frozen=True, slots=True)
class Trap:
    """A workbook, how its audit ends and what it says, and what its renewal says, if that runs."""

    name: str
    data: bytes
    told: str
    renewed: str = ""
    carried: bool = True
    code: int = 1


def refuse(name: str, data: bytes, told: str) -> Trap:
    """Return a workbook that audit and renewal refuse in the same words."""
    return Trap(name, data, told, told, carried=False, code=4)


def list_formulas(sound: bytes, place: str, port: int) -> Iterator[Trap]:
    deep = "(" * 4_000 + "1" + ")" * 4_000
    formulas = {
        "a formula": "1+1",
        "a formula that runs a program": f"cmd|'/c echo > {PLANTED}'!A0",
        "a formula that fetches": f'WEBSERVICE("http://127.0.0.1:{port}/x")',
        "a formula that links": f'HYPERLINK("http://127.0.0.1:{port}/x","8")',
        "a formula of another book": "[1]Sheet1!$A$1",
        "a formula of a shared folder": f"'\\\\127.0.0.1@{port}\\x\\[b.xlsx]S'!A1",
        "a formula of itself": place.rpartition("!")[2],
        "a formula without end": "COMBIN(1E15,5E14)",
        "a formula over a million rows": "SUMPRODUCT((B1:Z1048576>0)*(B1:Z1048576))",
        "a formula over all rows": "SUM(1:1048576)",
        "a formula four thousand brackets deep": deep,
        "a formula of a million signs": "+".join(["1"] * 500_000),
        "a formula that is none": ")(",
        "an empty formula": "",
        "a text without end": 'LEN(REPT(REPT("x",32767),32767))',
    }
    for name, formula in formulas.items():
        words = formula.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")
        data = edit_cell(sound, place, rewrite(f"<f>{words}</f><v>8</v>"))
        said = rf"{re.escape(place)}\b"
        renewed = "a formula, which is not worked out here" if name in RENEWED else ""
        yield Trap(f"{name} in a cell to type in", data, said, renewed)


def list_values(sound: bytes, place: str) -> Iterator[Trap]:
    """Yield books with values that no cell to type in can hold."""
    values = {
        "text": ("inlineStr", "<is><t>eight</t></is>"),
        "a million letters": ("inlineStr", f"<is><t>{'x' * 1_000_000}</t></is>"),
        "a command": ("inlineStr", "<is><t>=cmd|'/c calc'!A0</t></is>"),
        "signs from right to left": ("inlineStr", "<is><t>8\u202e8</t></is>"),
        "signs that move the cursor": ("inlineStr", "<is><t>_x001B_[2J_x0000_</t></is>"),
        "an error": ("e", "<v>#REF!</v>"),
        "a truth": ("b", "<v>1</v>"),
        "a number below all": ("n", "<v>-1E308</v>"),
        "a number beyond all": ("n", "<v>1E999</v>"),
    }
    for name, (kind, words) in values.items():
        data = edit_cell(sound, place, rewrite(words, kind))
        yield Trap(f"{name} in a cell for a number", data, rf"{re.escape(place)}\b|damaged")
    refused = {
        "a day beyond all": ("d", "<v>9999-99-99T99:99:99</v>"),
        "no number": ("n", "<v>NaN(ind)</v>"),
        "a text that is not there": ("s", "<v>99999999</v>"),
        "a number of thousands of digits": ("s", f"<v>{'9' * 9_000}</v>"),
    }
    for name, (kind, words) in refused.items():
        data = edit_cell(sound, place, rewrite(words, kind))
        yield refuse(f"{name} in a cell for a number", data, DAMAGED)


def rewrite(words: str, kind: str = "n") -> Callable[[str], str]:
    """Return a change of a cell that keeps its place and its look."""

    def change(cell: str) -> str:
        head = re.sub(r' t="\w+"', "", cell.partition(">")[0].rstrip("/"))
        return f'{head} t="{kind}">{words}</c>'

    return change
