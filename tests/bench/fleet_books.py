"""The roster of a thousand machines, and how their books are filled in."""

import csv
import random
import re
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from pathlib import Path

from proof.files_draft import Draft, clear, spell, tell

from bench.processes import load_module
from builder.spec.load import find_specs, load_spec
from builder.spec.records import Record

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
    """Yield the rows of a season: runs, and a wash now and then with its rinse."""
    for day in range(lot.randint(20, 40)):
        date = SEASON_D + day
        hours, flow = lot.randint(2, 9), lot.randint(700, 1500)
        yield {"date": date, "event": "run", "hours_h": hours, "note": f"run {day}, cold"}
        if day % 5 == 4:
            wash = {"event": "alkaline", "begin_pH": 11.6, "finish_pH": 11.3, "rinse_L": rinse}
            yield {"date": date, **wash, "initials": "ZZ"}
            yield {"date": date, "event": "test", "flow_Lph": flow}


@cache
def name_events(lang: str) -> dict[str, str]:
    """Return the word of each event in a language, by its code."""
    column = load_spec(find_specs()).quantities["event"]
    if not isinstance(column, Record):
        raise TypeError(column)
    return {code: words.pick(lang) for code, words in column.options.items()}


def fill_book(data: Path, target: Path, lot: random.Random, rinse: float) -> None:
    """Write a book as filled in: typed cells changed, nothing stored any more for the formulas."""
    draft = Draft(data.read_bytes())
    events = name_events(draft.book.property["language"])
    typed: dict[str, dict[int, object]] = {
        "end_pH_typed": {0: 11.4},
        "end_temp_degC_typed": {0: 40},
    }
    for number, row in enumerate(list_season(lot, rinse)):
        for key, value in row.items():
            word = events[str(value)] if key == "event" else value
            typed.setdefault(f"log_{key}_list", {})[number] = word
    changes = {key: VALUE.sub("</f>", text) for key, text in draft.pieces.items()}
    cells = {(sheet.title, c.spot): c for sheet in draft.book.sheets for c in sheet.cells}
    for name, values in typed.items():
        title, spots = draft.book.areas[name]
        for number, value in values.items():
            cell = clear(cells[title, spots[number]])
            text = tell(cell, value) if isinstance(value, str) else ""
            changes[f"{title}!{cell.address}"] = text or spell(replace(cell, value=str(value)), [])
    target.write_bytes(draft.write(changes))
