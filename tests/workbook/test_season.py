"""A season of sixty made-up days, typed into the log through the office program."""

from dataclasses import replace

import pytest
from reference.season import LINES, TODAY, make_season

from builder.calculation import calculate_season
from builder.exchange.machine import Machine
from builder.production import build_workbook
from builder.trial.comparison import list_differences
from builder.trial.placement import place_case
from workbook.cases import change_demo
from workbook.comparison import listed
from workbook.files import find_errors, read_file


@pytest.mark.parametrize("units", ["metric", "us", "imperial"])
@pytest.mark.parametrize("lang", ["en", "fr"])
def test_a_typed_season_gives_the_verdicts_record_and_forecast_of_the_reference(
    office, spec, tmp_path, lang, units
):
    path = tmp_path / "season.xlsx"
    path.write_bytes(build_workbook(spec, Machine(), lang, units))
    file = read_file(path)
    machine = change_demo(spec, "season", **TODAY, reader_units=units)
    case = replace(machine, rows={"log": make_season(), "force": LINES})
    office.open(path)
    office.put(place_case(case, file.names, spec, lang))
    values = office.read(file)
    reference = calculate_season(spec, case.given, case.rows)
    found = list_differences(reference, values, file.names, spec, lang)
    problems = [*find_errors(values), *map(str, found)]
    assert problems == [], listed(problems)
    assert values[file.cell("line_bad_n")] == 0
    assert values[file.cell("record_lines_n")] > 10
