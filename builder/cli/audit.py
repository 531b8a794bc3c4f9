"""`rinsebook audit`: one workbook, wherever it comes from."""

from pathlib import Path
from typing import Annotated

import typer

from builder.cli.options import Json, print_json
from builder.cli.terminal import tell_work
from builder.counts import tell_count
from builder.problems import EXIT_FAULT, EXIT_FINE
from builder.spec.load import find_specs, load_spec


def audit(
    file: Annotated[Path, typer.Argument(metavar="FILE.xlsx", help="Workbook to audit.")],
    *,
    deep: Annotated[
        bool, typer.Option("--deep", help="Recalculate in a second engine too.")
    ] = False,
    as_json: Json = False,
) -> None:
    """Check a workbook, wherever it comes from."""
    from builder.audit.report import audit_file
    from builder.production import build_design

    spec = load_spec(find_specs())

    def rebuild(lang: str, units: str) -> bytes:
        return build_design(spec, lang, units)

    with tell_work(f"auditing {file.name}"):
        report = audit_file(file, spec, rebuild, deep)
    if as_json:
        print_json(report.to_json())
    else:
        print_findings("fault", [str(finding) for finding in report.faults])
        print_findings("warning", [str(finding) for finding in report.warnings])
        faults, warnings = (
            tell_count(report.faults, "fault"),
            tell_count(report.warnings, "warning"),
        )
        print(f"{file}: {faults}, {warnings}")
    raise typer.Exit(EXIT_FAULT if report.faults else EXIT_FINE)


def print_findings(severity: str, findings: list[str]) -> None:
    """Print findings, one a line."""
    for finding in findings:
        print(f"{severity}: {finding}")
