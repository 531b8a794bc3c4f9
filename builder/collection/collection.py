"""Collects workbooks that came back: read, compared, judged, written as tables."""

import sys
from dataclasses import dataclass
from functools import partial
from pathlib import Path

from tqdm import tqdm

from builder.collection.book import Audit, Noted, Returned, gather, refuse_book
from builder.collection.fleet_sheet import Counts
from builder.collection.fleet_words import Wording
from builder.collection.fleet_workbook import write_xlsx
from builder.collection.output import name_csv_files, write_csv, write_json
from builder.collection.states import DUPLICATE, OLDER, set_aside_older
from builder.collection.store import Store, open_store
from builder.collection.tables import Tables, make_tables
from builder.exchange.worker_pool import WorkerPool

FORMATS = (".xlsx", ".csv", ".json")
LOST = "the program died while it read this file, for want of memory, it may be"
Task = tuple[int, Path]


@dataclass(frozen=True, slots=True)
class Summary:
    """How many books came back, and what became of them."""

    books: int
    machines: int
    older: int
    duplicates: int
    unreadable: int
    faulty: int
    calls: int

    def __str__(self) -> str:
        """Return the numbers in words, a line each."""
        lines = {
            "books": self.books,
            "machines": self.machines,
            "older states": self.older,
            "duplicates": self.duplicates,
            "unreadable": self.unreadable,
            "books with faults": self.faulty,
            "to call first": self.calls,
        }
        return "\n".join(f"{name}: {number}" for name, number in lines.items())


def name_files(out: Path) -> list[Path]:
    """Return the files that will be written."""
    return list(name_csv_files(out).values()) if out.suffix.lower() == ".csv" else [out]


def collect_books(
    paths: list[Path], audit: Audit, out: Path, jobs: int, wording: Wording
) -> Summary:
    """Audit books, keep the newest of each machine, write the tables; return the numbers.

    `audit` runs in other processes, and so must be a function of a module.
    """
    tables = make_tables(wording.spec)
    work = partial(read_task, audit=audit, tables=tables)
    pool: WorkerPool[Task, Returned | None] = WorkerPool(work, min(jobs, len(paths)), None)
    with open_store(tables) as store:
        with pool, tqdm(total=len(paths), unit="book", file=sys.stderr, disable=None) as bar:
            for (number, path), book in pool.run(enumerate(paths, start=1)):
                store.add(number, book or refuse_book(path, [Noted("fault", "", "", LOST)]))
                bar.update()
        set_aside_older(store, wording)
        summary = summarize(store)
        write_tables(out, store, wording, summary)
    return summary


def read_task(task: Task, audit: Audit, tables: Tables) -> Returned:
    """Return the book of a numbered path."""
    return gather(task[1], audit, tables)


def write_tables(out: Path, store: Store, wording: Wording, summary: Summary) -> None:
    """Write the tables in the format that the name asks for."""
    match out.suffix.lower():
        case ".csv":
            write_csv(out, store)
        case ".json":
            write_json(out, store)
        case _:
            counts = Counts(summary.books, summary.machines, summary.calls)
            write_xlsx(out, store, wording, counts)


def summarize(store: Store) -> Summary:
    """Return the numbers of a filled store."""
    causes = enumerate(store.tables.causes.values())
    calls = ", ".join(str(rank) for rank, cause in causes if cause.urgent)
    return Summary(
        books=store.count("1"),
        machines=store.count("aside = '' AND state <> 'unreadable'"),
        older=store.count(f"aside = '{OLDER}'"),
        duplicates=store.count(f"aside = '{DUPLICATE}'"),
        unreadable=store.count("state = 'unreadable'"),
        faulty=store.count("faults > 0"),
        calls=store.count(f"aside = '' AND rank IN ({calls})"),
    )
