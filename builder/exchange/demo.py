"""The machine of a book that is built without a machine file."""

from pathlib import Path

from builder.exchange.machine import Machine, read_machine
from builder.spec.load import find_specs
from builder.spec.specification import Spec

FILE = "demo.toml"


def find_demo() -> Path:
    """Return its file: beside the specs, in the checkout as in the installed package."""
    return find_specs().parent / "examples" / FILE


def read_demo(spec: Spec) -> Machine:
    """Return the machine; its specs may be others than those beside the file."""
    return read_machine(find_demo(), spec)
