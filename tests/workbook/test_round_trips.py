"""Saved by other programs: sound workbooks stay sound, and faults are found before and after."""

import io
import re
import shutil
import subprocess
from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path

import openpyxl
import pytest
from audit.edits import edit_cells, edit_part, swapped

from builder.audit.findings import Report
from builder.audit.reading import Reading
from builder.audit.report import Auditor
from builder.exchange.demo import read_demo
from builder.exchange.machine import Machine, Typed
from builder.production import build_workbook
from workbook.files import File, read_file
from workbook.tools import require

BOOK = "xl/workbook.xml"
PATIENCE_S = 300
PROFILE = """<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry">
<item oor:path="/org.openoffice.Setup/L10N">
<prop oor:name="ooSetupSystemLocale" oor:op="fuse"><value>{}</value></prop></item>
</oor:items>
"""
MACHINE = Machine(
    title="Concentrateur nº 2 & l’ancien",
    producer="Érablière d’en haut",
    site="=Rang 3",
    given={
        "vessels_n": Typed(2, unit="n"),
        "vessel_bore_mm": Typed(8.125, unit="in"),
        "wash_temp_degC": Typed(113, unit="degF"),
        "end_pH": Typed(11.07, unit="n"),
        "end_temp_degC": Typed(38.5, unit="degC"),
        "rinse_rule": Typed(None, code="elements"),
    },
    entries={
        "force": [
            {
                "line_date": 46450.0,
                "line_rinse_L": 1060.0,
                "line_first_L": 400.0,
                "line_floor_pH": 11.41,
                "line_ceiling_pH": 12.4,
                "line_volume": "gal_us",
                "line_temperature": "degF",
            }
        ],
        "approved": [{"alkaline": "Lessive d’été", "acid": "=B2"}],
        "log": [
            {"date": 46450.0, "event": "run", "hours_h": 6.25, "feed_bar": 1 / 3, "note": "=1+1"},
            {"date": 46451.0, "event": "alkaline", "begin_pH": 12.1, "begin_degC": 104.0},
            {"date": 46451.0, "event": "rinse", "rinse_L": 1234.5, "note": "rincé, goûté"},
            {"date": 46452.0, "event": "goûter", "rinse_L": "12 L", "mended": "-3"},
        ],
    },
)
GRIDS = ("force", "approved", "log")
BLANK_IN_FORCE = dict.fromkeys(["line_holdup_L", "line_factor_n", "line_pressure", "line_mass"])
SENT = ("blank en", "blank fr", "filled en", "filled fr")
SEEDED = "seeded fr"
Audit = Callable[[Path], Report]
Trip = Callable[[dict[str, bytes], Path], dict[str, Path]]


def convert(paths: list[Path], folder: Path, locale: str, kind: str) -> list[Path]:
    """Return files as one run of the office program in a locale saves them."""
    require("soffice")
    user = folder / "profile" / "user"
    user.mkdir(parents=True, exist_ok=True)
    (user / "registrymodifications.xcu").write_text(PROFILE.format(locale))
    run = subprocess.run(
        [
            "soffice",
            f"-env:UserInstallation={user.parent.as_uri()}",
            "--headless",
            "--norestore",
            "--convert-to",
            kind,
            "--outdir",
            folder,
            *paths,
        ],
        env={"PATH": "/usr/bin:/bin", "HOME": str(folder), "LANG": "C.UTF-8"},
        capture_output=True,
        text=True,
        timeout=PATIENCE_S,
        check=False,
    )
    shutil.rmtree(user.parent)
    saved = [folder / f"{path.stem}.{kind}" for path in paths]
    # The files tell, not the exit code: what the program does after the last one is its own affair.
    missing = [path.name for path in saved if not path.is_file()]
    assert missing == [], f"exit code {run.returncode}: {run.stdout} {run.stderr}"
    return saved


def write_all(files: dict[str, bytes], folder: Path) -> list[Path]:
    folder.mkdir()
    for name, data in files.items():
        (folder / f"{name}.xlsx").write_bytes(data)
    return [folder / f"{name}.xlsx" for name in files]


def save_in_office(locale: str) -> Trip:
    def go(files: dict[str, bytes], folder: Path) -> dict[str, Path]:
        sent = write_all(files, folder / "sent")
        return dict(zip(files, convert(sent, folder, locale, "xlsx"), strict=True))

    return go


