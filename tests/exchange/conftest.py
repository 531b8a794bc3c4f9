import pytest

from builder.spec.load import find_specs, load_spec
from builder.spec.specification import Spec


@pytest.fixture(scope="session")
def spec() -> Spec:
    return load_spec(find_specs())
