"""Damage to names, sheets, drop-downs, limits, coloured states, rows and columns."""

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from openpyxl.utils.cell import get_column_letter

from proof.files_draft import Draft, Mutant, Sign
from proof.lint_book import OWN_NAMES
from proof.lint_xml import Sheet

WORKBOOK = "xl/workbook.xml"
NAME = re.compile(r'<definedName name="([^"]+)"( localSheetId="(\d+)")?>(.*)</definedName>')
LAST_ROW = re.compile(r"\$(\d+)$")
AREAS = re.compile(r' sqref="([^"]+)"')
SPAN = re.compile(r' (?:r|min)="(\d+)"')
LOOSE = (
    "formatCells",
    "insertRows",
    "insertColumns",
    "deleteRows",
    "deleteColumns",
    "objects",
    "sort",
)
Change = Callable[[str], Iterator[tuple[str, str]]]


@dataclass(frozen=True, slots=True)
class Words:
    """How findings tell of rules for areas: the kind of damage, one lost, one changed."""

    kind: str
    lost: str
    told: str


LIMITS = Words("validation", "drop-downs and limits lost", "validation of")
STATES = Words("colours", "colours of states lost", "colours of states in")


def list_names(draft: Draft) -> Iterator[Mutant]:
    for key in draft.keys(WORKBOOK, "definedName"):
        own = NAME.fullmatch(draft.pieces[key])
        assert own is not None, draft.pieces[key]
        name, local, target = own[1], own[3], own[4]
        if name.startswith(OWN_NAMES):
            yield from damage_print(draft, key, name, draft.book.titles[int(local)])
            continue
        told = (Sign(name, "defined name, found "),)
        moved = LAST_ROW.sub(lambda row: f"${int(row[1]) + 1}", target)
        loose = target.replace("$", "")
        for kind, text in {"redirected": moved, "made relative": loose}.items():
            changed = draft.pieces[key].replace(f">{target}<", f">{text}<")
            yield Mutant(f"name {kind}", target, name, {key: changed}, told)
        yield Mutant(
            "name deleted", target, name, {key: ""}, (Sign(name, "defined name, found none"),)
        )
        twin = f'<definedName name="{name}" localSheetId="0">{moved}</definedName>'
        signs = (Sign(name, "defined name of one sheet, found one, expected none"),)
        yield Mutant("name shadowed", target, name, {key: twin + draft.pieces[key]}, signs)


def damage_print(draft: Draft, key: str, name: str, title: str) -> Iterator[Mutant]:
    kind, told, last = "print area", "print area, found ", "$2"
    if name.endswith("Titles"):
        kind, told, last = "print titles", "rows on every page, found ", "$9"
    signs = (Sign(title, told),)
    changed = LAST_ROW.sub(last, draft.pieces[key].removesuffix("</definedName>"))
    yield Mutant(f"{kind} changed", title, name, {key: f"{changed}</definedName>"}, signs)
    yield Mutant(f"{kind} removed", title, name, {key: ""}, signs)


def list_sheets(draft: Draft) -> Iterator[Mutant]:
    for key, sheet in zip(draft.keys(WORKBOOK, "sheet"), draft.book.sheets, strict=True):
        told = (Sign(sheet.title, "sheet, found hidden, expected visible"),)
        for state in ("hidden", "veryHidden"):
            text = draft.pieces[key].replace("<sheet ", f'<sheet state="{state}" ')
            yield Mutant(f"sheet {state}", sheet.title, "", {key: text}, told)
        yield from damage_protection(draft, sheet)


def damage_protection(draft: Draft, sheet: Sheet) -> Iterator[Mutant]:
    (key,) = draft.keys(sheet.part, "sheetProtection")
    own = draft.pieces[key]
    off = (Sign(sheet.title, "sheet protection, found off, expected on"),)
    text = own.replace(' sheet="1"', ' sheet="0"')
    yield Mutant("sheet protection off", sheet.title, "", {key: text}, off)
    yield Mutant("sheet protection removed", sheet.title, "", {key: ""}, off)
    for right in LOOSE:
        text = re.sub(rf' {right}="1"', "", own).replace("/>", f' {right}="0"/>')
        told = (Sign(sheet.title, f"sheet protection, found {right} allowed"),)
        yield Mutant("sheet protection loosened", sheet.title, right, {key: text}, told)


