"""What several parts of the proof are tried on: the specs with long grids cut."""

import pytest

from builder.production import shorten
from builder.spec.load import find_specs, load_spec
from builder.spec.specification import Spec


@pytest.fixture(scope="session")
def spec() -> Spec:
    """Return the specs with long grids cut."""
    return shorten(load_spec(find_specs()))
