"""Writes collected tables as .csv or .json, whole or not at all."""

import datetime
import json
import math
from collections.abc import Iterator
from pathlib import Path
from typing import TextIO

import pandas as pd

from builder import __version__
from builder.collection.store import Store
from builder.collection.tables import Columns, Kind
from builder.exchange.output import replace_whole

FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r", "\n", "\0")
ESCAPE = "'"
LINE_END = "\r\n"  # as RFC 4180 has it; and so texts that hold either sign are quoted
DAY_0 = datetime.date(1899, 12, 30)
LAST_DAY = 2_958_465  # 9999-12-31


def name_csv_files(out: Path) -> dict[str, Path]:
    """Return the file of each table: FILE.csv for the machines, the others beside it."""
    beside = {
        name: out.with_name(f"{out.stem}-{name}{out.suffix}") for name in ("events", "findings")
    }
    return {"machines": out, **beside}


def write_csv(out: Path, store: Store) -> None:
    """Write the three tables as files of comma-separated values."""
    tables = name_csv_files(out)
    with replace_whole(list(tables.values())) as files:
        for name, path in zip(tables, files, strict=True):
            with path.open("w", encoding="utf-8", newline="") as file:
                for number, frame in enumerate(read_plain(store, name)):
                    text = frame.map(escape)
                    text.to_csv(file, index=False, header=number == 0, lineterminator=LINE_END)


def write_json(out: Path, store: Store) -> None:
    """Write the three tables as one object of lists of objects, a row a line."""
    with replace_whole([out]) as (aside,), aside.open("w", encoding="utf-8") as file:
        file.write(f'{{"version": {json.dumps(__version__)}')
        for name in store.tables.list_columns():
            file.write(f',\n"{name}": [')
            write_rows(file, read_plain(store, name))
            file.write("\n]")
        file.write("}\n")


def write_rows(file: TextIO, frames: Iterator[pd.DataFrame]) -> None:
    """Write rows as objects with commas between them."""
    comma = "\n"
    for frame in frames:
        for row in frame.to_dict("records"):
            plain = {key: None if is_blank(value) else value for key, value in row.items()}
            file.write(comma + json.dumps(plain, ensure_ascii=False, allow_nan=False))
            comma = ",\n"


def read_plain(store: Store, table: str) -> Iterator[pd.DataFrame]:
    """Yield a table with its days as texts such as `2026-03-14`."""
    for columns, frame in store.read_frames(table):
        yield tell_days(columns, frame.drop(columns="book"))


def tell_days(columns: Columns, frame: pd.DataFrame) -> pd.DataFrame:
    """Return a frame with its days as texts."""
    for name, kind in columns.items():
        if kind is Kind.DAY:
            frame[name] = [tell_day(value) or None for value in frame[name]]
    return frame


def tell_day(serial: float | None) -> str:
    """Return a serial number of a spreadsheet as a date, or nothing where it is none."""
    if serial is None or not 1 <= serial <= LAST_DAY:
        return ""
    return (DAY_0 + datetime.timedelta(days=math.floor(serial))).isoformat()


def escape(value: object) -> object:
    """Return a value that no spreadsheet program takes for a formula."""
    if isinstance(value, str) and value.startswith(FORMULA_STARTS):
        return ESCAPE + value
    return value


def is_blank(value: object) -> bool:
    """Tell whether a value of a frame stands for nothing."""
    return value is None or value is pd.NA or (isinstance(value, float) and math.isnan(value))
