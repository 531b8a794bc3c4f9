"""Guards wait for every name, but a bare copy shows a blank by itself."""

import pytest

from builder.formula.guard import guard_result
from builder.spec.load import find_specs, load_spec


@pytest.fixture(scope="module")
def quantities():
    return load_spec(find_specs()).quantities


def test_a_formula_waits_for_all_its_names(quantities):
    formula = "holdup_adopted_L/elements_n"
    guarded = guard_result(formula, quantities)
    assert guarded == f'IF(COUNT(holdup_adopted_L,elements_n)<2,"",{formula})'


@pytest.mark.parametrize("name", ["start_next_pH", "elements_n"])
def test_a_bare_copy_has_no_guard(quantities, name):
    assert guard_result(name, quantities) == name


def test_a_copy_of_a_sign_or_a_choice_keeps_its_guard(quantities):
    assert guard_result("-elements_n", quantities).startswith("IF(COUNT(elements_n)<1")
    assert guard_result("rinse_rule", quantities).startswith('IF(rinse_rule=""')
