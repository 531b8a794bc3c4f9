"""Rules of what a person meets, told of the finished file: one small function a rule."""

import re
from collections.abc import Callable, Iterator

from openpyxl.cell.cell import Cell
from openpyxl.utils import get_column_letter, range_boundaries
from openpyxl.worksheet.worksheet import Worksheet

from face.book import Book

Findings = Iterator[str]
Rule = Callable[[Book], Findings]
PAPER = "FFFFFF"
SHAPE_CONTRAST = 3.0  # WCAG 2.2, 1.4.11
FONT, SIZES = "Arial", {8, 9, 10, 11, 12, 13, 14, 16, 18, 20, 24, 26}
MOST_FROZEN_PX, WITH_FROZEN = 150, ("log", "record")
LONGEST_TITLE, LONGEST_WORDS, SHORTEST_WORDS = 32, 255, 15
COLOURS_OF_TABS = 4
# Widths of letters in thousandths of the size, in rough groups: not those that made the rows.
NARROW = dict.fromkeys("ijl'|’", 222) | dict.fromkeys(" .,:;!/\\tfI[]()-·", 280)
WIDE = dict.fromkeys("mMW%@œ", 850) | dict.fromkeys("ABEKPSVXYCDHNRUwGOQ&+=<>", 690)
GLYPHS = NARROW | dict.fromkeys('rsz"', 400) | WIDE


def frozen_columns_leave_room_on_a_telephone(book: Book) -> Findings:
    """Nothing is frozen at the left but in the log and the record, and there it is narrow."""
    wide = {book.targets[f"go_{key}"][0] for key in WITH_FROZEN if f"go_{key}" in book.targets}
    for sheet in book.sheets:
        count = range_boundaries(sheet.freeze_panes)[0] - 1 if sheet.freeze_panes else 0
        frozen = sum(measure_column(sheet, col) for col in range(1, count + 1))
        most = MOST_FROZEN_PX if sheet.title in wide else 0
        if frozen > most:
            yield f"{sheet.title}: {frozen} px frozen, at most {most}"


def links_aim_at_names_of_one_cell(book: Book) -> Findings:
    """A link aims at a name that leads to one cell: an address is lost in some programs."""
    for sheet, cell, target in book.links:
        place = book.targets.get(target)
        if not target.startswith("go_") or place is None:
            yield f"{sheet}!{cell}: a link to {target}, which is no name go_…"
        elif place[0] not in book.titles or not re.fullmatch(r"\$[A-Z]+\$\d+", place[1]):
            yield f"{sheet}!{cell}: {target} leads to {'!'.join(place)}, not to one cell"


def every_sheet_is_one_link_from_the_first(book: Book) -> Findings:
    """The first sheet leads to each other one, and each of them leads back."""
    first = book.titles[0]
    led = {
        (sheet, book.targets[target][0])
        for sheet, _, target in book.links
        if target in book.targets
    }
    for title in book.titles[1:]:
        for pair in ((first, title), (title, first)):
            if pair not in led:
                yield f"no link from {pair[0]} to {pair[1]}"


def typed_cells_have_a_frame_that_shows(book: Book) -> Findings:
    """The frame of what is typed into stands out from the paper and from its own ground."""
    for sheet, cell in list_unlocked(book):
        edges = {
            edge.color.rgb[-6:] if edge.style and edge.color else PAPER for edge in list_edges(cell)
        }
        grounds = {PAPER, cell.fill.fgColor.rgb[-6:] if cell.fill.fill_type else PAPER}
        least = min(contrast(edge, ground) for edge in edges for ground in grounds)
        if least < SHAPE_CONTRAST:
            yield f"{sheet}!{cell.coordinate}: a frame of {least:.2f} to 1"


def list_edges(cell: Cell) -> list:
    return [cell.border.left, cell.border.right, cell.border.top, cell.border.bottom]


def tabs_tell_whom_a_sheet_is_for(book: Book) -> Findings:
    """Each tab has one of four colours that stand out from white."""
    colours = {s.title: s.sheet_properties.tabColor for s in book.sheets}
    told = {title: colour.rgb[-6:] for title, colour in colours.items() if colour}
    for title in book.titles:
        ratio = contrast(told[title], PAPER) if title in told else 1.0
        if ratio < SHAPE_CONTRAST:
            yield f"{title}: a tab of {ratio:.2f} to 1"
    if len(set(told.values())) != COLOURS_OF_TABS:
        yield f"{len(set(told.values()))} colours of tabs, and {COLOURS_OF_TABS} roles"


def sheets_for_people_are_without_a_grid(book: Book) -> Findings:
    """Lines between cells show behind alone, where the last sheet stands."""
    behind = book.sheets[-1].sheet_properties.tabColor.rgb
    for sheet in book.sheets:
        shown = sheet.sheet_view.showGridLines is not False
        if shown and sheet.sheet_properties.tabColor.rgb != behind:
            yield f"{sheet.title}: lines between cells"


def the_file_tells_its_language(book: Book) -> Findings:
    """Document and charts are in the language of their words."""
    own = {"en": "en-CA", "fr": "fr-CA"}[book.lang]
    core = book.parts["docProps/core.xml"].decode()
    if f"<dc:language>{own}</dc:language>" not in core:
        yield f"the document is not told to be in {own}"
    if not re.search(r"<dc:title>[^<]{15,}<", core):
        yield "the title does not tell what the book is"
    for part, content in book.parts.items():
        if part.startswith("xl/charts/") and f'<c:lang val="{own}"/>'.encode() not in content:
            yield f"{part} is not told to be in {own}"