def list_rules(draft: Draft) -> Iterator[Mutant]:
    yield from damage_areas(draft, "dataValidation", LIMITS, change_rule)


def list_states(draft: Draft) -> Iterator[Mutant]:
    """Yield all damage to the colours that tell the state of cells."""
    yield from damage_areas(draft, "conditionalFormatting", STATES, change_states)


def damage_areas(draft: Draft, tag: str, words: Words, change: Change) -> Iterator[Mutant]:
    """Yield the damage to what a sheet says of areas of its cells."""
    for part, title in draft.titles.items():
        for key in draft.keys(part, tag):
            own = draft.pieces[key]
            areas = list_areas(own)
            place = f"{title}!{areas[0]}"
            lost = tuple(Sign(f"{title}!{area}", words.lost) for area in areas)
            yield Mutant(f"{words.kind} removed", place, "", {key: ""}, lost)
            told = tuple(
                Sign(f"{title}!{first(area)}", f"{words.told} {area}, found ") for area in areas
            )
            for kind, text in change(own):
                if text == own:  # what only fades has no states to change
                    continue
                yield Mutant(f"{words.kind} {kind}", place, "", {key: text}, told)


def change_rule(own: str) -> Iterator[tuple[str, str]]:
    """Yield other spellings of one rule: what it accepts then, and the text."""
    if ' type="' not in own:
        return
    yield "opened", re.sub(r' type="[^"]+"', "", own)
    yield "silenced", own.replace(' showErrorMessage="1"', "")
    style = "information" if 'errorStyle="warning"' in own else "warning"
    softened = re.sub(r' errorStyle="[^"]+"', "", own)
    yield "softened", softened.replace("<dataValidation ", f'<dataValidation errorStyle="{style}" ')
    widened = re.sub(r"<formula1>.*?</formula1>", "<formula1>-7E+99</formula1>", own)
    if ' type="list"' in own:
        widened = re.sub(r"<formula1>.*?</formula1>", "<formula1>machine_title</formula1>", own)
    yield "widened", widened


def change_states(own: str) -> Iterator[tuple[str, str]]:
    """Yield other spellings of the states of some cells: what they look like then, and the text."""
    yield "of stop on ok", own.replace('dxfId="0"', 'dxfId="2"')
    yield "of ok on stop", own.replace('dxfId="2"', 'dxfId="0"')
    yield "for another word", own.replace(">word_stop_txt<", ">word_ok_txt<")
    yield "negated", own.replace('operator="equal"', 'operator="notEqual"', 1)
    rule = '<cfRule type="expression" dxfId="0" priority="1"><formula>TRUE</formula></cfRule>'
    head = own[: own.index(">") + 1]
    yield "overlaid", f"{head}{rule}</conditionalFormatting>{own}"


def list_spans(draft: Draft, unlocked: int) -> Iterator[Mutant]:
    """Yield all damage to rows and columns as a whole; `unlocked` is a format to type into."""
    for part, title in draft.titles.items():
        for tag, size, style in (
            ("row", 'ht="0" customHeight="1"', f's="{unlocked}" customFormat="1"'),
            ("col", 'width="0"', f'style="{unlocked}"'),
        ):
            for key in draft.keys(part, tag):
                own = draft.pieces[key]
                yield from damage_span(title, tag, key, own, size, style)


def damage_span(
    title: str, tag: str, key: str, own: str, size: str, style: str
) -> Iterator[Mutant]:
    hit = SPAN.search(own)
    assert hit is not None, own
    span = hit[1] if tag == "row" else get_column_letter(int(hit[1]))
    place = f"{title} {span}"
    for kind, more, told in (
        ("hidden", 'hidden="1"', "hidden"),
        ("of no size", size, "hidden"),
        ("unlocked", style, "unlocked"),
    ):
        for attribute in re.findall(r"(\w+)=", more):
            own = re.sub(rf' {attribute}="[^"]*"', "", own)
        text = own.replace(f"<{tag} ", f"<{tag} {more} ", 1)
        yield Mutant(f"{tag} {kind}", place, "", {key: text}, (Sign(place, f"span, found {told}"),))


def list_areas(own: str) -> list[str]:
    hit = AREAS.search(own)
    assert hit is not None, own
    return hit[1].split()


def first(area: str) -> str:
    return area.partition(":")[0]