def save_as_ods_and_back(files: dict[str, bytes], folder: Path) -> dict[str, Path]:
    (folder / "ods").mkdir()
    sent = convert(write_all(files, folder / "sent"), folder / "ods", "fr-CA", "ods")
    return dict(zip(files, convert(sent, folder, "en-CA", "xlsx"), strict=True))


def save_by_library(files: dict[str, bytes], folder: Path) -> dict[str, Path]:
    for name, data in files.items():
        openpyxl.load_workbook(io.BytesIO(data)).save(folder / f"{name}.xlsx")
    return {name: folder / f"{name}.xlsx" for name in files}


TRIPS: dict[str, Trip] = {
    "office": save_in_office("en-CA"),
    "office in fr-CA": save_in_office("fr-CA"),
    "ods": save_as_ods_and_back,
    "library": save_by_library,
}
STORES_NOTHING = {"library"}


@dataclass(frozen=True, slots=True)
class Seed:
    """One seeded fault, and how the finding about it begins."""

    cell: str
    text: str


def address(file: File, name: str) -> str:
    title, row, column = file.cell(name)
    return f"{title}!{openpyxl.utils.get_column_letter(column)}{row}"


def list_seeds(file: File) -> dict[str, Seed]:
    """Return the fault of each kind by what was changed."""
    return {
        "formula": Seed(address(file, "rinse_by_holdup_L"), "formula, found "),
        "constant": Seed(address(file, "mm2m_per_L"), "constant, found "),
        "name": Seed(address(file, "rinse_fills_n"), "defined name, found "),
        "lock": Seed(address(file, "cleaner_dose_kg"), "lock, found unlocked"),
        "stored": Seed(address(file, "elements_n"), "value, found "),
        "validation": Seed(address(file, "rinse_rule_typed"), "validation of "),
        "hidden": Seed(file.titles[-1], "sheet, found hidden"),
    }


def seed(data: bytes, file: File, kinds: set[str]) -> bytes:
    """Return a workbook, whoever saved it, with a fault of each kind."""
    seeds, typed = list_seeds(file), address(file, "vessels_n_typed")
    style = find_style(data, typed)
    cells = {
        "formula": swapped("</f>", "*2</f>"),
        "constant": swapped("<v>", "<v>7"),
        "lock": lambda xml: re.sub(r' s="\d+"', f' s="{style}"', xml, count=1),
        "stored": swapped("<v>", "<v>7"),
    }
    data = edit_cells(data, {seeds[kind].cell: cells[kind] for kind in cells.keys() & kinds})
    data = edit_part(data, BOOK, move_name)
    data = edit_part(data, BOOK, lambda xml: hide(xml, seeds["hidden"].cell))
    part = find_part(file, "rinse_rule_typed")
    return edit_part(data, part, swapped(">rinse_rule_words<", ">recipe_water_means_words<"))


def move_name(xml: str) -> str:
    return re.sub(r'(name="rinse_fills_n"[^>]*>[^<]*\$)\d+<', r"\g<1>999<", xml)


def hide(xml: str, title: str) -> str:
    own = re.compile(f'<sheet [^>]*name="{title}"[^>]*>')

    def change(sheet: re.Match[str]) -> str:
        return sheet[0].replace(' state="visible"', "").replace("<sheet ", '<sheet state="hidden" ')

    return own.sub(change, xml)


def find_part(file: File, name: str) -> str:
    return f"xl/worksheets/sheet{file.titles.index(file.cell(name)[0]) + 1}.xml"


def find_style(data: bytes, place: str) -> str:
    """Return the number of a cell's look as its file counts it."""
    found: list[str] = []

    def look(xml: str) -> str:
        found.extend(re.findall(r' s="(\d+)"', xml)[:1])
        return f"{xml} "

    edit_cells(data, {place: look})
    return found[0]


@pytest.fixture(scope="module")
def filled(short_spec, tmp_path_factory) -> dict[str, File]:
    """Return the filled workbook in both languages."""
    folder = tmp_path_factory.mktemp("filled")
    given = {**read_demo(short_spec).given, **MACHINE.given}
    machine, files = replace(MACHINE, given=given), {}
    for lang in ("en", "fr"):
        path = folder / f"{lang}.xlsx"
        path.write_bytes(build_workbook(short_spec, machine, lang, "metric"))
        files[lang] = read_file(path)
    return files