def pictures_are_told_in_words(book: Book) -> Findings:
    """Charts and drawings say what they show."""
    for part, content in book.parts.items():
        if part.startswith("xl/drawings/drawing"):
            for item in re.findall(r"<xdr:cNvPr [^>]*>", content.decode()):
                words = re.search(r'descr="([^"]*)"', item)
                if not words or not SHORTEST_WORDS <= len(words[1]) <= LONGEST_WORDS:
                    yield f"{part}: {item}"


def nothing_is_merged_folded_or_hatched(book: Book) -> Findings:
    """No cells are merged, no rows or columns fold away, no ground is a pattern."""
    for sheet in book.sheets:
        yield from (f"{sheet.title}!{area}: merged" for area in sheet.merged_cells.ranges)
        spans = [*sheet.row_dimensions.items(), *sheet.column_dimensions.items()]
        for key, span in spans:
            if span.outlineLevel or span.hidden:
                yield f"{sheet.title} {key}: folded or hidden"
    for fill in re.findall(rb'patternType="(\w+)"', book.parts["xl/styles.xml"]):
        if fill not in (b"none", b"gray125", b"solid"):  # the second is in every file, unused
            yield f"a ground of {fill.decode()}"


def rows_are_high_enough(book: Book) -> Findings:
    """No words that wrap are cut by the height of their row."""
    for sheet in book.sheets:
        for row in sheet.iter_rows():
            for cell in row:
                if cell.alignment.wrap_text and isinstance(cell.value, str):
                    needed = measure_height(cell, measure_column(sheet, cell.column))
                    height = sheet.row_dimensions[cell.row].height or 15
                    if needed > height + cell.font.sz * 0.2:
                        yield f"{sheet.title}!{cell.coordinate}: {height:g} of {needed:g} points"


def the_font_is_one_family(book: Book) -> Findings:
    """All words are in Arial, in sizes of one scale; the theme's fonts, which charts take, too."""
    styles = book.parts["xl/styles.xml"].decode()
    for font in re.findall(r"<font>.*?</font>", styles.partition("<cellStyleXfs")[0]):
        name, size = re.search(r'<name val="([^"]*)"', font), re.search(r'<sz val="([^"]*)"', font)
        if not name or name[1] != FONT or "<scheme" in font or float(size[1]) not in SIZES:
            yield font
    theme = book.parts["xl/theme/theme1.xml"].decode()
    for name in re.findall(r'<a:(?:major|minor)Font><a:latin typeface="([^"]*)"', theme):
        if name != FONT:
            yield f"the theme takes {name}"


def typed_cells_say_what_they_take(book: Book) -> Findings:
    """Each typed cell has a prompt with a short title, and an error text."""
    for sheet in book.sheets:
        told = {
            spot
            for rule in sheet.data_validations.dataValidation
            if judge_rule(rule)
            for area in rule.sqref.ranges
            for spot in area.cells
        }
        for row in sheet.iter_rows():
            for cell in row:
                if not cell.protection.locked and (cell.row, cell.column) not in told:
                    yield f"{sheet.title}!{cell.coordinate}: no prompt, or no error text"


def judge_rule(rule: object) -> bool:
    titles = (rule.promptTitle or "", rule.errorTitle or "")
    words = (rule.prompt or "", rule.error or "")
    shown = rule.showInputMessage and rule.showErrorMessage and rule.type
    fit = all(0 < len(title) <= LONGEST_TITLE for title in titles)
    return bool(shown) and fit and all(0 < len(text) <= LONGEST_WORDS for text in words)


def list_unlocked(book: Book) -> Iterator[tuple[str, Cell]]:
    """Yield one cell of each format that can be typed into."""
    seen = set()
    for sheet in book.sheets:
        for row in sheet.iter_rows():
            for cell in row:
                if not cell.protection.locked and cell.style_id not in seen:
                    seen.add(cell.style_id)
                    yield sheet.title, cell


def measure_column(sheet: Worksheet, col: int) -> int:
    """Return the width of a column on the screen; a file holds its edges too."""
    found = sheet.column_dimensions.get(get_column_letter(col))
    if found is None:
        spans = sheet.column_dimensions.values()
        found = next((s for s in spans if s.min and s.min <= col <= s.max), None)
    return round(found.width * 7) if found is not None else 64


def measure_height(cell: Cell, width: float) -> float:
    """Return the points that words take when they wrap."""
    heavy = 1.06 if cell.font.b else 1.0
    lines, used = 1, 0.0
    for word in cell.value.split(" "):
        letters = sum(GLYPHS.get(c, 556) for c in f"{word} ")
        wide = letters / 1000 * cell.font.sz * 96 / 72 * heavy
        if used and used + wide > width - 8:
            lines, used = lines + 1, 0.0
        used += wide
    return lines * cell.font.sz * 1.15


def contrast(one: str, other: str) -> float:
    """Return the contrast ratio of two colours as WCAG 2.2 defines it."""
    darker, lighter = sorted(map(luminance, (one, other)))
    return (lighter + 0.05) / (darker + 0.05)


def luminance(colour: str) -> float:
    shares = [int(colour[at : at + 2], 16) / 255 for at in (0, 2, 4)]
    red, green, blue = (s / 12.92 if s <= 0.04045 else ((s + 0.055) / 1.055) ** 2.4 for s in shares)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue
