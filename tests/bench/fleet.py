"""A thousand books out, filled, some of them damaged, and in again: what is found, what it costs.

Run `python -m bench.fleet` in `tests`: about 35 minutes on two cores, with LibreOffice.
Ends with 1 where a fault was missed, a sound book accused, or a short rinse not told.
"""

import random
import sys
import tempfile
from dataclasses import dataclass, field
from pathlib import Path

import pandas as pd
from proof.files_book import list_names, list_sheets
from proof.files_cells import list_cells
from proof.files_draft import Draft, Mutant
from proof.files_styles import add_twins
from proof.lint_book import Book
from workbook.test_round_trips import convert

from bench.fleet_books import PLENTY, SCANT, fill_book, name_book, write_roster
from bench.memory import Run, run_watched

BOOKS, SAMPLE, FAULTS, CUT, SHORT = 1000, 60, 50, 2, 100
SEED = 20270305
COMMAND = [sys.executable, "-m", "builder"]


@dataclass(slots=True)
class Fleet:
    """What was done to which book."""

    folder: Path
    lot: random.Random
    office: set[int] = field(default_factory=set)
    short: set[int] = field(default_factory=set)
    seeded: dict[int, tuple[str, str]] = field(default_factory=dict)  # kind, what is to be named

    def path(self, stage: str, number: int) -> Path:
        return self.folder / stage / f"{name_book(number)}.xlsx"


def send(fleet: Fleet) -> Run:
    roster = fleet.folder / "roster.csv"
    write_roster(roster, BOOKS, SEED)
    command = [*COMMAND, "roster", str(roster), "--out", str(fleet.folder / "sent")]
    return run_watched(command, fleet.folder / "roster.log")


def fill(fleet: Fleet) -> None:
    """Fill in every book, a sample of them through the office program."""
    fleet.office = set(fleet.lot.sample(range(BOOKS), SAMPLE))
    fleet.short = set(fleet.lot.sample(range(BOOKS), SHORT))
    (fleet.folder / "back").mkdir()
    for number in range(BOOKS):
        rinse = SCANT if number in fleet.short else PLENTY
        fill_book(fleet.path("sent", number), fleet.path("back", number), fleet.lot, rinse)
    for number, locale in ((0, "en-CA"), (1, "fr-CA")):
        some = [fleet.path("back", book) for book in sorted(fleet.office) if book % 2 == number]
        place = fleet.folder / locale
        place.mkdir()
        for saved in convert(some, place, locale, "xlsx"):
            saved.replace(fleet.folder / "back" / saved.name)


def seed(fleet: Fleet) -> None:
    """Damage some books, each in another way, and cut two files short."""
    free = [n for n in fleet.lot.sample(range(BOOKS), BOOKS) if n not in fleet.office]
    kinds: set[str] = set()
    for number in free[: FAULTS - CUT]:
        mutant = damage(fleet.path("back", number), fleet.lot, kinds)
        kinds.add(mutant.kind)
        fleet.seeded[number] = mutant.kind, mutant.signs[0].place
    for number in free[FAULTS - CUT : FAULTS]:
        path = fleet.path("back", number)
        path.write_bytes(path.read_bytes()[: path.stat().st_size // 2])  # as a broken download
        fleet.seeded[number] = "cut short", ""


def damage(path: Path, lot: random.Random, known: set[str]) -> Mutant:
    """Put one fault into a file, of a kind that no other file has while there are such."""
    sound = path.read_bytes()
    draft = Draft(add_twins(sound))
    mutants = [
        *list_cells(draft, len(Book(sound).formats)),
        *list_names(draft),
        *list_sheets(draft),
    ]
    mutants = [m for m in mutants if "stored value" not in m.kind]  # filled books store none
    kinds = {mutant.kind for mutant in mutants}
    kind = lot.choice(sorted(kinds - known or kinds))
    mutant = lot.choice([mutant for mutant in mutants if mutant.kind == kind])
    path.write_bytes(draft.write(mutant.changes))
    return mutant


def gather(fleet: Fleet) -> Run:
    command = [*COMMAND, "collect", str(fleet.folder / "back"), "--out"]
    return run_watched([*command, str(fleet.folder / "fleet.csv")], fleet.folder / "collect.log")


def judge(fleet: Fleet) -> list[str]:
    """Return what was missed, who was accused, and which short rinses were told wrongly."""
    findings = pd.read_csv(fleet.folder / "fleet-findings.csv", keep_default_na=False)
    by_book = {Path(name).stem: own for name, own in findings.groupby("file")}
    wrong = []
    for number in range(BOOKS):
        kind, named = fleet.seeded.get(number, ("", ""))
        own = by_book.get(name_book(number), findings[:0])
        faults = own[own["severity"] == "fault"]
        if not kind and len(faults):
            wrong.append(f"{name_book(number)} is accused: {faults.iloc[0].to_dict()}")
        if kind and not names_it(own, named):
            wrong.append(f"{name_book(number)}: {kind} at {named} is not named")
    return wrong + judge_rinses(fleet)


def names_it(findings: pd.DataFrame, named: str) -> bool:
    """Tell whether a finding is about a cell, a name or a sheet."""
    return bool(
        (findings[["cell", "name"]] == named).any(axis=None) or (not named and len(findings))
    )


def judge_rinses(fleet: Fleet) -> list[str]:
    """Return the books whose rinses are told short and are not, or the other way round."""
    events = pd.read_csv(fleet.folder / "fleet-events.csv", usecols=["file", "left_L"])
    last = events.groupby("file")["left_L"].last()
    short = {Path(name).stem for name in last[last > 0].index}
    cut = [number for number, (kind, _) in fleet.seeded.items() if kind == "cut short"]
    meant = {name_book(number) for number in fleet.short} - {name_book(n) for n in cut}
    return [f"{name}: short rinse told wrongly" for name in sorted(short ^ meant)]


def tell(name: str, run: Run, sizes: int) -> str:
    return (
        f"{name}: exit code {run.code}, {run.seconds / sizes:.2f} s a book, "
        f"peak {max(run.held_mb):.0f} MB, last quarter over second {run.growth():.2f}"
    )


def main() -> int:
    with tempfile.TemporaryDirectory() as folder:
        fleet = Fleet(Path(folder), random.Random(SEED))  # noqa: S311 - a drawing, no secret
        out = send(fleet)
        fill(fleet)
        seed(fleet)
        back = gather(fleet)
        wrong = judge(fleet)
    print(tell("out", out, BOOKS), tell("back", back, BOOKS), *wrong, sep="\n")
    print(f"{len(fleet.seeded)} faults seeded, {BOOKS} books, {len(wrong)} told wrongly")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
