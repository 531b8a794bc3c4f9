"""The roster of a thousand machines, and how their books are filled in."""

import csv
import random
import re
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

from proof.files_draft import Draft, clear, spell, tell

from bench.processes import load_module

DEALER = Path(__file__).parents[2] / "examples" / "dealer" / "make_roster.py"
VALUE = re.compile("</f><v>[^<]*</v>")
SEASON_D = 46451  # serial number of 2027-03-05
PLENTY, SCANT = 20000.0, 1.0  # a rinse in litres or gallons, far above and far below what is owed


def write_roster(path: Path, count: int, seed: int) -> None:
    """Write so many rows; languages and units take turns, so that every edition is among them."""
    dealer, lot = load_module(DEALER), random.Random(seed)  # noqa: S311 - a drawing, no secret
    with path.open("w", encoding="utf-8", newline="") as file:
        table = csv.writer(file)
        table.writerow([*dealer.HEADINGS[:5], "file", *dealer.HEADINGS[6:]])
        for number in range(count):
            lang, units = ("en", "fr")[number % 2], ("metric", "us", "imperial")[number // 2 % 3]
            about = f"Sugar house {number}", f"Lot {number % 29}", f"Machine {number}", lang, units
            table.writerow([*about, name_book(number), *dealer.draw_machine(lot, units)])


def name_book(number: int) -> str:
    return f"book-{number:04}"


def list_season(lot: random.Random, rinse: float) -> Iterator[dict[str, object]]:
    """Yield the rows of a season: runs, and a wash now and then with its rinse and a test."""
    signed = {"water_kind": "permeate", "initials": "ZZ"}
    for day in range(lot.randint(20, 40)):
        date = {"date": SEASON_D + day}
        yield {**date, "event": "run", "hours_h": lot.randint(2, 9), "note": f"run {day}, cold"}
        if day % 5 == 4:
            wash = {"event": "alkaline", "begin_pH": 11.6, "finish_pH": 11.3, "rinse_L": rinse}
            yield {**date, **wash, **signed}
            gauges = {"feed_bar": 17, "out_bar": 16, "water_degC": 45}
            yield {**date, "event": "test", "flow_Lph": lot.randint(700, 1500), **gauges}


def fill_book(data: Path, target: Path, lot: random.Random, rinse: float) -> None:
    """Write a book as filled in: typed cells changed, nothing stored any more for the formulas."""
    draft = Draft(data.read_bytes())
    typed: dict[str, dict[int, object]] = {"end_pH_typed": {0: 11.4}}
    for number, row in enumerate(list_season(lot, rinse)):
        for key, value in row.items():
            typed.setdefault(f"log_{key}_list", {})[number] = value
    changes = {key: VALUE.sub("</f>", text) for key, text in draft.pieces.items()}
    cells = {(sheet.title, c.spot): c for sheet in draft.book.sheets for c in sheet.cells}
    for name, values in typed.items():
        title, spots = draft.book.areas[name]
        for number, value in values.items():
            cell = clear(cells[title, spots[number]])
            text = tell(cell, value) if isinstance(value, str) else ""
            changes[f"{title}!{cell.address}"] = text or spell(replace(cell, value=str(value)), [])
    target.write_bytes(draft.write(changes))
