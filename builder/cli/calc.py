"""`rinsebook calc`: results without any workbook."""

import sys
from typing import TYPE_CHECKING, Annotated

import typer

from builder import __version__
from builder.cli.options import Json, Lang, MachineFile, ReaderUnits, pick_language, print_json
from builder.spec.load import find_specs, load_spec
from builder.spec.specification import Spec

if TYPE_CHECKING:
    from builder.exchange.machine import Machine
    from builder.exchange.results import Calculation


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
    from builder.exchange.results import list_missing, work_out

    spec = load_spec(find_specs())
    lang = pick_language(lang, spec)
    machine = read_machine(machine_file, spec)
    found = work_out(machine, spec)
    if as_json:
        print_facts(machine, found, spec)
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


def print_facts(machine: "Machine", found: "Calculation", spec: Spec) -> None:
    """Print results, verdicts, what they rest on and notes as JSON."""
    from builder.exchange.results import list_checks, list_ground, list_results

    told = {
        "version": __version__,
        "results": list_results(found, spec),
        "checks": list_checks(found, spec),
        "rests_on": list_ground(machine, found, spec),
        "notes": found.notes,
    }
    print_json(told)
