"""Damage that moves whole rows."""

import random
import re
from collections.abc import Iterator

from proof.files_draft import Draft, Mutant, Sign
from proof.lint_xml import Cell, Sheet, write_spot

Row = dict[int, Cell]
Rows = dict[int, Row]
SEED = 5


def list_swaps(draft: Draft, parity: int) -> Iterator[Mutant]:
    """Yield swaps of neighbouring rows, each second pair, where what is locked differs."""
    for sheet in draft.book.sheets:
        rows = read_rows(sheet)
        tags = {number: key for key, number in number_rows(draft, sheet)}
        for number in range(1 + parity, max(rows), 2):
            one, other = rows.get(number, {}), rows.get(number + 1, {})
            signs = (*tell(draft, sheet, number, other), *tell(draft, sheet, number + 1, one))
            if one and other and signs:
                changes = {place: "" for row in (one, other) for place in list_places(sheet, row)}
                for row, target in ((other, number), (one, number + 1)):
                    tag = tags[target]
                    changes[tag] = draft.pieces[tag] + spell(draft, sheet, row, target)
                yield Mutant("rows swapped", f"{sheet.title} {number}", "", changes, signs)


def list_insertions(draft: Draft) -> Iterator[Mutant]:
    """Yield one row inserted in each sheet, and one deleted."""
    draw = random.Random(SEED)  # noqa: S311 - no secret
    for sheet in draft.book.sheets:
        rows = read_rows(sheet)
        filled = [number for number in rows if any(tell(draft, sheet, number, {}))]
        number = draw.choice(filled)
        pushed = {row + (row >= number): cells for row, cells in rows.items()}
        yield rebuild(draft, sheet, "row inserted", pushed, tell(draft, sheet, number, {}))
        uneven = [n for n in rows if any(tell(draft, sheet, n, rows.get(n + 1, {})))]
        number = draw.choice(uneven)
        pulled = {row - (row > number): cells for row, cells in rows.items() if row != number}
        signs = tell(draft, sheet, number, rows.get(number + 1, {}))
        yield rebuild(draft, sheet, "row deleted", pulled, signs)


def rebuild(draft: Draft, sheet: Sheet, kind: str, rows: Rows, signs: Iterator[Sign]) -> Mutant:
    """Return the mutant that has its rows elsewhere; formulas keep their text."""
    keys = draft.orders[sheet.part]
    start = keys.index(draft.keys(sheet.part, "row")[0])
    end = max(i for i, key in enumerate(keys) if "</row>" in draft.pieces[key])
    changes = dict.fromkeys(keys[start:end], "")
    texts = [f'<row r="{row}">{spell(draft, sheet, cells, row)}' for row, cells in rows.items()]
    changes[keys[start]] = "</row>".join(texts)
    told = tuple(signs)
    return Mutant(kind, told[0].place, "", changes, told)


def read_rows(sheet: Sheet) -> Rows:
    rows: Rows = {}
    for cell in sheet.cells:
        rows.setdefault(cell.spot[0], {})[cell.spot[1]] = cell
    return rows


def number_rows(draft: Draft, sheet: Sheet) -> Iterator[tuple[str, int]]:
    for key in draft.keys(sheet.part, "row"):
        hit = re.search(r' r="(\d+)"', draft.pieces[key])
        assert hit is not None, draft.pieces[key]
        yield key, int(hit[1])


def list_places(sheet: Sheet, row: Row) -> list[str]:
    return [sheet.place(cell.address) for cell in row.values()]


def spell(draft: Draft, sheet: Sheet, row: Row, number: int) -> str:
    """Return the cells of a row as the file spells them, in another row."""
    return "".join(
        draft.pieces[sheet.place(cell.address)].replace(
            f' r="{cell.address}"', f' r="{write_spot((number, column))}"', 1
        )
        for column, cell in row.items()
    )


def tell(draft: Draft, sheet: Sheet, number: int, new: Row) -> Iterator[Sign]:
    """Yield what to say of each locked cell of a row that holds something else now."""
    now = {cell.spot[1]: cell for cell in sheet.cells if cell.spot[0] == number}
    for column in sorted(now.keys() | new.keys()):
        spot = (number, column)
        old, other = hold(draft, now.get(column)), hold(draft, new.get(column))
        if old != other and (sheet.title, spot) not in draft.book.unlocked:
            kind = "formula" if old.startswith("=") else "constant"
            yield Sign(sheet.place(write_spot(spot)), f"{kind}, found ")


def hold(draft: Draft, cell: Cell | None) -> str:
    if cell is None:
        return ""
    return draft.book.text(cell) if cell.formula is None else f"={cell.formula}"
