"""Demands that whoever changes what a workbook works out tells it: version, digest, words."""

from collections.abc import Iterator
from pathlib import Path

from builder.problems import Problem
from builder.spec.records import Edition
from builder.spec.specification import Spec

CODE = "edition-not-told"
FILE = "specs/editions.toml"


def check_edition(spec: Spec, version: str) -> Iterator[Problem]:
    """Yield a finding where the newest edition is not this version with these specs."""
    newest = next(iter(spec.editions), None)
    entry = f'["{version}"] with digest = "{spec.digest}" and told, above all others'
    if newest is None:
        text = "no edition is listed."
        yield Problem(FILE, 1, CODE, version, text, f"Write {entry}.")
    elif newest.version != version:
        text = f"the newest edition is {newest.version}, the program is {version}."
        yield Problem(FILE, newest.place.line, CODE, version, text, f"Write {entry}.")
    elif newest.digest != spec.digest:
        text = f"its digest is {newest.digest}, that of the specs is {spec.digest}: "
        text += "a formula, constant, name or limit differs."
        remedy = f'It is not out yet: write digest = "{spec.digest}", say in told, in every '
        remedy += "language, what changed for a reader, and copy the row into docs/changes.md."
        if newest.date:
            remedy = "It is out: raise __version__ in builder/__init__.py, and write "
            remedy += f'["VERSION"] with digest = "{spec.digest}" and told, above all others.'
        yield Problem(FILE, newest.place.at("digest"), CODE, version, text, remedy)


def check_changes(spec: Spec, path: Path) -> Iterator[Problem]:
    """Yield a finding for each edition that the list of changes for readers tells otherwise."""
    lines = path.read_text(encoding="utf-8").splitlines()
    for edition in spec.editions:
        line = write_line(edition, spec.main_language)
        if line not in lines:
            start = f"| {edition.version} |"
            near = [number for number, row in enumerate(lines, 1) if row.startswith(start)]
            text = "its line in the list of changes is another one, or missing."
            remedy = f"Write: {line}"
            where = near[0] if near else 1
            yield Problem(f"docs/{path.name}", where, CODE, edition.version, text, remedy)


def write_line(edition: Edition, lang: str) -> str:
    """Return an edition as a row of the list of changes."""
    told = edition.told.pick(lang)
    return f"| {edition.version} | {edition.date or 'not out yet'} | `{edition.digest}` | {told} |"
