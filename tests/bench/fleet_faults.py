"""Faults put into filled books, one a book, whoever saved the file."""

import random
import re
import zipfile
from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from pathlib import Path

from bench.fleet_books import CELL, Design, read_design

BOOK = "xl/workbook.xml"
CONSTANTS, LISTS = 21, 23  # numbers of the sheets that hold them
FORMULA = re.compile(r"(<f[^>]*>)(.*?)</f>", re.DOTALL)
VALUE = re.compile(r"<v>([^<]*)</v>")
NUMBER = re.compile(r"-?[0-9.]+(?:[eE][-+]?[0-9]+)?")


@dataclass(frozen=True, slots=True)
class File:
    """The parts of a workbook, and where things stand in it."""

    parts: dict[str, str]
    rest: dict[str, bytes]
    design: Design

    def cells(self, part: str) -> list[re.Match[str]]:
        """Return the cells of a sheet."""
        return list(CELL.finditer(self.parts[part]))

    def show(self, part: str, place: str) -> str:
        """Return a cell's address as findings give it."""
        number = int(re.sub(r"\D", "", part))
        return f"{self.design.titles[number - 1]}!{place}"

    def swap(self, part: str, old: str, new: str) -> None:
        """Change a sheet in one place; the change must change something."""
        assert old != new
        assert self.parts[part].count(old) >= 1
        self.parts[part] = self.parts[part].replace(old, new, 1)


Seed = Callable[[File, random.Random], str]


def list_formulas(file: File) -> list[tuple[str, re.Match[str]]]:
    """Return every formula cell with its part."""
    sheets = [part for part in file.parts if part.startswith("xl/worksheets/sheet")]
    return [(p, c) for p in sheets for c in file.cells(p) if "<f" in (c[3] or "")]


def list_numbers(file: File, number: int) -> list[re.Match[str]]:
    """Return the cells of a sheet that hold a number other than 0 in its second column."""
    found = []
    for cell in file.cells(f"xl/worksheets/sheet{number}.xml"):
        value = VALUE.search(cell[3] or "")
        shared = 't="s"' in cell[2] or "<f" in (cell[3] or "")
        plain = value and not shared and NUMBER.fullmatch(value[1]) and float(value[1]) != 0
        if cell[1].startswith("B") and plain:
            found.append(cell)
    return found


def change_formula(file: File, lot: random.Random) -> str:
    part, cell = lot.choice(list_formulas(file))
    file.swap(part, cell[0], FORMULA.sub(r"\1IF(1=1,\2&amp;&quot;7&quot;,0)</f>", cell[0]))
    return file.show(part, cell[1])


def type_over(file: File, lot: random.Random) -> str:
    part, cell = lot.choice(list_formulas(file))
    style = re.sub(r' t="\w+"', "", cell[2])
    file.swap(part, cell[0], f'<c r="{cell[1]}"{style}><v>12345</v></c>')
    return file.show(part, cell[1])


def change_number(file: File, lot: random.Random, sheet: int) -> str:
    cell = lot.choice(list_numbers(file, sheet))
    part = f"xl/worksheets/sheet{sheet}.xml"
    file.swap(part, cell[0], VALUE.sub(lambda v: f"<v>{float(v[1]) * 1.01!r}</v>", cell[0]))
    return file.show(part, cell[1])


def swap_rows(file: File, lot: random.Random) -> str:
    part = f"xl/worksheets/sheet{CONSTANTS}.xml"
    numbers = {VALUE.search(cell[3])[1]: cell for cell in list_numbers(file, CONSTANTS)}
    one, two = lot.sample(sorted(numbers.values(), key=lambda cell: cell.start()), 2)
    pairs = [(one, two), (two, one)]
    swapped = [own[0].replace(VALUE.search(own[0])[0], VALUE.search(o[0])[0]) for own, o in pairs]
    for own, new in zip((one, two), swapped, strict=True):
        file.swap(part, own[0], new)
    return file.show(part, one[1])


def move_name(file: File, lot: random.Random) -> str:
    name = lot.choice(sorted(n for n in file.design.names if not n.startswith("_")))
    own = re.compile(rf'(name="{name}"[^>]*>[^<]*\$)\d+<')
    file.parts[BOOK] = own.sub(r"\g<1>999<", file.parts[BOOK])
    return name


