import re
from functools import partial

import ironcalc
import openpyxl
import pytest
from workbook.engines import Office
from workbook.tools import OFFICE, require

from builder.collection.fleet_charts import MOST_CHARTS
from exchange.collected import DAY, Sample, flows, read_parts

CHART, DRAWING = ".*charts/chart[0-9]+.xml", ".*drawings/drawing[0-9]+.xml"
HOSTILE = "=cmd|'/c calc'!A0"
ASKED, TOLD = (3, 5), (4, 1)  # row and column on the sheet of charts
NOT_CHARTED, HOURS = (3, 6), (6, 5)
COUNTS = {"RO 1": 5, "RO 2": 1, "RO 3": 2, "RO 4": 0, "RO 5": 12}


@pytest.fixture
def filled(shelf, write):
    for title, count in COUNTS.items():
        shelf.put(f"{title}.xlsx", Sample(title=title, rows=flows(count)))
    return write()


def read_points(path):
    """Return the points of each machine as they stand on the sheet, by its number."""
    rows = list(openpyxl.load_workbook(path, data_only=True)["flow points"].values)[2:]
    most = (len(rows[0]) - 3) // 2
    points = {}
    for number, name, count, *cells in rows:
        columns = cells[:most], cells[most:]
        points[number] = (name, list(zip(*(column[:count] for column in columns), strict=True)))
    return points


def choose(path, numbers):
    """Yield, for each number typed, what the sheets of charts and points show then."""
    model = ironcalc.load_from_xlsx(str(path), "en", "UTC", "en")
    titles = [page["name"] for page in model.get_worksheets_properties()]
    flow, points = titles.index("flow"), titles.index("flow points")
    for number in numbers:
        if number is None:
            model.clear_cell_contents(flow, *ASKED)
        else:
            model.update_cell_with_number(flow, *ASKED, number)
        model.evaluate()
        get = partial(model.get_cell_value, points, 2)
        yield partial(model.get_cell_value, flow), [get(col) for col in range(1, 28)]


def test_points_of_every_machine_with_two_flows_stand_on_a_row(filled):
    found = {name.rpartition(" ")[2]: points for name, points in read_points(filled).values()}
    expected = {
        title[-1]: [(4.0 * (n + 1), 100.0 - n) for n in range(count)]
        for title, count in COUNTS.items()
        if count > 1
    }
    assert found == expected


def test_each_number_shows_its_machine_and_the_last_point_fills_the_row(filled):
    points = read_points(filled)
    for number, (flow, row) in zip(points, choose(filled, points), strict=True):
        name, known = points[number]
        padded = known + known[-1:] * (12 - len(known))
        hours, percents = zip(*padded, strict=True)
        assert row == [number, name, len(known), *hours, *percents]
        assert flow(*TOLD) == f"{number}. {name}"
        assert [flow(HOURS[0] + n, HOURS[1]) for n in (-1, 0, 1)] == [len(known), *known[-1]]
        assert not flow(*NOT_CHARTED)


@pytest.mark.parametrize("number", [0, 99, 2.5, None])
def test_a_number_without_chart_shows_the_first_and_says_so(filled, number):
    first = next(iter(read_points(filled).values()))
    ((flow, row),) = choose(filled, [number])
    assert row[1] == first[0]
    assert flow(*NOT_CHARTED).startswith("No chart for this number: no such machine")


def test_a_machine_with_one_flow_has_no_chart(filled):
    numbers = set(read_points(filled))
    silent = set(range(1, len(COUNTS) + 1)) - numbers
    assert len(silent) == 2
    for flow, _ in choose(filled, silent):
        assert flow(*NOT_CHARTED)


def test_stored_values_are_those_that_are_worked_out(filled):
    book = openpyxl.load_workbook(filled, data_only=True)
    ((flow, row),) = choose(filled, [book["flow"].cell(*ASKED).value])
    assert row == [cell.value for cell in book["flow points"][2]]
    assert flow(*TOLD) == book["flow"].cell(*TOLD).value


