"""Edits of a workbook file that leave the stored values alone."""

import io
import re
import zipfile
from collections.abc import Callable
from functools import partial

import openpyxl

from audit.small import build_small
from builder.audit.findings import Report

STORED = re.compile(r"(</f>|<f [^>]*/>)<v>[^<]*</v>")  # a shared formula stands in an empty element


def edit_part(data: bytes, part: str, change: Callable[[str], str]) -> bytes:
    """Return the file with one part changed; the change must change something."""
    target = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as old, zipfile.ZipFile(target, "w") as new:
        for entry in old.infolist():
            words = old.read(entry)
            if entry.filename == part:
                changed = change(words.decode()).encode()
                assert changed != words
                words = changed
            new.writestr(entry, words)
    return target.getvalue()


def add_part(data: bytes, name: str, words: str = "<x/>") -> bytes:
    target = io.BytesIO(data)
    with zipfile.ZipFile(target, "a") as archive:
        archive.writestr(name, words)
    return target.getvalue()


def swap(data: bytes, part: str, old: str, new: str) -> bytes:
    return edit_part(data, part, lambda words: words.replace(old, new, 1))


def edit_cells(data: bytes, changes: dict[str, Callable[[str], str]]) -> bytes:
    """Return the file with the XML of some cells changed; places as `Sheet!B5`."""
    titles = openpyxl.load_workbook(io.BytesIO(data), read_only=True).sheetnames
    for number, title in enumerate(titles, start=1):
        own = {
            place.rpartition("!")[2]: place for place in changes if place.startswith(f"{title}!")
        }
        if own:
            one = re.compile(rf'<c r="({"|".join(own)})"[^>]*?(?:/>|>.*?</c>)', re.DOTALL)

            def change(hit: re.Match[str], own: dict[str, str] = own) -> str:
                changed = changes[own[hit[1]]](hit[0])
                assert changed != hit[0]
                return changed

            part = f"xl/worksheets/sheet{number}.xml"
            data = edit_part(data, part, partial(one.sub, change))
    return data


def edit_cell(data: bytes, place: str, change: Callable[[str], str]) -> bytes:
    return edit_cells(data, {place: change})


def swapped(old: str, new: str) -> Callable[[str], str]:
    return lambda words: words.replace(old, new, 1)


def swap_in_cell(data: bytes, place: str, old: str, new: str) -> bytes:
    return edit_cell(data, place, swapped(old, new))


def put(formula: str) -> bytes:
    """Return the small workbook with another formula for its result, which shows 3."""
    cell = f'<c r="D8"><f>{formula}</f><v>3</v></c>'
    return edit_cell(build_small("en", "metric"), "Pipe run!D8", lambda _: cell)


def drop_stored(data: bytes) -> bytes:
    """Return the file without the values that its formulas show."""
    for number, _ in enumerate(openpyxl.load_workbook(io.BytesIO(data), read_only=True), start=1):
        part = f"xl/worksheets/sheet{number}.xml"
        if STORED.search(zipfile.ZipFile(io.BytesIO(data)).read(part).decode()):
            data = edit_part(data, part, partial(STORED.sub, r"\1"))
    return data


def type_cells(data: bytes, values: dict[str, object]) -> bytes:
    """Return the file as a library saves it: cells as `Sheet!B5` changed, nothing stored."""
    changed = openpyxl.load_workbook(io.BytesIO(data))
    for place, value in values.items():
        sheet, _, cell = place.rpartition("!")
        changed[sheet][cell].value = value
    target = io.BytesIO()
    changed.save(target)
    return target.getvalue()


def lines(report: Report) -> list[str]:
    return [str(fault) for fault in report.faults]
