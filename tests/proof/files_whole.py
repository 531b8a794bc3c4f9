"""Damage to the file as a whole, which stands in a file of its own each."""

import re
from collections.abc import Iterator

from proof.files_book import WORKBOOK
from proof.files_draft import Draft, Mutant, Sign

PROPERTIES = "docProps/custom.xml"
SWITCHES = (
    ("calcPr", 'fullPrecision="0"', "calculates with the digits shown"),
    ("calcPr", 'calcMode="manual"', "calculation is set to manual"),
    ("calcPr", 'iterate="1"', "calculates in circles"),
    ("workbookPr", 'date1904="1"', "counts days from 1904"),
)
EDITIONS = (
    ("version", "0.0.1", Sign("version", "built by version 0.0.1")),
    ("specs", "0" * 12, Sign("specs", "built by version ")),
    ("language", "de", Sign("language", "not a workbook of this program")),
    ("units", "old", Sign("units", "not a workbook of this program")),
)


def list_whole(draft: Draft) -> Iterator[Mutant]:
    for tag, switch, told in SWITCHES:
        (key,) = draft.keys(WORKBOOK, tag)
        text = draft.pieces[key].replace(f"<{tag} ", f"<{tag} {switch} ")
        yield Mutant("switch", switch, "", {key: text}, (Sign("", told),))
    yield from list_editions(draft)
    first, *_, last = draft.keys(WORKBOOK, "sheet")
    told = (Sign("", "sheets, found "),)
    swapped = {first: draft.pieces[last], last: draft.pieces[first]}
    yield Mutant("sheets swapped", "", "", swapped, told)
    renamed = re.sub(r' name="[^"]+"', ' name="Copy"', draft.pieces[last])
    yield Mutant("sheet renamed", draft.book.titles[-1], "", {last: renamed}, told)
    yield Mutant("sheet deleted", draft.book.titles[-1], "", {last: ""}, told)
    name = draft.keys(WORKBOOK, "definedName")[0]
    added = f'<definedName name="a_n">{draft.book.names[0].text}</definedName>'
    signs = (Sign("a_n", "defined name, found "),)
    yield Mutant("name added", "", "a_n", {name: added + draft.pieces[name]}, signs)


def list_editions(draft: Draft) -> Iterator[Mutant]:
    (key,) = draft.orders[PROPERTIES]
    for name, value, sign in EDITIONS:
        own = rf'(name="{name}"[^>]*><vt:lpwstr>)[^<]*<'
        text = re.sub(own, rf"\g<1>{value}<", draft.pieces[key])
        yield Mutant("edition", name, value, {key: text}, (sign,))
