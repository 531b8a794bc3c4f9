"""Draws the corrected flow of machines against their hours run."""

from collections.abc import Sequence

import xlsxwriter
from xlsxwriter.chart import Chart
from xlsxwriter.worksheet import Worksheet

from builder.collection.fleet_points import CHOICE, COUNT, FIRST, NAME, NUMBER, SHOWN, Area, Charted
from builder.collection.fleet_words import Wording
from builder.collection.sheets import set_up_print
from builder.write.looks import BAR, BASE, INK, LOOKS, SERIES, STATES

# A spreadsheet program needs 1.8 MB and 30 ms for each chart it opens: any machine can be
# chosen for the large chart, and only these are drawn beside it.
MOST_CHARTS = 60
ACROSS, COLUMNS, ROWS = 2, 7, 15  # charts beside each other; cells from one chart to the next
SIZE = {"width": 440, "height": 290}
LARGE = {"width": 888, "height": 580}
LABEL, ENTRY = 0, 4  # columns
ASKED, TOLD, CHART, OTHERS = 2, 3, 8, 38  # rows: what is typed, what is shown, the small charts
PAGE = 2  # rows of charts on a page
SCALE = 85  # per cent: two charts fit beside each other whatever font a program has
# The file library takes a title such as x!A1 for a reference; nobody sees a word joiner.
UNREFERRING = "!\u2060"
LOOK = {"line": {"color": BAR, "width": 1.75}, **SERIES["dots"]}


class FlowSheet:
    """The sheet of charts: one of the machine that is chosen, then those of the most urgent."""

    def __init__(self, workbook: xlsxwriter.Workbook, sheet: Worksheet, wording: Wording) -> None:
        """Make the looks of the sheet, and set up how it prints."""
        self.workbook, self.sheet, self.wording = workbook, sheet, wording
        styles: dict[str, dict[str, object]] = {
            "title": LOOKS["title"],
            "typed": LOOKS["typed"],
            "count": {**LOOKS["result"], "num_format": "0"},
            "percent": {**LOOKS["result"], "num_format": "0.0"},
            "name": {"bold": True, "font_size": 13},
            "plain": {},
            "look": {"font_color": STATES["look"]["font_color"]},
        }
        self.looks = {key: workbook.add_format({**BASE, **look}) for key, look in styles.items()}
        set_up_print(sheet, wording.say("page"))
        sheet.set_print_scale(SCALE)
        self.write(0, LABEL, "fleet_percent", "title")

    def write(self, row: int, col: int, words: str, look: str, **parts: object) -> None:
        """Write words into a cell."""
        self.sheet.write_string(row, col, self.wording.say(words, **parts), self.looks[look])

    def write_nothing(self) -> None:
        """Say that no machine has anything to draw."""
        self.write(1, LABEL, "fleet_no_charts", "plain")

    def draw(self, charted: Sequence[Charted], area: Area) -> None:
        """Draw the chart of the machine chosen, the first as it is, and charts of some machines."""
        self.write_choice(charted[0], area)
        self.write_chosen(charted[0], area)
        self.draw_chosen(charted[0], area)
        self.write(OTHERS, LABEL, "fleet_others", "name", count=len(charted))
        for place, machine in enumerate(charted):
            row, col = divmod(place, ACROSS)
            chart = self.make_chart(SIZE)
            title = f"{machine.number}. {machine.name}".replace("!", UNREFERRING)
            chart.set_title({"name": title, "name_font": {"size": 11, "color": INK}})
            chart.add_series({**LOOK, **area.describe_series(FIRST + place, machine.points)})
            where = {"description": describe(machine, self.wording), "y_offset": 4}
            self.sheet.insert_chart(OTHERS + 1 + row * ROWS, col * COLUMNS, chart, where)
        pages = range(1, -(-len(charted) // (ACROSS * PAGE)))
        breaks = [OTHERS + 1 + page * PAGE * ROWS for page in pages]
        self.sheet.set_h_pagebreaks([OTHERS, *breaks])

    def write_choice(self, first: Charted, area: Area) -> None:
        """Write the cell for the number of a machine, and a word where it has no chart."""
        sheet, looks, say = self.sheet, self.looks, self.wording.say
        self.write(1, LABEL, "fleet_choose", "plain", sheet=say("fleet_sheet"))
        self.write(ASKED, LABEL, "fleet_number", "plain")
        sheet.write_number(ASKED, ENTRY, first.number, looks["typed"])
        numbers, message = area.list_numbers(), say("fleet_not_charted")
        rule = {"validate": "list", "source": f"={numbers}", "error_message": message}
        sheet.data_validation(ASKED, ENTRY, ASKED, ENTRY, rule)
        wrong = f'=IF(ISNUMBER(MATCH({CHOICE},{numbers},0)),"","{message}")'
        sheet.write_formula(ASKED, ENTRY + 1, wrong, looks["look"], "")

    def write_chosen(self, first: Charted, area: Area) -> None:
        """Write who the machine chosen is, and what it measured last."""
        number, name = area.find(SHOWN, NUMBER), area.find(SHOWN, NAME)
        told = f"{first.number}. {first.name}"
        self.sheet.write_formula(TOLD, LABEL, f'={number}&". "&{name}', self.looks["name"], told)
        hours, percent = first.points[-1]
        rows = (
            ("fleet_measurements", "count", COUNT, len(first.points)),
            ("fleet_last_hours", "count", area.percents - 1, hours),
            ("fleet_last_percent", "percent", area.percents + area.most - 1, percent),
        )
        for row, (words, look, col, value) in enumerate(rows, start=TOLD + 1):
            self.write(row, LABEL, words, "plain")
            formula = f"={area.find(SHOWN, col)}"
            self.sheet.write_formula(row, ENTRY, formula, self.looks[look], value)

    def draw_chosen(self, first: Charted, area: Area) -> None:
        """Draw the chart of the machine chosen, from the row of the points that follows it."""
        chart = self.make_chart(LARGE)
        chart.add_series({**LOOK, **area.describe_series(SHOWN, area.fill(first))})
        chart.set_title({"none": True})
        where = {"description": self.wording.say("fleet_chosen_alt")}
        self.sheet.insert_chart(CHART, LABEL, chart, where)

    def make_chart(self, size: dict[str, int]) -> Chart:
        """Return a chart without its title and its points."""
        chart = self.workbook.add_chart({"type": "scatter", "subtype": "straight_with_markers"})
        font = {"size": 9, "bold": False, "color": INK}
        hours, percent = map(self.wording.say, ("fleet_hours", "fleet_percent"))
        chart.set_x_axis({"name": hours, "name_font": font, "min": 0})
        chart.set_y_axis({"name": percent, "name_font": font, "min": 0})
        chart.set_legend({"none": True})
        chart.set_size(size)
        return chart


def describe(machine: Charted, wording: Wording) -> str:
    """Return a chart in words, for those who cannot see it."""
    (start, first), (end, last) = machine.points[0], machine.points[-1]
    parts = {
        "from": wording.show(start, 0),
        "to": wording.show(end, 0),
        "first": wording.show(first, 1),
        "last": wording.show(last, 1),
    }
    count = len(machine.points)
    return wording.say("fleet_alt", machine=machine.name, count=count, **parts)