def test_only_numbers_of_machines_with_a_chart_can_be_chosen(filled):
    book = openpyxl.load_workbook(filled)
    (rule,) = book["flow"].data_validations.dataValidation
    title, area = rule.formula1.replace("'", "").split("!")
    assert [cell.value for (cell,) in book[title][area]] == list(read_points(filled))
    assert str(rule.sqref) == "E3"


def test_large_chart_follows_the_row_of_the_machine_shown(filled):
    large = read_parts(filled, CHART)[0]
    ranges = re.findall("<c:f>(.*?)</c:f>", large)
    assert ranges == ["'flow points'!$D$2:$O$2", "'flow points'!$P$2:$AA$2"]


def test_typing_a_number_into_the_office_program_shows_that_machine(filled):
    require(*OFFICE)
    points = read_points(filled)
    number = list(points)[-1]
    with Office() as office:
        office.open(filled)
        office.put({("flow", *ASKED): number})
        shown = office.ask("read")
    name, known = points[number]
    assert shown["flow"][TOLD[0] - 1][TOLD[1] - 1] == f"{number}. {name}"
    assert shown["flow points"][1][2 + len(known)] == known[-1][0]


def test_charts_hold_their_points_for_programs_that_do_not_calculate(filled):
    points = read_points(filled)
    for chart, (_, known) in zip(read_parts(filled, CHART)[1:], points.values(), strict=True):
        caches = re.findall("<c:numCache>.*?</c:numCache>", chart)
        found = [[float(v) for v in re.findall("<c:v>(.*?)</c:v>", cache)] for cache in caches]
        assert list(zip(*found, strict=True)) == known


def test_charts_have_titles_and_words(shelf, write):
    shelf.put("a.xlsx", Sample(title="once", rows=flows(1)))
    shelf.put("b.xlsx", Sample(title="often", rows=flows(3)))
    shelf.put("c.xlsx", Sample(title="never"))
    path = write()
    large, chart = read_parts(path, CHART)
    assert "2. Érablière du Lac, camp, often" in chart
    for words in ("Hours run since the log began", "Corrected flow (% of the reference)"):
        assert words in large
        assert words in chart
    (drawing,) = read_parts(path, DRAWING)
    assert "Chart of the corrected flow of the chosen machine" in drawing
    assert "often against hours run: 100.0\u00a0% of the reference at 4\u00a0h" in drawing
    assert "98.0\u00a0% at 12\u00a0h, 3 measurements." in drawing


def test_small_charts_read_the_hours_and_flow_of_their_machine(filled):
    book = openpyxl.load_workbook(filled)
    points = read_points(filled)
    for chart, (_, known) in zip(read_parts(filled, CHART)[1:], points.values(), strict=True):
        ranges = re.findall(r"<c:f>'flow points'!(.*?)</c:f>", chart)
        found = [[cell.value for cell in book["flow points"][area][0]] for area in ranges]
        assert list(zip(*found, strict=True)) == known


def test_a_name_of_a_machine_never_becomes_a_reference_of_its_chart(shelf, write):
    shelf.put("a.xlsx", Sample(title=HOSTILE, rows=flows(3)))
    path = write()
    assert not read_parts(path, ".*external.*")
    title = re.search("<c:title>.*?</c:title>", read_parts(path, CHART)[1])[0]
    assert "<c:f>" not in title
    assert "=cmd|" in title


def test_without_any_flow_the_sheet_says_so(shelf, write):
    shelf.put("a.xlsx", Sample())
    book = openpyxl.load_workbook(write("fr"))
    assert book["débit"]["A2"].value.startswith("Aucune machine")
    assert "points de débit" not in book.sheetnames


def test_most_urgent_machines_get_the_small_charts_and_all_get_points(shelf, write):
    for number in range(MOST_CHARTS + 3):
        rows = [*flows(2), {"day_d": DAY + 9, "event": "rinse", "left_L": float(number + 1)}]
        shelf.put(f"{number:03}.xlsx", Sample(title=f"RO {number}", rows=rows))
    path = write()
    titles = [re.search(r"<a:t>\d+\. .*, (RO \d+)</a:t>", part) for part in read_parts(path, CHART)]
    names = {found[1] for found in titles if found}
    assert names == {f"RO {number}" for number in range(3, MOST_CHARTS + 3)}
    assert len(read_points(path)) == MOST_CHARTS + 3
