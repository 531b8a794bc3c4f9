"""What the headings of a roster mean: who and where, how the book reads, inputs with a unit."""

import re
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass

from builder.exchange.given import KINDS, RefusalError, judge_unit, show
from builder.problems import Problem, ProblemsError, suggest
from builder.spec.records import Choice, Input
from builder.spec.specification import Spec

KEYS = ("producer", "site", "machine", "language", "units", "file", "mail")
UNIT = re.compile(r"(.*?)\[([^\[\]]*)\]\s*")
REMEDY = f"Known are {', '.join(KEYS)} and the inputs; `rinsebook explain NAME` shows one."


@dataclass(frozen=True, slots=True)
class Column:
    """A heading as it stands in the file, what it means, and the unit of its bare numbers."""

    heading: str
    key: str
    unit: str = ""


def read_columns(file: str, line: int, headings: list[object], spec: Spec) -> list[Column]:
    """Return the columns; raise ProblemsError with every heading that cannot be used."""
    known = dict(list_known(spec))
    columns: list[Column] = []
    problems: list[Problem] = []
    for place, heading in enumerate(headings, start=1):
        words = " ".join(str(heading if heading is not None else "").split())
        try:
            column = read_column(words, known, spec)
            judge_twin(column, columns)
            columns.append(column)
        except RefusalError as refusal:
            name = show(words)[1:-1] or f"column {place}"
            problems.append(Problem(file, line, refusal.code, name, refusal.text, refusal.remedy))
    if problems:
        raise ProblemsError(problems)
    return columns


def list_known(spec: Spec) -> Iterator[tuple[str, str]]:
    """Yield each heading in its plainest form, with what it means."""
    for key in KEYS:
        yield from (
            (fold(word), key) for word in (key, *spec.words[f"roster_{key}"].words.values())
        )
    for name, quantity in spec.quantities.items():
        if isinstance(quantity, Input | Choice):
            yield fold(name), name


def fold(heading: str) -> str:
    """Return a heading without capitals, accents, spaces and signs."""
    return "".join(c for c in unicodedata.normalize("NFKD", heading).casefold() if c.isalnum())


def read_column(words: str, known: dict[str, str], spec: Spec) -> Column:
    """Return the column of one heading."""
    if not words:
        remedy = "Write a heading, or remove the column."
        raise RefusalError("blank-heading", "the heading is blank.", remedy)
    parts = UNIT.fullmatch(words)
    bare, unit = (parts[1].strip(), parts[2].strip()) if parts else (words, "")
    key = known.get(fold(bare))
    if key is None:
        raise refuse_heading(bare, known, spec)
    quantity = spec.quantities.get(key)
    if parts and not isinstance(quantity, Input):
        raise RefusalError("wrong-unit", "only an input has a unit.", f"Write {key} alone.")
    if parts and isinstance(quantity, Input):
        judge_unit(quantity, unit, show(words), spec)
    return Column(words, key, unit)


def refuse_heading(bare: str, known: dict[str, str], spec: Spec) -> RefusalError:
    """Return why a heading means nothing."""
    quantity = spec.quantities.get(bare)
    if quantity is not None:
        text = f"is {KINDS[type(quantity)]}, not an input."
        return RefusalError("not-an-input", text, "Remove this column, or give the inputs behind.")
    words = [word for key in KEYS for word in spec.words[f"roster_{key}"].words.values()]
    near = suggest(bare.casefold(), [*words, *known.values()])
    return RefusalError("unknown-heading", f"no column has this heading.{near}", REMEDY)


def judge_twin(column: Column, columns: list[Column]) -> None:
    """Refuse a second column of the same meaning."""
    for other in columns:
        if other.key == column.key:
            text = f"means {column.key}, as {show(other.heading)} does."
            raise RefusalError("duplicate-heading", text, "Keep one of the two columns.")
