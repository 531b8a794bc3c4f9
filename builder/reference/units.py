"""Units in which a log is typed, and the factors to the canonical ones."""

from collections.abc import Collection
from dataclasses import dataclass

LITRES = {"L": 1.0, "gal_us": 3.785411784, "gal_imp": 4.54609}  # exact (definition)
BARS = {"bar": 1.0, "psi": 0.0689475729316836}  # pound-force a square inch (definition)
KILOGRAMS = {"kg": 1.0, "lb": 0.45359237}  # exact (definition)
DEGREES = {"degC": (0.0, 1.0), "degF": (32.0, 1.8)}  # offset, steps in a kelvin (definition)
BOOK = {  # volume, pressure, temperature, mass
    "metric": ("L", "bar", "degC", "kg"),
    "us": ("gal_us", "psi", "degF", "lb"),
    "imperial": ("gal_imp", "psi", "degF", "lb"),
}

Raw = float | str | None


@dataclass(frozen=True, slots=True)
class Units:
    """The units of one line: their words."""

    volume: str
    pressure: str
    temperature: str
    mass: str

    def convert(self, value: float, kind: str) -> float:
        """Return a number in the canonical unit of its kind; any other kind has one unit only."""
        if kind == "temperature":
            offset, steps = DEGREES[self.temperature]
            return (value - offset) / steps
        factors = {
            "volume": LITRES[self.volume],
            "pressure": BARS[self.pressure],
            "mass": KILOGRAMS[self.mass],
        }
        return value * factors.get(kind, 1.0)


def choose_units(reader_units: str | None, words: tuple[Raw, Raw, Raw, Raw]) -> Units:
    """Return the units of a line: a word that is blank, or no such unit, is that of the book.

    A book that does not say its units is metric.
    """
    known: tuple[Collection[str], ...] = (LITRES, BARS, DEGREES, KILOGRAMS)
    book = BOOK[reader_units or "metric"]
    rows = zip(words, known, book, strict=True)
    return Units(*(str(word) if word in units else own for word, units, own in rows))
