"""Converts between units with the very factors that the workbook's unit lists hold."""

from builder.spec.records import Unit


def find_factor(unit: Unit, canonical: Unit) -> float:
    """Return the factor from a unit to the canonical unit of a quantity, rounded once."""
    return float(unit.factor / canonical.factor)


def find_offset(unit: Unit, canonical: Unit) -> float:
    """Return what is added after the factor, in the canonical unit."""
    return float((unit.offset - canonical.offset) / canonical.factor)


def to_canonical(number: float, unit: Unit, canonical: Unit) -> float:
    """Return a typed number in the canonical unit."""
    return number * find_factor(unit, canonical) + find_offset(unit, canonical)


def from_canonical(number: float, unit: Unit, canonical: Unit) -> float:
    """Return a canonical number in another unit."""
    return (number - find_offset(unit, canonical)) / find_factor(unit, canonical)


def list_units(canonical: Unit, units: dict[str, Unit]) -> list[Unit]:
    """Return the units of the same dimension, in the order of the specs."""
    return [unit for unit in units.values() if unit.dimension == canonical.dimension]


def find_part(code: str, measure: str, unit: str) -> str:
    """Return the unit in which a choice of another measure makes a unit of it be typed.

    Where `gal_us` is chosen for `L`, a flow in `L/h` is typed in `gal_us/h`.
    """
    first, sign, rest = unit.partition("/")
    return f"{code}{sign}{rest}" if first == measure else unit