@pytest.fixture(scope="module")
def audit(short_spec, short_books) -> Audit:
    """Return a function that audits each file once."""
    auditor = Auditor(short_spec, lambda lang, _units: short_books(lang).data)
    return cache(lambda path: auditor.audit(path, deep=False))


@pytest.fixture(scope="module", params=TRIPS)
def trip(request: pytest.FixtureRequest) -> str:
    return request.param


@pytest.fixture(scope="module")
def returned(trip, short_books, filled, tmp_path_factory) -> dict[str, Path]:
    """Return what comes back from one trip, by what was sent."""
    french = filled["fr"]
    files = {f"blank {lang}": short_books(lang).data for lang in ("en", "fr")}
    files |= {f"filled {lang}": file.data for lang, file in filled.items()}
    files[SEEDED] = seed(french.data, french, set(list_seeds(french)))
    return TRIPS[trip](files, tmp_path_factory.mktemp("trip"))


def list_missed(report: Report, file: File, kinds: set[str]) -> list[str]:
    seeds = list_seeds(file)
    return [
        kind
        for kind in sorted(kinds)
        if not any(
            fault.cell == seeds[kind].cell and fault.text.startswith(seeds[kind].text)
            for fault in report.faults
        )
    ]


def tell(reading: Reading | None) -> list[object]:
    """Return what was typed, numbers to twelve digits."""
    assert reading is not None
    rows = [row for grid in GRIDS for row in reading.entries[grid] if any(row.values())]
    typed = [reading.given, *rows]
    numbers = [{k: f"{v:.12g}" if isinstance(v, float) else v for k, v in t.items()} for t in typed]
    return [reading.title, reading.producer, reading.site, *numbers]


@pytest.mark.parametrize("name", SENT)
def test_sound_workbook_has_no_fault_when_it_comes_back(returned, audit, name) -> None:
    report = audit(returned[name])
    assert [str(fault) for fault in report.faults] == []
    assert report.agree == report.formulas > 1000


@pytest.mark.parametrize("lang", ["en", "fr"])
def test_all_that_was_typed_comes_back(returned, audit, filled, lang) -> None:
    sent, back = filled[lang].path, returned[f"filled {lang}"]
    assert tell(audit(back).reading) == tell(audit(sent).reading)


def test_what_is_sent_holds_what_was_typed(audit, filled) -> None:
    report = audit(filled["fr"].path)
    warned = ["log_event row 4", "log_rinse_L row 4"]  # not the 104 °F that its line makes of 104
    assert [warning.name for warning in report.warnings] == warned
    reading = report.reading
    assert (reading.title, reading.producer, reading.site) == (
        MACHINE.title,
        MACHINE.producer,
        MACHINE.site,
    )
    assert reading.given["vessel_bore_mm"] == pytest.approx(206.375, rel=1e-12)
    rows = reading.entries["log"]
    assert [row["note"] for row in rows[:3]] == ["=1+1", None, "rincé, goûté"]
    assert [rows[3][key] for key in ("event", "rinse_L", "mended")] == ["goûter", "12 L", "-3"]
    assert reading.entries["force"][0] == MACHINE.entries["force"][0] | BLANK_IN_FORCE
    assert reading.entries["approved"] == MACHINE.entries["approved"]


def test_faults_seeded_before_the_trip_are_found(returned, audit, filled, trip) -> None:
    kinds = set(list_seeds(filled["fr"])) - ({"stored"} if trip in STORES_NOTHING else set())
    assert list_missed(audit(returned[SEEDED]), filled["fr"], kinds) == []


def test_faults_seeded_after_the_trip_are_found(
    returned, audit, filled, trip, tmp_path: Path
) -> None:
    kinds = set(list_seeds(filled["fr"])) - ({"stored"} if trip in STORES_NOTHING else set())
    path = tmp_path / "seeded.xlsx"
    path.write_bytes(seed(returned["filled fr"].read_bytes(), filled["fr"], kinds))
    assert list_missed(audit(path), filled["fr"], kinds) == []
