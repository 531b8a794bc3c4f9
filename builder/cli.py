"""The command line: reads arguments, calls one function, prints what it returns."""

import io
import json
import os
import sys
import traceback
from enum import StrEnum
from pathlib import Path
from typing import Annotated

import typer

from builder import __version__
from builder.audit.report import audit_file
from builder.exchange.machine import Machine, read_machine
from builder.exchange.output import refuse_existing, write_file
from builder.exchange.results import list_results, work_out, write_table
from builder.explanation import explain as explain_quantity
from builder.explanation import write_explanation
from builder.problems import (
    EXIT_FAULT,
    EXIT_FILE,
    EXIT_FINE,
    EXIT_INTERRUPTED,
    ProblemsError,
    UserError,
)
from builder.production import build_workbook
from builder.spec.load import find_specs, load_spec
from builder.spec.rules import check_spec
from builder.spec.specification import Spec

DEBUG = "--debug"
HELP = f"""Workbooks that answer how to wash and rinse a maple sap concentrator, and prove their
own formulas. {DEBUG}, anywhere in the line, shows the traceback of an error."""

app = typer.Typer(
    help=HELP, no_args_is_help=True, rich_markup_mode=None, pretty_exceptions_enable=False
)


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


def main() -> None:
    """Run the command line of this process."""
    if isinstance(sys.stdout, io.TextIOWrapper):
        sys.stdout.reconfigure(errors="replace")
    code = run(sys.argv[1:])
    try:
        sys.stdout.flush()
    except OSError as error:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        code = code or EXIT_FILE
        if not isinstance(error, BrokenPipeError):
            print(describe(error)[0], file=sys.stderr)
    sys.exit(code)


def run(arguments: list[str]) -> int:
    """Run one command and return its exit code; whatever fails is told in plain words."""
    try:
        app([word for word in arguments if word != DEBUG], prog_name="rinsebook")
    except SystemExit as end:
        return end.code if isinstance(end.code, int) else EXIT_FINE
    except KeyboardInterrupt:
        return EXIT_INTERRUPTED
    except Exception as error:
        if DEBUG in arguments:
            traceback.print_exc()
        message, code = describe(error)
        print(message, file=sys.stderr)
        return code
    return EXIT_FINE


def describe(error: Exception) -> tuple[str, int]:
    """Return the message for the user and the exit code."""
    if isinstance(error, UserError):
        return str(error), error.exit_code
    if isinstance(error, OSError):
        return f"cannot read or write: {error}.", EXIT_FILE
    text = " ".join(repr(error).split())
    return f"This is a defect of the program: {text}. {DEBUG} shows more.", EXIT_FAULT


def print_version(*, wanted: bool) -> None:
    """Print name and version, and stop."""
    if wanted:
        print(f"rinsebook {__version__}")
        raise typer.Exit


@app.callback()
def common(
    *,
    version: Annotated[
        bool,
        typer.Option("--version", callback=print_version, is_eager=True, help="Print the version."),
    ] = False,
) -> None:
    """Take the options that stand before a command."""


@app.command()
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
    force: Annotated[bool, typer.Option("--force", help="Overwrite an existing file.")] = False,
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


def pick_machine(path: Path | None, spec: Spec) -> Machine:
    """Return the machine of a file, or the demo machine."""
    return read_machine(path, spec) if path else Machine()


def pick_units(machine: Machine) -> str:
    """Return the reader's units that the machine file gives, or metric."""
    given = machine.given.get("reader_units")
    return given.code if given else ReaderUnits.METRIC.value


@app.command()
def calc(machine_file: MachineFile, *, as_json: Json = False) -> None:
    """Print the results without any workbook."""
    spec = load_spec(find_specs())
    calculation = work_out(read_machine(machine_file, spec), spec)
    if as_json:
        results = list_results(calculation, spec)
        print_json({"version": __version__, "results": results, "notes": calculation.notes})
        return
    print(write_table(calculation, spec))
    print("\n".join(calculation.notes), file=sys.stderr)


@app.command()
def audit(
    file: Annotated[Path, typer.Argument(metavar="FILE.xlsx", help="Workbook to audit.")],
    *,
    deep: Annotated[
        bool, typer.Option("--deep", help="Recalculate in a second engine too.")
    ] = False,
    as_json: Json = False,
) -> None:
    """Check a workbook, wherever it comes from."""
    spec = load_spec(find_specs())

    def rebuild(lang: str, units: str) -> bytes:
        return build_workbook(spec, Machine(), lang, units)

    report = audit_file(file, spec, rebuild, deep)
    if as_json:
        print_json(report.to_json())
    else:
        print_findings("fault", [str(finding) for finding in report.faults])
        print_findings("warning", [str(finding) for finding in report.warnings])
        print(f"{file}: {len(report.faults)} faults, {len(report.warnings)} warnings")
    raise typer.Exit(EXIT_FAULT if report.faults else EXIT_FINE)


def print_findings(severity: str, findings: list[str]) -> None:
    """Print findings, one a line."""
    for finding in findings:
        print(f"{severity}: {finding}")


@app.command()
def check() -> None:
    """Check the specs alone."""
    try:
        spec = load_spec(find_specs())
        problems = check_spec(spec)
    except ProblemsError as error:
        problems = error.problems
    if problems:
        print("\n".join(str(problem) for problem in sorted(problems)))
        raise typer.Exit(EXIT_FAULT)
    counts = {
        "quantities": spec.quantities,
        "sheets": spec.sheets,
        "units": spec.units,
        "sources": spec.sources,
    }
    print(", ".join(f"{len(found)} {name}" for name, found in counts.items()) + ": no finding")


@app.command()
def explain(
    name: Annotated[str, typer.Argument(metavar="NAME", help="Name of a quantity.")],
    machine_file: MaybeMachineFile = None,
    *,
    as_json: Json = False,
) -> None:
    """Explain one quantity and its formula."""
    spec = load_spec(find_specs())
    about = explain_quantity(name, pick_machine(machine_file, spec), spec)
    if as_json:
        print_json(about.to_json())
    else:
        print(write_explanation(about))


def print_json(data: object) -> None:
    """Print data as JSON."""
    print(json.dumps(data, indent=2, allow_nan=False))
