"""What the program takes beside what others take for the same: one table, no assertion.

Run `python -m bench.speed` in `tests`: about ten minutes, with LibreOffice. Processor seconds, so
that other work on the machine matters little; two ways take turns, and each round gives a ratio.
"""

import os
import platform
import py_compile
import shutil
import sys
import tempfile
from collections.abc import Iterator
from itertools import chain
from pathlib import Path

from bench.processes import compare, load_module, run, run_command, tell, time_call
from bench.replay import write_script
from builder.exchange.demo import read_demo
from builder.plan.layout import plan_book
from builder.production import Edition
from builder.spec.load import find_specs, load_spec
from builder.write.workbook import write_book

ROUNDS, DEEP_ROUNDS, BATCH = 7, 2, 12
WHOLE = "import formulas, sys; formulas.ExcelModel().loads(sys.argv[1]).finish().calculate()"
HEAD = ["| what | aim | median | spread | seconds, ours and theirs |", "|---|---|---|---|---|"]
DISTRIBUTIONS = 12  # the largest folders of the installation that are listed


class Bench:
    """A folder with the book, its bare script, and the programs to compare."""

    def __init__(self, folder: Path) -> None:
        self.folder, self.book = folder, folder / "book.xlsx"
        edition = Edition(load_spec(find_specs()), "en", "metric")
        self.plan = plan_book(edition.spec, read_demo(edition.spec), "en", "metric", edition.worked)
        self.solved = edition.engine.solve(self.plan)
        path, data = write_script(folder, self.plan, self.solved)
        self.script = Path(
            py_compile.compile(str(path), str(folder / "replayed.pyc"), doraise=True)
        )
        self.bare = load_module(path)
        if self.bare.replay() != data:
            raise ValueError("the bare script writes another file")
        self.book.write_bytes(data)

    def list_ratios(self) -> Iterator[str]:
        bare = self.folder / "bare.xlsx"
        yield self.row(
            "write a book ÷ xlsxwriter, the same calls",
            "1.3",
            lambda: time_call(lambda: write_book(self.plan, self.solved)),
            lambda: time_call(self.bare.replay),
        )
        yield self.row(
            "`build` ÷ a bare script of the same calls",
            "2",
            lambda: run_command("build", "--force", "--out", self.folder / "built.xlsx"),
            lambda: run(sys.executable, self.script, bare),
        )
        yield self.row(
            "`audit` ÷ LibreOffice converts the book",
            "0.8",
            lambda: run_command("audit", self.book),
            lambda: self.convert(self.book),
        )
        many = self.copy_books()
        yield self.row(
            f"`collect` ÷ LibreOffice converts, {BATCH} books",
            "0.8",
            lambda: run_command("collect", many, "--force", "--out", self.folder / "all.csv"),
            lambda: self.convert(*sorted(many.iterdir())),
        )
        deep = "`audit --deep` ÷ `formulas` loads and calculates the book"
        yield self.row(
            deep,
            "0.5",
            lambda: run_command("audit", "--deep", self.book),
            lambda: run(sys.executable, "-c", WHOLE, self.book),
            DEEP_ROUNDS,
        )

    def row(self, what: str, aim: str, ours, theirs, rounds: int = ROUNDS) -> str:
        found = compare(ours, theirs, rounds)
        seconds = [f"{sorted(side)[len(side) // 2]:.2f}" for side in (found.ours, found.theirs)]
        return f"| {what} | {aim} | {tell(found.ratios)} | {' and '.join(seconds)} |"

    def convert(self, *books: Path) -> float:
        profile, target = self.folder / "profile", self.folder / "converted"
        options = ["--headless", "--norestore", "--convert-to", "xlsx", "--outdir", target]
        return run("soffice", f"-env:UserInstallation={profile.as_uri()}", *options, *books)

    def copy_books(self) -> Path:
        many = self.folder / "many"
        many.mkdir()
        for number in range(BATCH):
            shutil.copy(self.book, many / f"book-{number}.xlsx")
        return many


def list_sizes(book: Path) -> Iterator[str]:
    """Yield what a look at the help takes, and how large book and installation are."""
    seconds = [run_command("--help") for _ in range(ROUNDS)]
    yield f"| `--help`, processor seconds | 0.4 | {tell(seconds)} | |"
    yield f"| the demo book, kB | 200 | {book.stat().st_size / 1000:.0f} | | |"
    sizes = measure_installation()
    yield f"| installation with all for tests, MB | 500 | {sum(sizes.values()) / 1e6:.0f} | | |"
    largest = sorted(sizes, key=lambda name: -sizes[name])[:DISTRIBUTIONS]
    yield ""
    yield "MB: " + ", ".join(f"{name} {sizes[name] / 1e6:.0f}" for name in largest)


def measure_installation() -> dict[str, int]:
    """Return the bytes of each folder beside the packages that this runs on."""
    packages = Path(next(path for path in sys.path if path.endswith("site-packages")))
    return {
        entry.name: sum(file.stat().st_size for file in entry.rglob("*") if file.is_file())
        for entry in packages.iterdir()
        if entry.is_dir()
    }


def main() -> None:
    print(f"{os.cpu_count()} cores, Python {platform.python_version()}, {ROUNDS} rounds\n")
    with tempfile.TemporaryDirectory() as folder:
        bench = Bench(Path(folder))
        print(*HEAD, sep="\n", flush=True)
        for row in chain(bench.list_ratios(), list_sizes(bench.book)):
            print(row, flush=True)


if __name__ == "__main__":
    main()
