"""Hand-made books that came back: small files, and what an audit would say of them."""

import re
import zipfile
from dataclasses import dataclass, field
from pathlib import Path

from builder.audit.findings import Finding, Report
from builder.audit.reading import Reading
from builder.collection.book import gather
from builder.collection.fleet_sheet import Counts
from builder.collection.fleet_words import Wording
from builder.collection.fleet_workbook import write_xlsx
from builder.collection.states import set_aside_older
from builder.collection.store import open_store
from builder.collection.tables import make_tables
from builder.problems import UserError

DAY = 46082.0  # 2026-03-01
CORE = """<cp:coreProperties xmlns:cp="http://schemas.openxmlformats.org/package/2006/metadata/core-properties"
 xmlns:dcterms="http://purl.org/dc/terms/"><dcterms:modified>{}</dcterms:modified></cp:coreProperties>"""
FAULT = Finding("Rinse!B5", "rinse_owed_L", "formula, found '=1', expected '=2'")


@dataclass
class Sample:
    """A book: its rows hold typed and worked cells of the log by name."""

    title: str = "RO 1"
    producer: str = "Érablière du Lac"
    site: str = "camp"
    rows: list = field(default_factory=list)
    given: dict = field(default_factory=dict)
    values: dict = field(default_factory=dict)
    faults: list = field(default_factory=list)
    warnings: list = field(default_factory=list)
    modified: str = "2026-04-01T00:00:00Z"
    error: Exception | None = None
    foreign: bool = False


def run(day: float, **cells):
    return {"date": DAY + day, "day_d": DAY + day, "event": "run", **cells}


def flows(count: int, **more):
    """Return rows of runs of four hours, each with one per cent less flow."""
    return [run(n, hours_h=4.0, tested_pct=100.0 - n, **more) for n in range(count)]


def read_parts(path: Path, pattern: str) -> list[str]:
    with zipfile.ZipFile(path) as archive:
        names = [name for name in archive.namelist() if re.fullmatch(pattern, name)]
        return [archive.read(name).decode() for name in names]


def write_file(path: Path, sample: Sample, mark: str = "") -> Path:
    path.parent.mkdir(parents=True, exist_ok=True)
    with zipfile.ZipFile(path, "w") as archive:
        archive.writestr("xl/workbook.xml", mark or repr(sample))
        archive.writestr("docProps/core.xml", CORE.format(sample.modified))
    return path


def make_report(sample: Sample, path: Path, tables) -> Report:
    if sample.error:
        raise sample.error
    rows = [*sample.rows, {}, {}]
    typed = [{name: row.get(name) for name in tables.typed} for row in rows]
    names = {name for row in rows for name in row}
    sources = tables.typed | tables.worked
    columns = {sources[name]: [row.get(name) for row in rows] for name in names & sources.keys()}
    columns.pop("", None)  # typed columns that the log only keeps
    owner = {"title": sample.title, "producer": sample.producer, "site": sample.site}
    kind = {"language": "fr", "units": "us", "version": "0.1.0"}
    reading = Reading(
        **owner,
        given=sample.given,
        entries={"log": typed},
        values=sample.values,
        columns=columns,
        **kind,
    )
    found = None if sample.foreign else reading
    return Report(str(path), "0.1.0", sample.faults, sample.warnings, 3, 3, found)


def refusal(path: str) -> UserError:
    return UserError(f"{path}: is damaged (BadZipFile). Audit a workbook of ours.", 4)


class Shelf:
    """A folder of books, and the audit that knows them by their names."""

    def __init__(self, folder: Path, spec) -> None:
        self.folder, self.spec, self.tables = folder, spec, make_tables(spec)
        self.samples: dict[str, Sample] = {}

    def put(self, name: str, sample: Sample, mark: str = "") -> Path:
        self.samples[name] = sample
        return write_file(self.folder / name, sample, mark)

    def audit(self, path: Path) -> Report:
        return make_report(self.samples[path.name], path, self.tables)

    def gather(self, name: str):
        return gather(self.folder / name, self.audit, self.tables)

    def fill(self, store) -> None:
        for number, name in enumerate(sorted(self.samples), start=1):
            store.add(number, self.gather(name))
        set_aside_older(store, Wording(self.spec, "en"))

    def read(self, table: str):
        """Return the rows of a table that count, as dictionaries, files by name alone."""
        with open_store(self.tables) as store:
            self.fill(store)
            frames = [frame.to_dict("records") for _, frame in store.read_frames(table)]
        rows = [row for frame in frames for row in frame]
        return [{**row, "file": Path(row["file"]).name} for row in rows]

    def write(self, out: Path, lang: str) -> Path:
        with open_store(self.tables) as store:
            self.fill(store)
            write_xlsx(out, store, Wording(self.spec, lang), Counts(7, 5, 3))
        return out

    def read_calls(self):
        with open_store(self.tables) as store:
            self.fill(store)
            return list(store.read_calls())
