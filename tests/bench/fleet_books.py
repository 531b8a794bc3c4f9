"""The roster of a thousand machines, and how their books are filled in."""

import csv
import html
import importlib.util
import random
import re
import zipfile
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from types import ModuleType

DEALER = Path(__file__).parents[2] / "examples" / "dealer" / "make_roster.py"
CELL = re.compile(r'<c r="([A-Z]+[0-9]+)"((?: [a-z]+="[^"]*")*?)(?:/>|>(.*?)</c>)', re.DOTALL)
NAME = re.compile(r"""<definedName [^>]*?\bname="(\w+)"[^>]*>'?([^'<]*)'?!\$([A-Z]+)\$(\d+)""")
SHEET = re.compile(r'<sheet [^>]*name="([^"]*)"')
SEASON_D = 46451  # serial number of 2027-03-05
PLENTY, SCANT = 90000.0, 1.0  # a rinse in litres or gallons, far above and far below what is owed


@dataclass(frozen=True, slots=True)
class Design:
    """Where things stand in the books of one edition."""

    names: dict[str, tuple[str, str, int]]  # part of the file, column, row
    titles: list[str]


def write_roster(path: Path, count: int, seed: int) -> None:
    """Write so many rows; languages and units take turns, so that every edition is among them."""
    dealer, lot = load_dealer(), random.Random(seed)  # noqa: S311 - a drawing, no secret
    with path.open("w", encoding="utf-8", newline="") as file:
        table = csv.writer(file)
        table.writerow([*dealer.HEADINGS[:5], "file", *dealer.HEADINGS[6:]])
        for number in range(count):
            lang, units = ("en", "fr")[number % 2], ("metric", "us", "imperial")[number // 2 % 3]
            about = f"Sugar house {number}", f"Lot {number % 29}", f"Machine {number}", lang, units
            table.writerow([*about, name_book(number), *dealer.draw_machine(lot, units)])


def name_book(number: int) -> str:
    """Return the name of a book without its ending."""
    return f"book-{number:04}"


def load_dealer() -> ModuleType:
    """Return the script that draws the machines of the example."""
    place = importlib.util.spec_from_file_location("make_roster", DEALER)
    assert place
    assert place.loader
    module = importlib.util.module_from_spec(place)
    place.loader.exec_module(module)
    return module


@cache
def read_design(workbook_xml: str) -> Design:
    """Return what one edition calls its cells."""
    workbook_xml = html.unescape(workbook_xml)
    titles = SHEET.findall(workbook_xml)
    names = {
        name: (f"xl/worksheets/sheet{titles.index(title) + 1}.xml", column, int(row))
        for name, title, column, row in NAME.findall(workbook_xml)
    }
    return Design(names, titles)


def list_season(lot: random.Random, rinse: float) -> Iterator[dict[str, object]]:
    """Yield the rows of a season: runs, and a wash now and then with its rinse."""
    for day in range(lot.randint(20, 40)):
        run = {"event": "run", "hours_h": lot.randint(2, 9), "flow_Lph": lot.randint(700, 1500)}
        yield {"day_d": SEASON_D + day, **run, "note": f"run {day}, cold"}
        if day % 5 == 4:
            wash = {"event": "alkaline", "begin_pH": 11.6, "finish_pH": 11.3, "rinse_L": rinse}
            yield {"day_d": SEASON_D + day, **wash, "initials": "ZZ"}


def fill_book(data: Path, target: Path, lot: random.Random, rinse: float) -> None:
    """Write a book as filled in: typed cells changed, nothing stored any more for the formulas."""
    with zipfile.ZipFile(data) as book:
        design = read_design(book.read("xl/workbook.xml").decode())
        typed: dict[str, dict[str, object]] = {}
        for number, row in enumerate(list_season(lot, rinse)):
            for key, value in row.items():
                part, column, first = design.names[f"log_{key}_list"]
                typed.setdefault(part, {})[f"{column}{first + number}"] = value
        for key, value in (("end_pH_typed", 11.4), ("end_temp_degC_typed", 40)):
            part, column, row = design.names[key]
            typed.setdefault(part, {})[f"{column}{row}"] = value
        with zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED, compresslevel=1) as new:
            for name in book.namelist():
                content = book.read(name)
                if name.startswith("xl/worksheets/sheet"):
                    content = edit_sheet(content.decode(), typed.get(name, {})).encode()
                new.writestr(name, content)


def edit_sheet(xml: str, typed: dict[str, object]) -> str:
    """Return a sheet with cells typed in, and without the values of its formulas."""

    def change(cell: re.Match[str]) -> str:
        place, marks, inside = cell[1], cell[2], cell[3] or ""
        if place in typed:
            return write_cell(place, re.sub(r' t="\w+"', "", marks), typed[place])
        if inside.startswith("<f"):
            formula = re.sub(r"<v>.*", "", inside, flags=re.DOTALL)
            return f'<c r="{place}"{re.sub(r" t=.str.", "", marks)}>{formula}</c>'
        return cell[0]

    return CELL.sub(change, xml)


def write_cell(place: str, marks: str, value: object) -> str:
    """Return the XML of a cell with a value typed in."""
    if isinstance(value, str):
        return f'<c r="{place}"{marks} t="inlineStr"><is><t>{value}</t></is></c>'
    return f'<c r="{place}"{marks}><v>{value}</v></c>'
