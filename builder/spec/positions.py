"""Finds the line of every table and key of a TOML file, which the standard parser forgets."""

import re
import tomllib
from pathlib import Path

from builder.problems import Problem

HEADER = re.compile(r"^\s*\[{1,2}([^\]]+)\]{1,2}\s*(?:#.*)?$")
KEY = re.compile(r'^\s*((?:"[^"]*"|[A-Za-z0-9_-]+)(?:\.[A-Za-z0-9_-]+)*)\s*=')
ARRAY = re.compile(r"^\s*\[\[")
POINT = re.compile(r"\.")
FENCE = re.compile(r'"""|\'\'\'')
SYNTAX_LINE = re.compile(r"\(at line (\d+), column \d+\)")


class Positions:
    """Line numbers by dotted path; the n-th table of an array counts from 0, as `block.0.rows`."""

    def __init__(self, text: str) -> None:
        """Index the text line by line."""
        self.lines: dict[str, int] = {}
        self.inner: dict[str, dict[str, int]] = {}
        arrays: dict[str, int] = {}
        table, fenced = "", False
        for number, line in enumerate(text.splitlines(), start=1):
            inside, fenced = fenced, fenced ^ (len(FENCE.findall(line)) % 2 == 1)
            if inside:
                continue
            if header := HEADER.match(line):
                table = header[1].strip().replace('"', "")
                if ARRAY.match(line):
                    arrays[table] = arrays.get(table, -1) + 1
                    table = f"{table}.{arrays[table]}"
                elif (outer := table.partition("."))[0] in arrays:
                    table = f"{outer[0]}.{arrays[outer[0]]}.{outer[2]}"
                self.lines.setdefault(table, number)
            elif key := KEY.match(line):
                path = key[1].replace('"', "")
                self.lines.setdefault(f"{table}.{path}" if table else path, number)
        for place, number in self.lines.items():
            for point in POINT.finditer(place):
                inner = self.inner.setdefault(place[: point.start()], {})
                inner[place[point.end() :]] = number

    def line(self, *path: str) -> int:
        """Return the line of a path, or of the nearest table or key around it."""
        parts = list(path)
        while parts:
            found = self.lines.get(".".join(parts))
            if found:
                return found
            parts.pop()
        return 1

    def inside(self, *path: str) -> dict[str, int]:
        """Return the lines of everything inside a table, or the file, by the path from there."""
        return self.lines if not path else self.inner.get(".".join(path), {})


def parse_toml(path: Path, name: str) -> tuple[dict[str, object], Positions, list[Problem]]:
    """Parse a TOML file; a syntax error becomes a problem with its line."""
    try:
        text = path.read_text(encoding="utf-8-sig")
    except UnicodeDecodeError as error:
        remedy = "Save the file as UTF-8 text."
        bad = Problem(name, 1, "not-utf8", path.name, f"byte {error.start} is not UTF-8.", remedy)
        return {}, Positions(""), [bad]
    positions = Positions(text)
    try:
        return tomllib.loads(text), positions, []
    except tomllib.TOMLDecodeError as error:
        found = SYNTAX_LINE.search(str(error))
        line = int(found[1]) if found else max(1, len(text.splitlines()))
        remedy = "Put texts in quotes, use a point as decimal sign, one `name = value` a line."
        return {}, positions, [Problem(name, line, "not-toml", path.name, f"{error}.", remedy)]
