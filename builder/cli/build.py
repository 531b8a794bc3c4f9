"""`rinsebook build`: one workbook for one machine."""

from pathlib import Path
from typing import Annotated

import typer

from builder.cli.options import Force, Language, MaybeMachineFile, ReaderUnits, pick_machine
from builder.exchange.machine import Machine
from builder.exchange.output import refuse_existing, write_file
from builder.production import build_workbook
from builder.spec.load import find_specs, load_spec


def build(
    machine_file: MaybeMachineFile = None,
    *,
    out: Annotated[
        Path | None, typer.Option("--out", metavar="FILE.xlsx", help="File to write.")
    ] = None,
    lang: Annotated[Language, typer.Option("--lang", help="Language.")] = Language.EN,
    units: Annotated[
        ReaderUnits | None, typer.Option("--units", help="Second unit of every result.")
    ] = None,
    force: Force = False,
) -> None:
    """Write one workbook and print its path."""
    path = out or Path(f"{machine_file.stem if machine_file else 'rinsebook'}.xlsx")
    if path.suffix.lower() != ".xlsx":
        raise typer.BadParameter(f"{str(path)!r} must end in .xlsx.", param_hint="--out")
    if not force:
        refuse_existing(path)
    spec = load_spec(find_specs())
    machine = pick_machine(machine_file, spec)
    book = build_workbook(spec, machine, lang.value, units or pick_units(machine))
    write_file(path, book)
    print(path)


def pick_units(machine: Machine) -> str:
    """Return the reader's units that the machine file gives, or metric."""
    given = machine.given.get("reader_units")
    return given.code if given else ReaderUnits.METRIC.value
