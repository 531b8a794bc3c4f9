"""Reads typed cells back: into the canonical unit, or with a warning why that cannot be."""

import math
from dataclasses import dataclass

from builder.audit.cases import Case, Entry
from builder.audit.findings import Finding
from builder.audit.normalization import CellValue
from builder.calculation import Value
from builder.spec.conversion import list_units, to_canonical
from builder.spec.records import Choice, Input, Record, Unit
from builder.spec.specification import Spec

LAST_DIGIT = 1e-14


class TypedError(Exception):
    """What was typed cannot be used; the message says why."""


@dataclass(frozen=True, slots=True)
class Reader:
    """Reads typed cells of one workbook in one language."""

    spec: Spec
    lang: str
    shown: dict[str, CellValue]

    def read(self, case: Case) -> tuple[dict[str, Value], list[Finding]]:
        """Return the value of each input of a case, None where unusable, and the warnings.

        A blank one of which something is usual is left out.
        """
        given: dict[str, Value] = {}
        warnings: list[Finding] = []
        for entry in case.entries:
            name = entry.quantity.name
            if self.shown.get(entry.cell) is None and entry.quantity.usual is not None:
                continue
            try:
                given[name] = self.read_entry(entry)
            except TypedError as error:
                given[name] = None
                warnings.append(Finding(entry.cell, name, str(error)))
        return given, warnings

    def read_entry(self, entry: Entry) -> Value:
        """Return one input; raise TypedError where it cannot be used."""
        typed = self.shown.get(entry.cell)
        if isinstance(entry.quantity, Choice):
            return self.read_choice(entry.quantity, typed)
        return self.read_number(entry.quantity, typed, entry.unit_cell)

    def read_choice(self, choice: Choice | Record, typed: CellValue) -> str:
        """Return the code of a chosen word."""
        for code, words in choice.options.items():
            if isinstance(typed, str) and typed.casefold() in {
                code,
                words.pick(self.lang).casefold(),
            }:
                return code
        known = ", ".join(words.pick(self.lang) for words in choice.options.values())
        raise TypedError(f"choice, found {tell(typed)}, expected {known}")

    def read_number(self, quantity: Input, typed: CellValue, unit_cell: str) -> float | None:
        """Return a number in the canonical unit; an optional one may be blank."""
        canonical = self.spec.units[quantity.unit]
        low, high = quantity.limits.min, quantity.limits.max
        whole = "whole, " if quantity.whole else ""
        limits = f"{whole}{low:g} to {high:g} {self.sign(canonical)}"
        if typed is None and quantity.optional:
            return None
        if not isinstance(typed, float):
            raise TypedError(f"typed value, found {tell(typed)}, expected a number, {limits}")
        unit = self.find_unit(canonical, unit_cell)
        value = settle(to_canonical(typed, unit, canonical), (low, high))
        if not low <= value <= high or (quantity.whole and not value.is_integer()):
            also = "" if unit is canonical else f" = {value:.6g} {self.sign(canonical)}"
            found = f"{typed:.12g} {self.sign(unit)}{also}"
            raise TypedError(f"typed value, found {found}, expected {limits}")
        return value

    def find_unit(self, canonical: Unit, unit_cell: str) -> Unit:
        """Return the unit beside a typed number; drop-downs match without regard to case."""
        if not unit_cell:
            return canonical
        found = self.shown.get(unit_cell)
        known = list_units(canonical, self.spec.units)
        for unit in known:
            if isinstance(found, str) and found.casefold() == self.sign(unit).casefold():
                return unit
        words = ", ".join(self.sign(unit) for unit in known)
        raise TypedError(f"unit, found {tell(found)} in {unit_cell}, expected {words}")

    def sign(self, unit: Unit) -> str:
        """Return a unit's symbol as the workbook shows it."""
        return unit.symbol.pick(self.lang)


def settle(value: float, limits: tuple[float, float]) -> float:
    """Return the limit where a converted number differs from it only in what no program compares.

    Spreadsheet programs compare 15 digits: 140 degF is 60 degC to them, whatever the last bit says.
    """
    near = (limit for limit in limits if math.isclose(value, limit, rel_tol=LAST_DIGIT))
    return next(near, value)


def tell(value: CellValue) -> str:
    """Return what was typed, for messages."""
    if isinstance(value, str):
        return f"text {value!r}"
    return "nothing" if value is None else str(value)
