"""`rinsebook collect`: workbooks that came back, as tables and a list of whom to call first."""

import os
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from builder.cli.options import Force, Lang, pick_language
from builder.cli.terminal import tell_work
from builder.exchange.output import demand_folder, refuse_existing
from builder.problems import EXIT_FAULT, EXIT_FINE
from builder.spec.load import find_specs, load_spec

if TYPE_CHECKING:
    from builder.audit.findings import Report
    from builder.audit.report import Auditor


def collect(
    sources: Annotated[
        list[Path], typer.Argument(metavar="DIR_OR_FILES…", help="Folders and workbooks to read.")
    ],
    *,
    out: Annotated[
        Path, typer.Option("--out", metavar="FILE.{xlsx,csv,json}", help="File to write.")
    ],
    jobs: Annotated[
        int | None, typer.Option("--jobs", min=1, help="Processes; without it one a core.")
    ] = None,
    lang: Lang = None,
    force: Force = False,
) -> None:
    """Read workbooks that came back, audit each, and write one table of all."""
    from builder.collection.collection import FORMATS, collect_books, name_files
    from builder.collection.files import find_workbooks
    from builder.collection.fleet_words import Wording

    if out.suffix.lower() not in FORMATS:
        text = f"{str(out)!r} must end in {', '.join(FORMATS[:-1])} or {FORMATS[-1]}."
        raise typer.BadParameter(text, param_hint="--out")
    demand_folder(out.parent)  # told now, not after an hour of audits
    if not force:
        for path in name_files(out):
            refuse_existing(path)
    with tell_work("loading the specs"):
        spec = load_spec(find_specs())
    wording = Wording(spec, pick_language(lang, spec))
    paths = find_workbooks(sources, out)
    summary = collect_books(paths, audit_book, out, jobs or os.cpu_count() or 1, wording)
    print(summary)
    print(out)
    raise typer.Exit(EXIT_FAULT if summary.faulty else EXIT_FINE)


def audit_book(path: Path) -> "Report":
    """Audit one book in whichever process runs this."""
    return open_auditor().audit(path, deep=False)


@cache
def open_auditor() -> "Auditor":
    """Return the auditor of this process, which keeps the pristine designs that it has built."""
    from builder.audit.report import Auditor
    from builder.production import build_design

    spec = load_spec(find_specs())

    def rebuild(lang: str, units: str) -> bytes:
        return build_design(spec, lang, units)

    return Auditor(spec, rebuild)
