"""Workbooks that open, but hold what a workbook of this program does not."""

import re
from collections.abc import Iterator
from functools import partial
from io import BytesIO
from pathlib import Path

import openpyxl
from audit.edits import add_part

from proof.hostile_case import Case
from proof.hostile_entries import DAMAGED, RENEWED, Trap, list_formulas, list_values, refuse
from proof.hostile_parts import (
    APP,
    CHART,
    CORE,
    CUSTOM,
    LINKS,
    SHEET,
    STRINGS,
    THEME,
    TYPES,
    WORKBOOK,
    drop,
    edit,
)

INPUT = "vessel_bore_mm_typed"
OTHER_EDITION = "an edition that is not known here"
SHORT = 20
SOUND = "0 faults, 0 warnings"
LOCK = b'<workbookProtection workbookPassword="ABCD" lockStructure="1"/>'
RELATED = b"http://schemas.openxmlformats.org/officeDocument/2006/relationships"


def list_traps(sound: bytes, port: int) -> Iterator[Trap]:
    place = find_places(sound)[INPUT]
    yield from list_formulas(sound, place, port)
    yield from list_values(sound, place)
    yield from list_names(sound)
    yield from list_foreign(sound, port)
    yield from list_editions(sound)
    yield from list_losses(sound)


def find_places(sound: bytes) -> dict[str, str]:
    names = openpyxl.load_workbook(BytesIO(sound), read_only=True).defined_names
    return {
        name: (to.attr_text or "").replace("$", "").replace("'", "") for name, to in names.items()
    }


def list_names(sound: bytes) -> Iterator[Trap]:
    targets = {
        "another cell": "Lists!$A$1",
        "nowhere": "#REF!",
        "another book": "[1]Sheet1!$A$1",
        "a whole column": "Lists!$A:$A",
        "a million rows": "Lists!$A$1:$A$1048576",
        "a formula": 'WEBSERVICE("http://127.0.0.1/")',
        "itself": INPUT,
        "nothing": "",
        "a cell without a sheet": "$A$1",
        "a million signs": "1+" * 500_000 + "1",
    }
    for name, target in targets.items():
        data = edit(sound, WORKBOOK, partial(redirect, target=target.encode()))
        renewed = r"carried: \d+ inputs?" if name in RENEWED else ""
        yield Trap(f"a name that leads to {name}", data, INPUT, renewed)
    gone = edit(sound, WORKBOOK, lambda d: re.sub(rb"<definedNames>.*</definedNames>", b"", d))
    yield Trap("no names at all", gone, "defined name", "carried: 0 inputs")
    names = b"".join(b'<definedName name="n%d">Lists!$A$1</definedName>' % n for n in range(50_000))
    more = edit(sound, WORKBOOK, lambda d: d.replace(b"<definedNames>", b"<definedNames>" + names))
    yield Trap("fifty thousand names", more, r"n49999")


def redirect(data: bytes, target: bytes) -> bytes:
    pattern = rb'(<definedName name="%s">)[^<]*' % INPUT.encode()
    return re.sub(pattern, lambda found: found[1] + target, data)


def list_foreign(sound: bytes, port: int) -> Iterator[Trap]:
    """Yield books with parts that run, fetch or link."""
    parts = {
        "xl/vbaProject.bin": "a macro project",
        "xl/externalLinks/externalLink1.xml": "a link to another workbook",
        "xl/connections.xml": "a data connection",
        "xl/embeddings/oleObject1.bin": "an embedded object",
        "xl/activeX/activeX1.bin": "a control",
        "customUI/customUI14.xml": "a changed ribbon",
        "xl/macrosheets/sheet1.xml": "a macro sheet",
    }
    for part, told in parts.items():
        yield Trap(f"{part} in the file", add_part(sound, part), told)
    linked = relate(sound, b"externalLink", f"http://127.0.0.1:{port}/book.xlsx".encode())
    yield Trap(
        "a book that links to another", linked, "asks for something outside of it", "carried"
    )
    macro = edit(
        sound, TYPES, lambda d: d.replace(b"sheet.main+xml", b"sheet.macroEnabled.main+xml")
    )
    told = "is of the kind with macros; save it as .xlsx"
    yield refuse("a type of file with macros", macro, told)


