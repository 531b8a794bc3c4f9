"""The library's units of measure, and those that it lacks."""

from functools import cache
from typing import Any

import pint

# What the registry lacks: a grain is 64.79891 mg, and CaCO3 has 50.0435 g for each equivalent.
DEFINITIONS = (
    "pct = 0.01",
    "eq = mol",
    "mg_CaCO3 = 1 / 50.0435 * mmol",
    "gpg_us = 64.79891 / 3.785411784 / 50.0435 * mmol / L",
    "degC_point = [temperature_point]",
    "degF_point = 5 / 9 * degC_point",
    "date_point = [date]",
    "typed = [unit_of_typed_cells]",
)


@cache
def make_registry() -> Any:
    """Return the library's units and ours; built once, since that takes longer than a check."""
    registry: Any = pint.UnitRegistry()
    for definition in DEFINITIONS:
        registry.define(definition)
    return registry
