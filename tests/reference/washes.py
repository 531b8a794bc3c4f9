"""A wash by weight, as tests state it, and what the references make of it."""

from dataclasses import dataclass
from functools import cached_property

from builder.reference import composition, ph, strip
from tests.reference.chemistry_cases import Case

Totals = tuple[float, float, float]


def dissolve(case: Case) -> tuple[float, float, float, float]:
    """Return mol/L of NaOH, Na2CO3, Na2SiO3 and Na4EDTA."""
    label = composition.LABEL, case["strength"]
    return (
        composition.naoh_molpL(*label, case["naoh"]),
        composition.carbonate_molpL(*label, case["carbonate"]),
        composition.silicate_molpL(*label, case["silicate"]),
        composition.edta_molpL(*label, case["edta"]),
    )


@dataclass
class Wash:
    """A wash of known alkali, at a temperature."""

    alkali: float
    totals: Totals
    temp: float

    @classmethod
    def by_label(cls, case: Case, temp: str = "wash_temp") -> "Wash":
        salts = dissolve(case)
        return cls(composition.label_alkali_eqpL(*salts), salts[1:], case[temp])

    @classmethod
    def by_reading(cls, case: Case) -> "Wash":
        totals = dissolve(case)[1:]
        alkali = composition.fresh_alkali_eqpL(case["own_pH"], case["own_temp"], *totals)
        return cls(alkali, totals, case["wash_temp"])

    @property
    def stuff(self) -> tuple[float, float, float, float]:
        return (self.alkali, *self.totals)

    @cached_property
    def start(self) -> float:
        return ph.wash_start_pH(*self.stuff, self.temp)

    @property
    def state(self) -> tuple[float, float, float, float, float]:
        return (*self.stuff, self.temp)

    def find_strip(self, pH: float, temp: float) -> tuple[float, float, float]:
        """Return the parabola of the solution that has a pH at a temperature."""
        need = ph.floor_alkali_eqpL(*self.stuff, temp, pH)
        state = (need, *self.totals, self.alkali, pH, temp)
        return strip.node_pH(*state), strip.rise_pK(*state), strip.bend_pK2(*state)
