"""Turns a roster into a folder of books: who gets what, what is kept, what the manifest says."""

from collections.abc import Generator, Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass, replace
from pathlib import Path

from builder import __version__
from builder.exchange.claim import BusyError, claim
from builder.exchange.output import sweep
from builder.exchange.worker_pool import WorkerPool
from builder.problems import EXIT_FILE, Problem, UserError
from builder.roster.manifest import Manifest, Record
from builder.roster.roster import Roster, Row
from builder.roster.workshop import FAILED, FINE, Order, Outcome, Workshop

LOST = Outcome(
    FAILED,
    code="ended",
    text="the process ended before the book was there.",
    remedy="Run the command once more; with --jobs 1 it takes less memory.",
)
LOCK = ".roster.lock"


@dataclass(frozen=True, slots=True)
class Delivery:
    """What became of one row, and what its user should know."""

    record: Record
    problems: list[Problem]


@dataclass(frozen=True, slots=True)
class Plan:
    """Where the books go, whether messages go with them, how many processes work."""

    folder: Path
    with_mail: bool
    jobs: int
    force: bool


def run_roster(roster: Roster, plan: Plan, workshop: Workshop) -> Generator[Delivery, None, None]:
    """Yield what became of each row, as it comes; then write the manifest."""
    with open_folder(plan.folder):
        manifest = Manifest(plan.folder)
        orders = (make_order(row, plan, manifest) for row in roster.rows())
        with manifest.begin() as journal, WorkerPool(workshop.make, plan.jobs, LOST) as pool:
            for order, outcome in pool.run(orders):
                delivery = report(order, outcome, roster, workshop)
                manifest.add(delivery.record, journal)
                yield delivery
        manifest.finish()


@contextmanager
def open_folder(folder: Path) -> Iterator[None]:
    """Make the folder of the books, hold it against other runs, and tidy it up in the end."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        what = "is not a folder" if folder.exists() else f"cannot be made: {error.strerror}"
        text = f"{folder} {what}. Choose another folder with --out."
        raise UserError(text, EXIT_FILE) from error
    with ExitStack() as stack:
        try:
            stack.enter_context(claim(folder / LOCK))
        except BusyError as error:
            text = f"Another run is working in {folder}. Wait until it has ended, or choose another"
            raise UserError(f"{text} folder with --out.", EXIT_FILE) from error
        except OSError as error:
            text = f"{folder} cannot be written: {error.strerror}. Check the folder"
            raise UserError(f"{text} and its permissions.", EXIT_FILE) from error
        stack.callback(sweep, folder)
        yield


def make_order(row: Row, plan: Plan, manifest: Manifest) -> Order:
    """Return what is to be made of a row."""
    name = f"{row.stem}.xlsx"
    machine = row.machine
    about = (row.line, machine.producer, machine.site, machine.title, row.lang, row.units)
    known = manifest.known.get(name, Record(*about, file=""))
    number, producer, site, title, lang, units = about
    listed = replace(
        known, row=number, producer=producer, site=site, machine=title, language=lang, units=units
    )
    return Order(row, plan.folder / name, listed, plan.with_mail, plan.force)


def report(order: Order, outcome: Outcome, roster: Roster, workshop: Workshop) -> Delivery:
    """Return the row of the manifest, and the problems to be told."""
    row, name = order.row, order.path.name
    warnings = [*row.warnings]
    if order.with_mail and not row.recipient and not row.problems:
        warnings.append("no mail address: the message has no recipient")
    problems = [*row.problems]
    if outcome.code:
        place = str(roster.path), row.line
        problems.append(Problem(*place, outcome.code, name, outcome.text, outcome.remedy))
    warnings += [f"{problem.code} {problem.name}" for problem in problems]
    told = "; ".join(warnings)
    if outcome.status not in FINE:
        return Delivery(replace(order.listed, status=outcome.status, warnings=told), problems)
    record = replace(
        order.listed,
        file=name,
        sha256=outcome.sha256,
        size=outcome.size,
        version=__version__,
        specs_digest=workshop.name_specs(row.lang),
        input_hash=row.digest,
        status=outcome.status,
        warnings=told,
        message_sha256=outcome.message_sha256,
    )
    return Delivery(record, problems)
