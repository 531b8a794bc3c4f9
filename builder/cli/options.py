"""Arguments and options that several commands share, and how they print."""

import json
from dataclasses import replace
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from builder.problems import suggest
from builder.spec.specification import Spec

if TYPE_CHECKING:
    from builder.exchange.machine import Machine

DEBUG = "--debug"


class ReaderUnits(StrEnum):
    """Systems of units that a workbook shows beside the canonical units."""

    METRIC = "metric"
    US = "us"
    IMPERIAL = "imperial"


class Paper(StrEnum):
    """Papers that a workbook prints on."""

    LETTER = "letter"
    A4 = "a4"


MachineFile = Annotated[Path, typer.Argument(metavar="MACHINE.toml", help="Machine file.")]
MaybeMachineFile = Annotated[
    Path | None,
    typer.Argument(metavar="MACHINE.toml", help="Machine file; without it the demo machine."),
]
Json = Annotated[bool, typer.Option("--json", help="Print JSON.")]
Lang = Annotated[str | None, typer.Option("--lang", help="Language, such as en.")]
MaybePaper = Annotated[
    Paper | None, typer.Option("--paper", help="Paper; without it that of the language.")
]
Force = Annotated[bool, typer.Option("--force", help="Overwrite an existing file.")]


def pick_machine(path: Path | None, spec: Spec, *, blank: bool = False) -> "Machine":
    """Return the machine of a file, one of which nothing is known, or the demo machine."""
    from builder.exchange.demo import find_demo
    from builder.exchange.machine import Machine, read_machine

    return Machine() if blank else read_machine(path or find_demo(), spec)


def pick_language(lang: str | None, spec: Spec) -> str:
    """Return a declared language, the first one where none is asked for; refuse any other."""
    if lang is not None and lang not in spec.languages:
        text = f"{lang!r} is not one of {', '.join(spec.languages)}.{suggest(lang, spec.languages)}"
        raise typer.BadParameter(text, param_hint="--lang")
    return lang or spec.main_language


def lay_on(paper: Paper | None, spec: Spec) -> Spec:
    """Return the specs with every language on this paper, or each on its own."""
    if paper is None:
        return spec
    languages = {c: replace(found, paper=paper.value) for c, found in spec.languages.items()}
    return replace(spec, languages=languages)


def print_json(data: object) -> None:
    """Print data as JSON."""
    print(json.dumps(data, indent=2, allow_nan=False))
