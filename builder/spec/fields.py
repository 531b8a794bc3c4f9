"""Turns one TOML table into one frozen record, judged by the record's own type hints."""

import math
import re
import types
from collections.abc import Collection
from dataclasses import MISSING, fields, is_dataclass
from fractions import Fraction
from functools import cache
from typing import Any, TypeVar, Union, get_args, get_origin, get_type_hints

from builder.problems import Problem, suggest
from builder.spec.positions import Positions
from builder.spec.records import Place, Text

R = TypeVar("R")
ABSENT = object()


@cache
def read_hints(cls: type) -> dict[str, Any]:
    """Return the type hints of a record, which are the same all day."""
    return get_type_hints(cls)


class Reader:
    """Reads the keys of one table and reports each problem at its line."""

    def __init__(
        self,
        file: str,
        positions: Positions,
        problems: list[Problem],
        path: tuple[str, ...],
        languages: Collection[str] = (),
    ) -> None:
        """Point at the table `path` of a file, whose words are in these languages."""
        self.languages = languages
        self.file, self.positions, self.problems, self.path = file, positions, problems, path

    def place(self) -> Place:
        """Return where the table stands, with the lines of its keys."""
        line = self.positions.line(*self.path)
        return Place(self.file, line, self.positions.inside(*self.path))

    def report(self, code: str, name: str, text: str, *keys: str, remedy: str = "") -> None:
        """Add a problem at the line of a key of this table."""
        line = self.positions.line(*self.path, *keys)
        what = remedy or "Correct the entry; DEVELOPERS.md lists the keys of each kind."
        self.problems.append(Problem(self.file, line, code, name, text, what))

    def build(self, cls: type[R], name: str, table: object, /, **given: Any) -> R | None:
        """Return the record, or None after reporting why not."""
        if not isinstance(table, dict):
            self.report("not-a-table", name, f"expected a table, found {table!r}.")
            return None
        before = len(self.problems)
        hints = read_hints(cls)  # type: ignore[arg-type]
        known = {f.name: f for f in fields(cls) if f.name not in ("place", *given)}  # type: ignore[arg-type]
        for key in table.keys() - known.keys():
            text = f"key {key!r} is unknown here.{suggest(key, known)}"
            self.report("unknown-key", name, text, key)
        values = dict(given)
        for key, spec in known.items():
            if key in table:
                values[key] = self.convert(hints[key], table[key], name, key)
            elif spec.default is MISSING and spec.default_factory is MISSING:
                self.report("missing-key", name, f"key {key!r} is missing.")
        if "place" in hints:
            values["place"] = self.place()
        return cls(**values) if len(self.problems) == before else None

    def convert(self, hint: Any, value: object, name: str, *keys: str) -> object:
        """Return the value as the type hint asks, or report it."""
        origin, inner = get_origin(hint), get_args(hint)
        if origin in (Union, types.UnionType):
            first = str if str in inner and isinstance(value, str) else inner[0]
            return self.convert(first, value, name, *keys)
        if hint is Text:
            return self.text(name, value, *keys)
        if is_dataclass(hint):
            return self.build_inner(hint, value, name, *keys)
        if origin in (dict, list) and isinstance(value, origin):
            return self.convert_items(inner[-1], value, name, *keys)
        plain = convert_plain(hint, value)
        if plain is ABSENT:
            wanted = getattr(origin or hint, "__name__", str(hint))
            self.report(
                "wrong-type", name, f"{'.'.join(keys)}: expected {wanted}, found {value!r}.", *keys
            )
            return None
        return plain

    def convert_items(self, hint: Any, value: Any, name: str, *keys: str) -> object:
        """Convert each item of a list or table."""
        if isinstance(value, dict):
            return {k: self.convert(hint, v, name, *keys, k) for k, v in value.items()}
        return [self.convert(hint, item, name, *keys) for item in value]

    def build_inner(self, hint: Any, value: object, name: str, *keys: str) -> object:
        """Build a record that stands inside another one."""
        inner = Reader(
            self.file, self.positions, self.problems, (*self.path, *keys), self.languages
        )
        return inner.build(hint, f"{name}.{'.'.join(keys)}", value)

    def text(self, name: str, value: object, *keys: str) -> Text | None:
        """Return words in every language; none may be missing or empty."""
        where = ".".join((name, *keys))
        if not isinstance(value, dict):
            wanted = " and ".join(self.languages)
            self.report("wrong-type", where, f"expected {wanted}, found {value!r}.", *keys)
            return None
        for key in value.keys() - set(self.languages):
            self.report("unknown-key", where, f"key {key!r} is not a language.", *keys, key)
        for lang in self.languages:
            words = value.get(lang)
            if not isinstance(words, str) or not words.strip():
                remedy = f"Give the words in every language: {', '.join(self.languages)}."
                text = f"the words in {lang!r} are missing."
                self.report("missing-words", where, text, *keys, remedy=remedy)
                return None
        return Text({lang: value[lang] for lang in self.languages})


def convert_plain(hint: Any, value: object) -> object:
    """Return a plain value as str, bool, int, float or Fraction, or ABSENT."""
    if hint is object:
        return value
    if hint is float and isinstance(value, int | float) and not isinstance(value, bool):
        return float(value) if math.isfinite(value) else ABSENT
    if hint is Fraction and isinstance(value, str):
        return convert_exact(value)
    if hint in (str, int, bool) and type(value) is hint:
        return value
    return ABSENT


def convert_exact(text: str) -> object:
    """Return a product or quotient of decimal numbers, as `0.3048*2/3`, without rounding."""
    first, *others = re.split(r"([*/])", text)
    try:
        total = Fraction(first)
        for sign, number in zip(others[::2], others[1::2], strict=True):
            total = total * Fraction(number) if sign == "*" else total / Fraction(number)
    except (ValueError, ZeroDivisionError):
        return ABSENT
    return total
