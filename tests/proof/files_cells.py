"""Damage to cells: formulas, stored values, constants, texts, locks and looks."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from proof.files_draft import Draft, Mutant, Sign, clear, spell, tell
from proof.files_formulas import change_formula
from proof.files_styles import NOTHING, disguise, fade, hide, turn_lock
from proof.lint_xml import MAIN, Cell

TYPED_OVER = "typed over it"
NUMBER = "n"
REGISTER = "reader_mm_factor_n"  # stands on the sheet of the unit factors


@dataclass(frozen=True, slots=True)
class Spot:
    """One cell of a draft to be damaged; `count` are the formats of the file before the twins."""

    draft: Draft
    count: int
    place: str
    quantity: str
    group: str
    cell: Cell

    def damage(self, kind: str, text: str, start: str) -> Mutant:
        sign = Sign(self.place, start)
        changes = {self.place: text}
        return Mutant(f"{self.group} {kind}", self.place, self.quantity, changes, (sign,))

    def restyle(self, kind: str, style: int, start: str) -> Mutant:
        own = f' s="{self.cell.style}"'
        text = self.draft.pieces[self.place].replace(own, f' s="{style}"', 1)
        return self.damage(kind, text, start)


def list_cells(draft: Draft, count: int) -> Iterator[Mutant]:
    register, _ = draft.book.areas[REGISTER]
    for sheet in draft.book.sheets:
        for cell in sheet.cells:
            place = sheet.place(cell.address)
            quantity = draft.quantity(sheet.title, cell)
            if (sheet.title, cell.spot) in draft.book.unlocked:
                yield from damage_typed(Spot(draft, count, place, quantity, "typed cell", cell))
            elif cell.formula is not None:
                group = "check" if quantity.endswith("_ok") else "formula"
                yield from damage_formula(Spot(draft, count, place, quantity, group, cell))
            elif cell.value is None:
                yield from damage_blank(Spot(draft, count, place, quantity, "blank", cell))
            elif cell.kind == NUMBER:
                group = "unit factor" if sheet.title == register else "constant"
                yield from damage_number(Spot(draft, count, place, quantity, group, cell))
            else:
                yield from damage_text(Spot(draft, count, place, quantity, "text", cell))


def damage_typed(spot: Spot) -> Iterator[Mutant]:
    cell, style = spot.cell, turn_lock(spot.cell.style, spot.count)
    yield spot.restyle("locked", style, "lock, found locked, expected unlocked")
    formula = replace(cell, kind=NUMBER, formula="1+1", value="2")
    yield spot.damage("with a formula", spell(formula, []), "typed cell, found =1+1, ")


def damage_formula(spot: Spot) -> Iterator[Mutant]:
    """Yield the damage to a formula, to the value that it shows, and to its look."""
    cell = spot.cell
    old, new = cell.formula or "", change_formula(cell.formula or "", spot.place)
    told = f"formula, found ={new}, expected ={old}"
    yield spot.damage("changed", spell(replace(cell, formula=new), []), told)
    if cell.value:
        fixed = replace(cell, formula=None)
        yield spot.damage("replaced by its value", spell(fixed, []), "formula, found ")
    yield spot.damage("typed over", tell(cell, TYPED_OVER), f"formula, found '{TYPED_OVER}'")
    yield spot.damage("emptied", spell(clear(cell), []), "formula, found nothing")
    yield spot.damage("with another stored value", spell(restore(cell), []), "value, found ")
    yield from damage_look(spot)


def restore(cell: Cell) -> Cell:
    """Return a formula cell that shows something else than it gives."""
    if cell.kind == NUMBER and cell.value:
        return replace(cell, value=repr(float(cell.value) * 1.25 + 7.03125))
    if cell.value:
        return replace(cell, value=f"{cell.value} stored")
    return replace(cell, kind=NUMBER, value="7.03125")


def damage_number(spot: Spot) -> Iterator[Mutant]:
    """Yield the damage to a constant: the ninth digit already counts, or the nineteenth decimal."""
    cell = spot.cell
    number = float(cell.value or "")
    changed = replace(cell, value=repr(number + max(abs(number) * 1e-9, 1e-19)))
    yield spot.damage("changed", spell(changed, []), "constant, found ")
    yield spot.damage("emptied", spell(clear(cell), []), "constant, found nothing")
    yield spot.damage("typed over", tell(cell, TYPED_OVER), f"constant, found '{TYPED_OVER}'")
    yield from damage_look(spot)


def damage_text(spot: Spot) -> Iterator[Mutant]:
    """Yield the damage to a text; a link without one is read as what it leads to."""
    text = f"{spot.draft.book.text(spot.cell)} ."
    yield spot.damage("changed", tell(spot.cell, text), "constant, found ")
    yield spot.damage("emptied", spell(clear(spot.cell), []), "constant, found ")
    yield from damage_look(spot)


def damage_blank(spot: Spot) -> Iterator[Mutant]:
    """Yield the damage to a locked cell that holds nothing."""
    filled = replace(spot.cell, value="7")
    yield spot.damage("filled", spell(filled, []), "constant, found 7.0, expected nothing")
    style = turn_lock(spot.cell.style, spot.count)
    yield spot.restyle("unlocked", style, "lock, found unlocked, expected locked")


def damage_look(spot: Spot) -> Iterator[Mutant]:
    """Yield the damage that leaves a locked cell's content alone."""
    style, count = spot.cell.style, spot.count
    told = "lock, found unlocked, expected locked"
    yield spot.restyle("unlocked", turn_lock(style, count), told)
    if number_format(spot) != NOTHING:
        yield spot.restyle("hidden by its format", hide(style, count), "number format, found ")
        yield spot.restyle("in the ink of its ground", fade(style, count), "ink, found ")
    if spot.cell.kind == NUMBER:
        yield spot.restyle(
            "shown as a word by its format", disguise(style, count), "number format, found "
        )


def number_format(spot: Spot) -> str:
    own = spot.draft.book.formats[spot.cell.style].get("numFmtId")
    known = spot.draft.book.styles.find(f"{MAIN}numFmts")
    return next((item.get("formatCode") for item in known if item.get("numFmtId") == own), "")
