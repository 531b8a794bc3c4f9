"""Values beside formulas, read in one pass, are those that the reading package gives in two."""

import io

import openpyxl
import pytest

from audit.edits import edit_cell
from builder.audit.normalization import normalize_value
from builder.audit.stored import read_stored

PLACE = "Pipe run!D9"


@pytest.mark.parametrize(
    "content",
    [
        "><f>B4</f><v>12.5</v></c>",
        ' t="n"><f>B4</f><v>1.0000000000000001E-3</v></c>',
        ' t="b"><f>B4</f><v>1</v></c>',
        ' t="b"><f>B4</f><v>0</v></c>',
        ' t="str"><f>B4</f><v>a &amp; b</v></c>',
        ' t="str"><f>B4</f><v></v></c>',
        ' t="s"><f>B4</f><v>0</v></c>',
        ' t="e"><f>B4</f><v>#DIV/0!</v></c>',
        "><f>B4</f></c>",
        "><v>7</v></c>",
    ],
)
def test_value_of_each_type_is_the_same_in_one_pass(fresh, content: str) -> None:
    data = edit_cell(fresh, PLACE, lambda _: f'<c r="D9"{content}')
    sheet = openpyxl.load_workbook(io.BytesIO(data), data_only=True)["Pipe run"]
    expected = normalize_value(sheet["D9"].value) if "<f>" in content else None
    assert read_stored(data).get(PLACE) == expected


def test_sheet_is_found_by_its_link_and_not_by_its_number(fresh) -> None:
    assert {place.partition("!")[0] for place in read_stored(fresh)} == {"Pipe run"}
