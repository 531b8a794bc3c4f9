"""The entries of a topic file, with all that they leave out filled in.

`[defaults.KIND]` gives what entries of a kind in this file leave out; `like = "NAME"` takes what
another entry of the file has; `copies = n` stands for n entries, {i} = 1 to n; and an entry of the
kind `coefficients` stands for one constant for each of its names.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from builder.problems import suggest
from builder.spec.fields import Reader

DEFAULTS, LIKE, COEFFICIENTS = "defaults", "like", "coefficients"
COPY_MARK = "{i}"
PARALLEL = ("terms", "names", "values")
Table = dict[str, object]


@dataclass(frozen=True, slots=True)
class Entry:
    """One entry as the records want it: its kind, its name, its keys, and who reads them."""

    kind: str
    name: str
    table: Table
    reader: Reader


class Entries:
    """The entries of one file; `terms` are words around a label, by name and language."""

    def __init__(self, tables: dict[str, tuple[Table, Reader]], terms: dict[str, dict[str, str]]):
        """Take out the defaults."""
        self.tables, self.terms = dict(tables), terms
        found, _ = self.tables.pop(DEFAULTS, ({}, None))
        self.defaults = {kind: t for kind, t in found.items() if isinstance(t, dict)}

    def list_all(self) -> Iterator[Entry]:
        """Yield every entry, in the order of the file."""
        for name, (table, reader) in self.tables.items():
            full = self.fill_in(name, table, reader, set())
            kind = str(full.pop("kind", ""))
            if kind == COEFFICIENTS:
                yield from self.list_coefficients(name, full, reader)
            else:
                yield from list_copies(kind, name, full, reader)

    def fill_in(self, name: str, table: Table, reader: Reader, seen: set[str]) -> Table:
        """Return the keys of an entry over those that it takes from another one or a default."""
        own = {key: value for key, value in table.items() if key != LIKE}
        other = table.get(LIKE)
        if other is None:
            kind = str(own.get("kind", ""))
            return {**self.defaults.get("constant" if kind == COEFFICIENTS else kind, {}), **own}
        if not isinstance(other, str) or other not in self.tables or other in {name, *seen}:
            known = [key for key in self.tables if key not in {name, *seen}]
            text = f"like = {other!r} is no other entry, or leads back here."
            reader.report("unknown-like", name, text + suggest(str(other), known), LIKE)
            return own
        base = self.fill_in(other, *self.tables[other], {name, *seen})
        return {**base, **{key: merge(base.get(key), value) for key, value in own.items()}}

    def list_coefficients(self, name: str, table: Table, reader: Reader) -> Iterator[Entry]:
        """Yield one constant for each name, its label and reference those of the list."""
        lists = [table.pop(key, None) for key in PARALLEL]
        terms, names, values = (item if isinstance(item, list) else [] for item in lists)
        if not len(terms) == len(names) == len(values) > 0:
            text = f"{', '.join(PARALLEL)} have {len(terms)}, {len(names)} and {len(values)} items."
            reader.report("bad-coefficients", name, text, remedy="Give as many of each.")
            return
        for place, (term, own, value) in enumerate(zip(terms, names, values, strict=True)):
            if term not in self.terms:
                text = f"term {term!r} is not among the words term_….{suggest(term, self.terms)}"
                reader.report("unknown-term", name, text, "terms")
                return
            label = table.get("label")
            words = self.terms[term]
            full = {**table, "value": value, "reference": f"{table.get('reference')}[{place}]"}
            if isinstance(label, dict):
                full["label"] = {
                    lang: words.get(lang, "{}").format(text) for lang, text in label.items()
                }
            yield Entry("constant", str(own), full, reader)


def merge(base: object, own: object) -> object:
    """Return a value, or an inner table over that of the other entry."""
    return {**base, **own} if isinstance(base, dict) and isinstance(own, dict) else own


def list_copies(kind: str, name: str, table: Table, reader: Reader) -> Iterator[Entry]:
    """Yield an entry, or as many as it has copies."""
    copies, listed = table.pop("copies", 0), table.pop("values", None)
    if type(copies) is not int or copies < 0 or (copies > 0) != (COPY_MARK in name):
        text = f"copies = {copies!r} and {COPY_MARK} in the name belong together."
        reader.report("bad-copies", name, text)
        return
    for number in range(1, copies + 1) if copies else [0]:
        copy = mark_copy(table, number)
        if isinstance(listed, list) and number and len(listed) == copies:
            copy["value"] = listed[number - 1]
        yield Entry(kind, name.replace(COPY_MARK, str(number)), copy, reader)


def mark_copy(table: Table, number: int) -> Table:
    """Return the table with {i} replaced in all its texts."""

    def mark(value: object) -> object:
        if isinstance(value, str):
            return value.replace(COPY_MARK, str(number))
        if isinstance(value, list):
            return [mark(item) for item in value]
        return mark_copy(value, number) if isinstance(value, dict) else value

    return {key: mark(value) for key, value in table.items()} if number else dict(table)
