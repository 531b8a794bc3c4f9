"""Mutants of the file: each cell, name, lock, limit, sheet damaged, and named by the audit."""

import random
import re
import tempfile
from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from pathlib import Path

from builder.audit.findings import Report
from builder.audit.report import Auditor
from builder.exchange.demo import read_demo
from builder.exchange.machine import Machine
from builder.production import Edition, find_case, shorten
from builder.spec.load import find_specs, load_spec
from builder.spec.specification import Spec
from builder.trial.trial import KEPT, LONGEST
from proof.figures import Rate, Section
from proof.files_book import list_names, list_rules, list_sheets, list_spans, list_states
from proof.files_cells import list_cells
from proof.files_draft import Draft, Mutant, Sign
from proof.files_rows import list_insertions, list_swaps
from proof.files_shares import change_shares
from proof.files_styles import add_twins
from proof.files_whole import list_whole
from proof.lint_book import Book
from proof.lint_edits import free_style

FILES = 10
ALONE = 16
SEED = 5
LISTED = 40
LOSS = re.compile(r"(?P<what>.+ lost) in (?P<areas>.+); a program")
SPANS = re.compile(r"rows or columns (?P<spans>.+), found (?P<what>\w+)")
STRUCTURE = re.compile(
    r"(formula|constant|lock|typed cell|number format|ink|defined name\b.*|sheet.*), found "
)


@dataclass(slots=True)
class Tally:
    """How many mutants of each kind were made and named, and what went wrong."""

    made: Counter[str] = field(default_factory=Counter)
    named: Counter[str] = field(default_factory=Counter)
    alone: int = 0
    faults: list[str] = field(default_factory=list)


class Bench:
    """One delivered book, its draft, and the audit of what becomes of it."""

    def __init__(self, title: str, sound: bytes, auditor: Auditor) -> None:
        self.title, self.auditor, self.sound = title, auditor, sound
        self.count, self.unlocked = len(Book(sound).formats), free_style(sound)
        self.draft = Draft(add_twins(sound))

    def audit(self, mutants: Iterable[Mutant]) -> Report:
        """Return what the audit says of the book with some mutants in it."""
        changes = {key: text for mutant in mutants for key, text in mutant.changes.items()}
        return self.audit_file(self.draft.write(changes))

    def audit_file(self, data: bytes) -> Report:
        """Return what the audit says of a file."""
        with tempfile.TemporaryDirectory() as folder:
            path = Path(folder) / "back.xlsx"
            path.write_bytes(data)
            return self.auditor.audit(path, deep=False)

    def list_dealt(self) -> Iterator[Mutant]:
        """Yield the mutants that can stand beside each other in one file."""
        yield from list_cells(self.draft, self.count)
        yield from list_names(self.draft)
        yield from list_sheets(self.draft)
        yield from list_rules(self.draft)
        yield from list_states(self.draft)
        yield from list_spans(self.draft, self.unlocked)


def deal(mutants: Iterable[Mutant], files: int) -> list[list[Mutant]]:
    """Return the mutants by file: each file damages a place in one way, or leaves it sound."""
    piles: dict[str, list[Mutant]] = {}
    for mutant in mutants:
        (key,) = mutant.changes
        piles.setdefault(key, []).append(mutant)
    dealt: list[list[Mutant]] = [[] for _ in range(files)]
    for number, pile in enumerate(piles.values()):
        for kind, mutant in enumerate(pile):
            dealt[(number + kind) % files].append(mutant)
    return dealt


def read(report: Report) -> dict[str, list[str]]:
    """Return what a report says by cell, name, sheet, area, row and column."""
    told: dict[str, list[str]] = {}
    for finding in (*report.faults, *report.warnings):
        for place in {finding.cell, finding.name}:
            told.setdefault(place, []).append(finding.text)
        title = finding.cell.rpartition("!")[0]
        if loss := LOSS.match(finding.text):
            for area in loss["areas"].split(", "):
                told.setdefault(f"{title}!{area}", []).append(loss["what"])
        if spans := SPANS.match(finding.text):
            for span in spans["spans"].split(", "):
                what = f"span, found {spans['what']}"
                told.setdefault(f"{finding.cell} {span}", []).append(what)
    return told


def is_seen(sign: Sign, told: dict[str, list[str]]) -> bool:
    """Tell whether a report says what it should of one place."""
    return any(text.startswith(sign.start) for text in told.get(sign.place, []))


