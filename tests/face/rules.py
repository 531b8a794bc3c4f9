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
FIRST_PX, SCREEN_PX, ANSWERS_PT, ANSWERS = 330, 520, 26, 5  # of a telephone upright
CARDS, CARD_PT, NUMBER_PT, PAGE_PT, PAGE_PX = ("card", "firstcard"), 14, 20, 720, 736
NUMBERS_OF_A_STEP = 2  # more in a row are those of the strip
WIDER = 1.06  # one program makes columns so much wider
FRAMED = "thin"
MARKS = ("EXAMPLE", "EXEMPLE")
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
                shown = book.values[sheet.title].cell(cell.row, cell.column).value
                if cell.alignment.wrap_text and isinstance(shown, str):
                    needed = measure_height(shown, cell, measure_column(sheet, cell.column))
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


def the_first_sheet_fits_a_telephone(book: Book) -> Findings:
    """The first sheet is one narrow column, and its fifth answer ends on the first screen."""
    sheet = book.sheets[0]
    wide = sum(measure_column(sheet, col) for col in range(1, sheet.max_column + 1))
    if wide > FIRST_PX:
        yield f"{sheet.title}: {wide} px wide, at most {FIRST_PX}"
    answers = [
        row for row in range(1, sheet.max_row + 1) if sheet.cell(row, 1).font.sz == ANSWERS_PT
    ]
    end = measure_rows(sheet, 1, answers[ANSWERS - 1]) * 96 / 72
    if end > SCREEN_PX:
        yield f"{sheet.title}: answer {ANSWERS} ends at {end:.0f} px, at most {SCREEN_PX}"


def cards_are_read_from_a_step_away(book: Book) -> Findings:
    """What prints of a card is in large type, its numbers in larger one."""
    for sheet, cell in list_printed(book):
        framed = cell.border.left.style == FRAMED and cell.column > 1
        row = [other for other in sheet[cell.row] if other.border.left.style == FRAMED]
        least = NUMBER_PT if framed and len(row) <= NUMBERS_OF_A_STEP else CARD_PT
        if cell.value is not None and cell.font.sz < least:
            yield f"{sheet.title}!{cell.coordinate}: {cell.font.sz} points, at least {least}"


def cards_fill_one_page_a_side(book: Book) -> Findings:
    """A card prints at its own size, and each side of it fits on one page of either paper."""
    for sheet in list_cards(book):
        scale, fitted = sheet.page_setup.scale or 100, sheet.sheet_properties.pageSetUpPr
        if scale != 100 or (fitted and fitted.fitToPage):
            yield f"{sheet.title}: not printed at 100 %"
        _, _, last_col, last = range_boundaries(sheet.print_area.rpartition("!")[2])
        wide = sum(measure_column(sheet, col) for col in range(1, last_col + 1)) * WIDER
        if wide > PAGE_PX:
            yield f"{sheet.title}: {wide:.0f} px wide, at most {PAGE_PX}"
        repeated = measure_rows(sheet, *map(int, re.findall(r"\d+", sheet.print_title_rows)))
        ends = [*(item.id for item in sheet.row_breaks.brk), last]
        for side, (start, end) in enumerate(zip([0, *ends], ends, strict=False)):
            high = measure_rows(sheet, start + 1, end) + repeated * (side > 0)
            if high > PAGE_PT:
                yield f"{sheet.title}: side {side + 1} of {high:.0f} points, at most {PAGE_PT}"


def an_example_says_so_on_every_sheet(book: Book) -> Findings:
    """Each sheet for people shows the mark of an example in its head, and struck numbers."""
    behind = book.sheets[-1].sheet_properties.tabColor.rgb
    for sheet in book.sheets:
        people = sheet.sheet_properties.tabColor.rgb != behind
        if people and not any(mark in text for text in book.show(sheet.title, 2) for mark in MARKS):
            yield f"{sheet.title}: no mark of an example"


def numbers_of_an_example_are_struck(book: Book) -> Findings:
    """Each number of the first sheet and of the cards is struck through in an example."""
    for sheet in (book.sheets[0], *list_cards(book)):
        struck = {
            spot
            for item in sheet.conditional_formatting
            for rule in item.rules
            if rule.formula == ["example_n>0"] and rule.dxf.font and rule.dxf.font.strike
            for area in item.cells.ranges
            for spot in area.cells
        }
        for cell in (cell for row in sheet.iter_rows() for cell in row):
            if cell.number_format.startswith("#,##0") and (cell.row, cell.column) not in struck:
                yield f"{sheet.title}!{cell.coordinate}: not struck through"


def list_cards(book: Book) -> list[Worksheet]:
    return [book.workbook[book.targets[f"go_{key}"][0]] for key in CARDS]


def list_printed(book: Book) -> Iterator[tuple[Worksheet, Cell]]:
    """Yield the cells of the cards that print."""
    for sheet in list_cards(book):
        for row in sheet[sheet.print_area.rpartition("!")[2]]:
            yield from ((sheet, cell) for cell in row)


def measure_rows(sheet: Worksheet, first: int, last: int) -> float:
    """Return the height in points of rows."""
    return sum(sheet.row_dimensions[row].height or 15 for row in range(first, last + 1))


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


def measure_height(shown: str, cell: Cell, width: float) -> float:
    """Return the points that words take when they wrap."""
    heavy = 1.06 if cell.font.b else 1.0
    lines, used = 1, 0.0
    for word in shown.split(" "):
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
