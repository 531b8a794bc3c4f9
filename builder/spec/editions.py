"""Fingerprints of the specs: one of what a workbook works out, one of how it says so."""

import hashlib
import json
from collections.abc import Collection
from dataclasses import MISSING, fields, is_dataclass
from fractions import Fraction
from functools import cache
from typing import Any

from builder.spec.records import Text
from builder.spec.specification import Spec

LENGTH = 12
# What no workbook holds: where an entry stands, and how it is proven.
UNSEEN = {"place", "reference", "proof", "arguments", "tolerance", "unit_check", "pint"}
# What words a workbook or gives it a look, and changes no value, limit or name.
SHOWN = {"label", "help", "source", "digits", "width", "date", "heading", "text", "chart"}
ELSEWHERE = ("fleet_", "mail_")  # words of tables and messages beside the workbooks


def digest_facts(spec: Spec) -> str:
    """Return the fingerprint of what reaches formulas, constants, names and limits.

    No word, drawing, order of keys, comment, source or reference is part of it.
    """
    blocks = {s.key: [b for b in s.blocks if b.kind != "picture"] for s in spec.sheets}
    facts = (spec.quantities, spec.units, spec.tables, blocks, spec.worked)
    return digest([reduce(part, UNSEEN | SHOWN, "") for part in facts])


def digest_words(spec: Spec, lang: str) -> str:
    """Return the fingerprint of the words and looks of a language, and of the order of things."""
    words = {k: text for k, text in spec.words.items() if not k.startswith(ELSEWHERE)}
    quantities, units = list(spec.quantities.values()), list(spec.units.values())
    shown = (
        spec.languages.get(lang),
        quantities,
        units,
        spec.sheets,
        list(spec.sources.values()),
        words,
    )
    return digest([reduce(part, UNSEEN, lang) for part in shown])


def digest(content: object) -> str:
    """Return a short fingerprint of plain data."""
    text = json.dumps(content, sort_keys=True, ensure_ascii=False)
    return hashlib.sha256(text.encode()).hexdigest()[:LENGTH]


def reduce(item: Any, left_out: Collection[str], lang: str) -> Any:
    """Return plain data for records: without some fields, with words of a language or without.

    A field at its default says nothing, so that a new kind of field moves no fingerprint.
    """
    if isinstance(item, Text):
        return item.pick(lang) if lang else None
    if isinstance(item, list | tuple):
        return [reduce(value, left_out, lang) for value in item]
    if isinstance(item, dict):
        reduced = {key: reduce(value, left_out, lang) for key, value in item.items()}
        options = any(isinstance(value, Text) for value in item.values())
        return list(reduced.items()) if options else reduced  # formulas know options by place
    if is_dataclass(item):
        said = {
            name: reduce(getattr(item, name), left_out, lang)
            for name, default in list_fields(item.__class__)
            if name not in left_out and getattr(item, name) != default
        }
        return [type(item).__name__, said]
    if isinstance(item, bool | str | None):
        return item
    return str(item) if isinstance(item, Fraction) else float(item)


@cache
def list_fields(record: Any) -> list[tuple[str, object]]:
    """Return the fields of a record, each with what it holds where nobody gives it anything."""
    return [
        (f.name, f.default if f.default_factory is MISSING else f.default_factory())
        for f in fields(record)
    ]