def relate(data: bytes, kind: bytes, target: bytes) -> bytes:
    """Return the file with a relation of the workbook to something outside."""
    link = b'<Relationship Id="rId9999" Type="%s/%s" Target="%s" TargetMode="External"/>'
    line = link % (RELATED, kind, target)
    return edit(data, LINKS, lambda d: d.replace(b"</Relationships>", line + b"</Relationships>"))


def list_editions(sound: bytes) -> Iterator[Trap]:
    for version in ("0.0.1", "99.0", "", "x" * 100_000, "1\u202e2", "$(touch planted)"):
        data = set_property(sound, "version", version)
        renewed = "older workbook" if len(version) > SHORT else ""
        yield Trap(
            f"version {version[:SHORT]!r}", data, f"version: built by .*{OTHER_EDITION}", renewed
        )
    other = set_property(sound, "specs", "0" * 12)
    yield Trap("other specs", other, f"specs: built by .*{OTHER_EDITION}", "older workbook")
    for name, value in (("language", "de"), ("units", "cubits"), ("language", "../../x")):
        told = f"not a workbook of this program: found '{value}'"
        yield Trap(f"{name} {value}", set_property(sound, name, value), told, told, carried=False)
    told = "not a workbook of this program: document property .+ is missing"
    yield Trap("no properties", drop(sound, CUSTOM), told, told, carried=False)
    yield Trap("another program's book", write_plain(), told, told, carried=False)


def set_property(data: bytes, name: str, value: str) -> bytes:
    pattern = re.compile(rf'(name="{name}"><vt:lpwstr>)[^<]*')
    return edit(data, CUSTOM, lambda d: pattern.sub(lambda f: f[1] + value, d.decode()).encode())


def write_plain() -> bytes:
    """Return a workbook that somebody else has made."""
    book, target = openpyxl.Workbook(), BytesIO()
    book.create_sheet("Data")["A1"] = "=1+1"
    book.save(target)
    return target.getvalue()


def list_losses(sound: bytes) -> Iterator[Trap]:
    """Yield books that have lost parts, or show them no more."""
    for part in (THEME, CORE, APP):
        yield Trap(f"{part} is missing", drop(sound, part), SOUND, code=0)
    told = f"{DAMAGED}: the sheet {SHEET} is missing"
    for part, words in ((STRINGS, DAMAGED), (CHART, DAMAGED), (SHEET, told)):
        yield refuse(f"{part} is missing", drop(sound, part), words)
    change = partial(edit, sound, WORKBOOK)
    hidden = change(lambda d: d.replace(b' sheetId="2"', b' sheetId="2" state="veryHidden"'))
    yield Trap("a sheet that is very hidden", hidden, "hidden")
    early = change(lambda d: d.replace(b"<workbookPr", b'<workbookPr date1904="1"'))
    yield Trap("days counted from 1904", early, "1904")
    locked = change(lambda d: d.replace(b"<bookViews>", LOCK + b"<bookViews>"))
    yield Trap("a structure locked with a password", locked, SOUND, "carried", code=0)


def mix_bad_and_good(sound: bytes) -> Case:
    """Return a folder of sound and unsound books: each has its line, and the command goes on."""

    def make(folder: Path) -> list[str]:
        (folder / "back").mkdir()
        (folder / "back" / "sound.xlsx").write_bytes(sound)
        for number, data in enumerate((b"", sound[:999], drop(sound, CUSTOM)), start=1):
            (folder / "back" / f"bad{number}.xlsx").write_bytes(data)
        return ["collect", "back", "--out", "table.json", "--jobs", "1"]

    told = r"(?s)books: 4\nmachines: 1\n.*unreadable: 3\n.*bad1.*bad2.*bad3"
    return Case("bad and good together", "workbooks", make, 1, told, frozenset({"table.json"}))
