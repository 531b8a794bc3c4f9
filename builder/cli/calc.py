"""`rinsebook calc`: results without any workbook."""

import sys
from typing import Annotated

import typer

from builder import __version__
from builder.cli.options import Json, Lang, MachineFile, ReaderUnits, pick_language, print_json
from builder.spec.load import find_specs, load_spec


def calc(
    machine_file: MachineFile,
    *,
    everything: Annotated[
        bool, typer.Option("--all", help="Print the other results and all checks too.")
    ] = False,
    notes: Annotated[
        bool, typer.Option("--notes", help="Tell which inputs were left out, and what is blank.")
    ] = False,
    lang: Lang = None,
    units: Annotated[
        ReaderUnits | None,
        typer.Option("--units", help="Units to show; without it those of the machine file."),
    ] = None,
    as_json: Json = False,
) -> None:
    """Print the answers for one machine, without any workbook."""
    from builder.exchange.answers import Reader, list_answers, list_rest, pick_system, write_topics
    from builder.exchange.machine import read_machine
    from builder.exchange.results import list_checks, list_missing, list_results, work_out

    spec = load_spec(find_specs())
    lang = pick_language(lang, spec)
    machine = read_machine(machine_file, spec)
    found = work_out(machine, spec)
    if as_json:
        results, checks = list_results(found, spec), list_checks(found, spec)
        told = {"results": results, "checks": checks, "notes": found.notes}
        print_json({"version": __version__, **told})
        return
    reader = Reader(lang, units or pick_system(machine, spec))
    topics = list_answers(spec, lang)
    missing = list_missing([name for topic in topics for name in topic.names], found, spec)
    print(write_topics(topics + (list_rest(spec, lang) if everything else []), found, spec, reader))
    if missing:
        labels = ", ".join(f"{spec.quantities[name].label.pick(lang)} ({name})" for name in missing)
        print(f"{spec.words['calc_missing'].pick(lang)} {labels}", file=sys.stderr)
    if notes:
        print("\n".join(found.notes), file=sys.stderr)
