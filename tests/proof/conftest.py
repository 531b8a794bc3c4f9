"""What several parts of the proof are tried on: the specs with long grids cut, and their book."""

import pytest
from workbook.conftest import shorten
from workbook.files import File

from builder.exchange.machine import Machine
from builder.spec.load import find_specs, load_spec
from builder.spec.specification import Spec
from proof.coverage_bench import Bench
from proof.coverage_scene import make_file


@pytest.fixture(scope="session")
def spec() -> Spec:
    """Return the specs with long grids cut."""
    return shorten(load_spec(find_specs()))


@pytest.fixture(scope="session")
def file(spec: Spec) -> File:
    """Return the English workbook of these specs."""
    return make_file(spec, Machine())


@pytest.fixture(scope="module")
def bench(file: File) -> Bench:
    """Return the workbook in an engine; a test takes its changes back."""
    return Bench(file)
