"""The specs of the workbook break no rule."""

from builder.spec.load import find_specs

from .folders import find_faults


def test_specs_of_the_workbook_are_clean() -> None:
    assert find_faults(find_specs()) == ""
