"""Each law holds, and goes red at the first result that does not have it."""

import pytest

from proof.properties import LAWS, Reference, try_law
from proof.properties_laws import DOUBLED, HOLDUPS, KEPT, MARGINS, SIGNS

FEW = 4
FOLLOW, DOUBLE, OWE, DOSE, MIRROR = LAWS


class Bent:
    """A reference that tells a lie about one result."""

    def __init__(self, side, name, lie):
        self.side, self.name, self.lie, self.spec = side, name, lie, side.spec

    def solve(self, given):
        values = self.side.solve(given)
        return {**values, self.name: self.lie(values[self.name], given)}


def find_lie(law, spec, name, lie):
    """Return what a law says about a reference that lies about one result."""
    return try_law(law, Bent(Reference(spec, law.asks), name, lie), FEW)


@pytest.mark.parametrize("law", LAWS, ids=lambda law: law.judge.__name__)
def test_the_reference_keeps_each_law(spec, law):
    assert try_law(law, Reference(spec, law.asks), FEW) == []


@pytest.mark.parametrize("holdup", HOLDUPS)
@pytest.mark.parametrize("dimension", SIGNS)
def test_a_hold_up_that_goes_the_wrong_way_with_a_dimension_is_found(spec, holdup, dimension):
    against = -1e7 * SIGNS[dimension] or 1.0
    found = find_lie(FOLLOW, spec, holdup, lambda v, given: v + against * given[dimension])
    assert [fault for fault in found if fault.startswith(f"{holdup}: {dimension} ")]


@pytest.mark.parametrize(
    ("law", "name", "lie"),
    [
        *(
            (DOUBLE, name, lambda v, given: v + given["vessels_n"] ** 2)
            for name in (*DOUBLED, *HOLDUPS, "rinse_by_elements_L")
        ),
        *((DOUBLE, name, lambda v, given: v + given["vessels_n"]) for name in KEPT),
        *(
            (OWE, name, lambda v, _: 0.999 * v - 1)
            for name in ("rinse_owed_L", "rinse_by_holdup_L", "rinse_by_elements_L")
        ),
        *(
            (DOSE, name, lambda v, _: 1.001 * v)
            for name in ("cleaner_dose_kg", "cleaner_strength_gpL")
        ),
        *(
            (MIRROR, name, lambda v, given, limit=limit: v - 0.01 * given[limit])
            for name, (limit, _) in MARGINS.items()
        ),
        (MIRROR, "start_floor_margin_pH", lambda v, _: v + 0.01),
        (OWE, "rinse_owed_L", lambda *_: None),
    ],
)
def test_a_result_that_breaks_a_law_is_found_by_its_name(spec, law, name, lie):
    assert [fault for fault in find_lie(law, spec, name, lie) if fault.startswith(f"{name}: ")]
