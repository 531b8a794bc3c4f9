"""`rinsebook build`: one workbook for one machine, or an older one's content in a fresh one."""

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from builder.cli.options import (
    Force,
    Lang,
    MaybeMachineFile,
    MaybePaper,
    ReaderUnits,
    lay_on,
    pick_language,
    pick_machine,
)
from builder.cli.terminal import tell_work
from builder.exchange.output import demand_folder, refuse_existing, write_file
from builder.spec.load import find_specs, load_spec
from builder.spec.specification import Spec

if TYPE_CHECKING:
    from builder.exchange.machine import Machine


def build(
    machine_file: MaybeMachineFile = None,
    *,
    older: Annotated[
        Path | None,
        typer.Option("--from", metavar="OLD.xlsx", help="Older workbook to carry over."),
    ] = None,
    blank: Annotated[bool, typer.Option("--blank", help="An empty workbook.")] = False,
    out: Annotated[
        Path | None, typer.Option("--out", metavar="FILE.xlsx", help="File to write.")
    ] = None,
    lang: Lang = None,
    units: Annotated[
        ReaderUnits | None, typer.Option("--units", help="Second unit of every result.")
    ] = None,
    paper: MaybePaper = None,
    force: Force = False,
) -> None:
    """Write one workbook and print its path."""
    if bool(machine_file) + bool(older) + blank > 1:
        raise typer.BadParameter("give a machine file, --from or --blank, not two of them.")
    path = out or Path(name_file(machine_file, older))
    if path.suffix.lower() != ".xlsx":
        raise typer.BadParameter(f"{str(path)!r} must end in .xlsx.", param_hint="--out")
    demand_folder(path.parent)
    if not force:
        refuse_existing(path)
    spec = lay_on(paper, load_spec(find_specs()))
    own = pick_language(lang, spec)
    with tell_work(f"building {path.name}"):
        if older:
            book, told = build_renewed(older, spec, lang, units)
        else:
            machine = pick_machine(machine_file, spec, blank=blank)
            book, told = build_fresh(machine, spec, own, units), []
    write_file(path, book)
    print(path)
    print("\n".join(told), end="\n" * bool(told), file=sys.stderr)


def build_fresh(machine: "Machine", spec: Spec, lang: str, units: ReaderUnits | None) -> bytes:
    """Return a workbook for a machine."""
    from builder.production import build_workbook

    return build_workbook(spec, machine, lang, units or pick_units(machine))


def build_renewed(
    older: Path, spec: Spec, lang: str | None, units: ReaderUnits | None
) -> tuple[bytes, list[str]]:
    """Return a fresh workbook with what was typed in an older one, and the report on that."""
    from builder.exchange.machine import Machine
    from builder.plan.cells import list_places
    from builder.plan.layout import plan_book
    from builder.production import build_workbook, work_case
    from builder.renewal.renewal import pick_reader, renew

    def find_places(old_lang: str, old_units: str) -> set[str]:
        worked = work_case(spec, old_lang)
        return list_places(plan_book(spec, Machine(), old_lang, old_units, worked))

    renewal = renew(older, spec, find_places, units or "")
    if units:
        renewal = pick_reader(renewal, units)
    book = build_workbook(spec, renewal.machine, lang or renewal.lang, renewal.units)
    return book, list(renewal.report())


def name_file(machine_file: Path | None, older: Path | None) -> str:
    """Return the name of the file to write where none is given."""
    if older:
        return f"{older.stem}-renewed.xlsx"
    return f"{machine_file.stem if machine_file else 'rinsebook'}.xlsx"


def pick_units(machine: "Machine") -> str:
    """Return the reader's units that the machine file gives, or metric."""
    given = machine.given.get("reader_units")
    return given.code if given else ReaderUnits.METRIC.value