def list_wrong(report: Report, mutants: list[Mutant]) -> Iterator[str]:
    """Yield the findings that call something damaged that is sound."""
    signs: dict[str, list[str]] = {}
    for mutant in mutants:
        for sign in mutant.signs:
            signs.setdefault(sign.place, []).append(sign.start)
    for fault in report.faults:
        starts = [*signs.get(fault.cell, []), *signs.get(fault.name, [])]
        if STRUCTURE.match(fault.text) and not any(map(fault.text.startswith, starts)):
            yield f"{fault} although it is sound"


def count(tally: Tally, bench: Bench, mutants: list[Mutant]) -> Report:
    """Audit a file with mutants, and count the named ones."""
    report = bench.audit(mutants)
    count_named(tally, bench, mutants, report)
    return report


def count_named(tally: Tally, bench: Bench, mutants: list[Mutant], report: Report) -> None:
    """Count the mutants that a report names."""
    told = read(report)
    for mutant in mutants:
        tally.made[mutant.kind] += 1
        if all(is_seen(sign, told) for sign in mutant.signs):
            tally.named[mutant.kind] += 1
        else:
            tally.faults.append(f"{bench.title}: {mutant}: not named")


def damage(tally: Tally, bench: Bench) -> list[Mutant]:
    """Damage a book in every way, many places at once; return what can be tried alone."""
    fresh = bench.audit([])
    tally.faults += [f"{bench.title}: sound: {fault}" for fault in fresh.faults]
    dealt = deal(bench.list_dealt(), FILES)
    for mutants in dealt:
        report = count(tally, bench, mutants)
        tally.faults += [f"{bench.title}: {text}" for text in list_wrong(report, mutants)]
    moved = list(list_insertions(bench.draft))
    swaps = [list(list_swaps(bench.draft, parity)) for parity in (0, 1)]
    for mutants in (*swaps, moved[::2], moved[1::2]):
        count(tally, bench, mutants)
    shared, mutants = change_shares(bench.sound)
    count_named(tally, bench, mutants, bench.audit_file(shared))
    return [mutant for mutants in dealt for mutant in mutants]


def try_alone(tally: Tally, bench: Bench, mutants: Iterable[Mutant]) -> None:
    """Audit mutants alone, so that nothing else hides or shows them."""
    for mutant in mutants:
        report = bench.audit([mutant])
        told = read(report)
        tally.alone += 1
        if not all(is_seen(sign, told) for sign in mutant.signs):
            tally.faults.append(f"{bench.title}: {mutant}: not named alone")
        tally.faults += [f"{bench.title}: {text}" for text in list_wrong(report, [mutant])]


def pick(mutants: list[Mutant], share: slice) -> list[Mutant]:
    """Return one mutant of each kind of a share of the kinds, by lot."""
    draw = random.Random(SEED)  # noqa: S311 - no secret
    kinds: dict[str, list[Mutant]] = {}
    for mutant in mutants:
        kinds.setdefault(mutant.kind, []).append(mutant)
    drawn = draw.sample(sorted(kinds), len(kinds))
    return [draw.choice(kinds[kind]) for kind in drawn[share]]


def open_bench(title: str, spec: Spec, machine: Machine, lang: str, units: str) -> Bench:
    edition = Edition(spec, lang, units)
    fresh = edition.build(read_demo(spec))
    return Bench(title, edition.build(machine), Auditor(spec, lambda *_: fresh))


def measure() -> Section:
    """Damage two books in every way, and count what the audit names; long grids are cut."""
    spec = shorten(load_spec(find_specs()), LONGEST, KEPT)
    plain = open_bench("English metric", spec, read_demo(spec), "en", "metric")
    typed = open_bench("French US, the worked case", spec, find_case(spec), "fr", "us")
    tally = Tally()
    for number, bench in enumerate((plain, typed)):
        mutants = damage(tally, bench)
        share = slice(number * ALONE, (number + 1) * ALONE)  # other kinds in each book
        try_alone(tally, bench, pick(mutants, share))
    for mutant in list_whole(plain.draft):
        count(tally, plain, [mutant])
    return tell(tally)


def tell(tally: Tally) -> Section:
    return Section(
        "Damage to a book",
        "Each cell, name, lock, limit, colour, row and sheet of a delivered book is damaged in "
        "each way; `audit` names each at its place, and calls nothing sound damaged.",
        "damages of a kind that nobody thought of; two damages that only together mislead.",
        [Rate("damages named at their place", tally.named.total(), tally.made.total(), 0.999)],
        [
            f"{len(tally.made)} kinds of damage; {tally.alone} damages audited alone in their file",
            f"2 books with a log of {KEPT} rows: those of a longer one are alike",
        ],
        tally.faults[:LISTED],
    )