def unlock(file: File, lot: random.Random) -> str:
    part, column, row = file.design.names["vessel_bore_mm_typed"]
    (typed,) = [c for c in file.cells(part) if c[1] == f"{column}{row}"]
    style = re.search(r' s="\d+"', typed[2])[0]
    part, cell = lot.choice(list_formulas(file))
    file.swap(part, cell[0], re.sub(r' s="\d+"', style, cell[0], count=1))
    return file.show(part, cell[1])


def widen_choice(file: File, _lot: random.Random) -> str:
    part, column, row = file.design.names["rinse_rule_typed"]
    file.swap(part, ">rinse_rule_words<", ">recipe_water_means_words<")
    return file.show(part, f"{column}{row}")


def hide_sheet(file: File, lot: random.Random) -> str:
    title = lot.choice(file.design.titles)

    def change(sheet: re.Match[str]) -> str:
        shown = sheet[0].replace(' state="visible"', "")
        return shown.replace("<sheet ", '<sheet state="hidden" ')

    own = re.compile(f'<sheet [^>]*name="{title}"[^>]*>')
    file.parts[BOOK] = own.sub(change, file.parts[BOOK])
    return title


def remove_check(file: File, lot: random.Random) -> str:
    name = lot.choice(sorted(name for name in file.design.names if name.endswith("_ok")))
    part, column, row = file.design.names[name]
    (cell,) = [c for c in file.cells(part) if c[1] == f"{column}{row}"]
    style = re.sub(r' t="\w+"', "", cell[2])
    inside = "<is><t>ok</t></is>"
    file.swap(part, cell[0], f'<c r="{cell[1]}"{style} t="inlineStr">{inside}</c>')
    return file.show(part, cell[1])


def type_formula(file: File, lot: random.Random) -> str:
    name = lot.choice(["vessel_bore_mm_typed", "wash_temp_degC_typed", "end_pH_typed"])
    part, column, row = file.design.names[name]
    (cell,) = [c for c in file.cells(part) if c[1] == f"{column}{row}"]
    style = re.sub(r' t="\w+"', "", cell[2])
    file.swap(part, cell[0], f'<c r="{cell[1]}"{style}><f>10+1</f></c>')
    return file.show(part, cell[1])


def open_sheet(file: File, lot: random.Random) -> str:
    number = lot.randrange(len(file.design.titles))
    part = f"xl/worksheets/sheet{number + 1}.xml"
    found = re.search(r"<sheetProtection[^>]*/>", file.parts[part])
    file.swap(part, found[0], "")
    return file.design.titles[number]


def change_stored(file: File, lot: random.Random) -> str:
    numbers = [
        (part, cell)
        for part, cell in list_formulas(file)
        if 't="str"' not in cell[2] and VALUE.search(cell[3])
    ]
    part, cell = lot.choice(numbers)
    file.swap(part, cell[0], VALUE.sub(lambda v: f"<v>7{v[1].lstrip('-')}</v>", cell[0]))
    return file.show(part, cell[1])


SEEDS: dict[str, Seed] = {
    "formula": change_formula,
    "typed over": type_over,
    "constant": partial(change_number, sheet=CONSTANTS),
    "unit factor": partial(change_number, sheet=LISTS),
    "swapped rows": swap_rows,
    "name": move_name,
    "lock": unlock,
    "validation": widen_choice,
    "hidden sheet": hide_sheet,
    "removed check": remove_check,
    "formula in an input": type_formula,
    "protection": open_sheet,
}
STORED: dict[str, Seed] = {"stored value": change_stored}


def damage(path: Path, seed: Seed, lot: random.Random) -> str:
    """Put one fault into a file, and return what a finding must name."""
    with zipfile.ZipFile(path) as book:
        content = {name: book.read(name) for name in book.namelist()}
    sheets = [n for n in content if n.startswith("xl/worksheets/sheet") or n == BOOK]
    parts = {name: content.pop(name).decode() for name in sheets}
    file = File(parts, content, read_design(parts[BOOK]))
    named = seed(file, lot)
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED, compresslevel=1) as new:
        for name, text in file.parts.items():
            new.writestr(name, text)
        for name, data in file.rest.items():
            new.writestr(name, data)
    return named


def cut_short(path: Path) -> None:
    """Leave the first half of a file, as a broken download does."""
    path.write_bytes(path.read_bytes()[: path.stat().st_size // 2])
