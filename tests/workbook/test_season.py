"""A season of sixty made-up days, typed into the log through the office program."""

import pytest
from reference.season import TODAY, make_season

from builder.calculation import calculate_season
from builder.exchange.machine import Machine
from builder.formula.grids import grid_columns
from builder.production import build_workbook
from builder.spec.conversion import from_canonical
from builder.spec.records import Choice, Input
from builder.trial.cases import Case
from builder.trial.comparison import list_differences
from builder.trial.placement import place_case
from workbook.comparison import listed
from workbook.files import find_errors, read_file


def make_case(spec):
    """Return the machine of the season's last day, and the season's rows."""
    given = {
        name: value
        for name, value in TODAY.items()
        if isinstance(spec.quantities.get(name), Input | Choice)
    }
    return Case("season", given, {"log": make_season()})


def express_rows(spec, typed, file, units):
    """Return the typed cells of the log in the units that the book shows, as its owner types."""
    shown = dict(typed)
    for column in grid_columns(spec.quantities["log"], spec.quantities):
        name = f"log_{column.name}_typed_unit"
        if name in file.names:
            del shown[file.cell(name)]
            own, unit = spec.units[column.unit], spec.units[column.unit].reader[units]
            for cell in file.names[f"log_{column.name}_list"]:
                if isinstance(shown.get(cell), float):
                    shown[cell] = from_canonical(shown[cell], spec.units[unit], own)
    return shown


@pytest.mark.parametrize("units", ["metric", "us", "imperial"])
@pytest.mark.parametrize("lang", ["en", "fr"])
def test_a_typed_season_gives_the_verdicts_totals_and_forecast_of_the_reference(
    office, spec, tmp_path, lang, units
):
    path = tmp_path / "season.xlsx"
    path.write_bytes(build_workbook(spec, Machine(), lang, units))
    file, case = read_file(path), make_case(spec)
    office.open(path)
    typed = place_case(case, file.names, spec, lang)
    office.put(express_rows(spec, typed, file, units))
    values = office.read(file)
    reference = calculate_season(spec, case.given, case.rows)
    found = list_differences(reference, values, file.names, spec, lang)
    problems = [*find_errors(values), *map(str, found)]
    assert problems == [], listed(problems)
    assert values[file.cell("next_wash_d")] is not None
