"""Arguments and options that several commands share, and how they print."""

import json
from enum import StrEnum
from pathlib import Path
from typing import Annotated

import typer

from builder.exchange.machine import Machine, read_machine
from builder.spec.specification import Spec

DEBUG = "--debug"


class Language(StrEnum):
    """Languages of a workbook."""

    EN = "en"
    FR = "fr"


class ReaderUnits(StrEnum):
    """Systems of units that a workbook shows beside the canonical units."""

    METRIC = "metric"
    US = "us"
    IMPERIAL = "imperial"


MachineFile = Annotated[Path, typer.Argument(metavar="MACHINE.toml", help="Machine file.")]
MaybeMachineFile = Annotated[
    Path | None,
    typer.Argument(metavar="MACHINE.toml", help="Machine file; without it the demo machine."),
]
Json = Annotated[bool, typer.Option("--json", help="Print JSON.")]
Force = Annotated[bool, typer.Option("--force", help="Overwrite an existing file.")]


def pick_machine(path: Path | None, spec: Spec) -> Machine:
    """Return the machine of a file, or the demo machine."""
    return read_machine(path, spec) if path else Machine()


def print_json(data: object) -> None:
    """Print data as JSON."""
    print(json.dumps(data, indent=2, allow_nan=False))
