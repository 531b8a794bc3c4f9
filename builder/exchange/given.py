"""Judges one entry of a machine file's [given] and keeps it in the unit in which it was typed."""

import json
import math
import re
from dataclasses import dataclass

from builder.problems import suggest
from builder.spec.conversion import list_units, to_canonical
from builder.spec.records import Check, Choice, Constant, Grid, Input, Limits, Record, Result
from builder.spec.specification import Spec

NUMBER = re.compile(r"[+-]?[0-9]+(\.[0-9]*)?([eE][+-]?[0-9]+)?")
GLUED = re.compile(r"([+-]?[0-9.]+)([^0-9.,\s/'\"-].*)")
ROUNDING = 1e-12  # conversion alone may put a typed limit, such as 140 degF, this far outside
SHOWN = 60
KINDS = {
    Result: "a result, which is worked out",
    Check: "a check, which is worked out",
    Constant: "a constant of the program",
    Grid: "a block of working rows",
    Record: "a column of working rows",
}


@dataclass(frozen=True, slots=True)
class Typed:
    """What somebody typed: a number in its unit, or the code of a choice."""

    number: float | None
    code: str = ""
    unit: str = ""


class RefusalError(Exception):
    """Says why one entry cannot be used, and what to write instead."""

    def __init__(self, code: str, text: str, remedy: str) -> None:
        """Keep the three parts of the later problem."""
        super().__init__(text)
        self.code, self.text, self.remedy = code, text, remedy


def read_given(name: str, value: object, spec: Spec) -> Typed:
    """Return what was typed for an input or a choice; raise RefusalError if it cannot be."""
    quantity = spec.quantities.get(name)
    if isinstance(quantity, Choice):
        return read_choice(quantity, value)
    if isinstance(quantity, Input):
        typed = read_number(quantity, value, spec)
        judge_number(quantity, typed, value, spec)
        return typed
    remedy = "`rinsebook explain NAME` tells what a name means; examples/ shows them in use."
    if quantity is not None:
        text = f"is {KINDS[type(quantity)]}, not an input; found {show(value)}."
        raise RefusalError("not-an-input", text, "Remove this line, or give the inputs behind it.")
    known = [key for key, q in spec.quantities.items() if isinstance(q, Input | Choice)]
    text = f"no input has this name; found {show(value)}.{suggest(name, known)}"
    raise RefusalError("unknown-name", text, remedy)


def read_choice(quantity: Choice, value: object) -> Typed:
    """Return the code of a choice."""
    if isinstance(value, str) and value in quantity.options:
        return Typed(None, code=value)
    options = ", ".join(quantity.options)
    near = suggest(value, quantity.options) if isinstance(value, str) else ""
    remedy = f'Write one of them in quotes, as "{quantity.usual}".'
    raise RefusalError("unknown-choice", f"{show(value)} is not one of {options}.{near}", remedy)


def read_number(quantity: Input, value: object, spec: Spec) -> Typed:
    """Return the number and its unit; a bare number is in the canonical unit."""
    if isinstance(value, str):
        return read_text(quantity, value, spec)
    if isinstance(value, int | float) and not isinstance(value, bool):
        try:
            return Typed(float(value), unit=quantity.unit)
        except OverflowError:
            return Typed(math.inf, unit=quantity.unit)
    text = f"expected a number or a text with number and unit, found {show(value)}."
    raise RefusalError("wrong-type", text, say_how(quantity, spec))


def read_text(quantity: Input, text: str, spec: Spec) -> Typed:
    """Return number and unit of a text such as `8 in`."""
    shown = show(text)
    number, _, unit = " ".join(text.split()).partition(" ")
    how = say_how(quantity, spec)
    if not number:
        how = f"{how} Leave the line out where nobody knows it."
        raise RefusalError("empty-text", f"{shown} holds nothing.", how)
    if "," in number:
        shape = sample(quantity, spec)
        how = f'Use a point as decimal sign and nothing between thousands, as "{shape}".'
        raise RefusalError("comma", f"the number in {shown} has a comma.", how)
    if not NUMBER.fullmatch(number) and (glued := GLUED.fullmatch(number)):
        how = f'Put a space between number and unit: "{" ".join((*glued.groups(), unit)).strip()}".'
        raise RefusalError("no-space", f"number and unit of {shown} stand together.", how)
    if not NUMBER.fullmatch(number) or unit[:1].isdigit():
        how = f"{how} Write fractions as decimals: 8.125, not 8 1/8."
        raise RefusalError("bad-number", f"{shown} does not begin with one plain number.", how)
    judge_unit(quantity, unit, shown, spec)
    return Typed(float(number), unit=unit)


def judge_unit(quantity: Input, unit: str, shown: str, spec: Spec) -> None:
    """Refuse no unit, an unknown one, or one of another dimension."""
    how = say_how(quantity, spec)
    canonical = spec.units[quantity.unit]
    if not unit:
        raise RefusalError("missing-unit", f"{shown} has no unit.", how)
    if unit not in spec.units:
        text = f"unit {show(unit)} in {shown} is unknown.{suggest_unit(unit, quantity, spec)}"
        raise RefusalError("unknown-unit", text, how)
    dimension = spec.units[unit].dimension
    if dimension != canonical.dimension:
        text = f"{unit} in {shown} is a unit of {dimension}, not of {canonical.dimension}."
        raise RefusalError("wrong-unit", text, how)


def suggest_unit(word: str, quantity: Input, spec: Spec) -> str:
    """Return the unit that a word may mean; a word that fits two gallons gets no guess."""
    fitting = list_units(spec.units[quantity.unit], spec.units)
    lower = word.lower().rstrip(".")
    for unit in fitting:
        words = (unit.key, *unit.symbol.words.values())
        if lower in [known.lower().rstrip(".") for known in words]:
            return f" Did you mean {unit.key}?"
    kinds = [unit.key for unit in fitting if "_" in unit.key]
    begun = [key for key in kinds if lower.startswith(key.partition("_")[0])]
    if len(begun) > 1:
        return f" It may be {' or '.join(begun)}."
    return suggest(word, [unit.key for unit in fitting])


def judge_number(quantity: Input, typed: Typed, value: object, spec: Spec) -> None:
    """Refuse what is no finite number, no whole number of pieces, or outside the limits."""
    unit = "" if quantity.unit == "n" else f" {quantity.unit}"
    low, high = f"{quantity.limits.min:.12g}", f"{quantity.limits.max:.12g}"
    how = f"Give a number from {low} to {high}{unit}."
    if typed.number is None or not math.isfinite(typed.number):
        raise RefusalError("not-finite", f"{show(value)} is not a finite number.", how)
    if is_count(quantity) and not typed.number.is_integer():
        how = f"Give a whole number from {low} to {high}."
        raise RefusalError("not-whole", f"{show(value)} is not a whole number.", how)
    number = convert(typed, quantity, spec)
    if not quantity.limits.min <= number <= quantity.limits.max:
        text = f"{show(value)}{unit} is" if not isinstance(value, str) else f"{show(value)} is"
        text += f" {number:.12g}{unit}," if typed.unit != quantity.unit else ""
        raise RefusalError("outside-limits", f"{text} outside {low} to {high}{unit}.", how)


def convert(typed: Typed, quantity: Input, spec: Spec) -> float:
    """Return what was typed in the canonical unit; rounding never carries it over a limit."""
    if typed.number is None:
        return math.nan
    number = to_canonical(typed.number, spec.units[typed.unit], spec.units[quantity.unit])
    return snap(number, quantity.limits)


def snap(number: float, limits: Limits) -> float:
    """Return the limit itself where only the rounding of a conversion lies beyond it."""
    nearest = min(max(number, limits.min), limits.max)
    return nearest if math.isclose(number, nearest, rel_tol=ROUNDING) else number


def is_count(quantity: Input) -> bool:
    """Tell whether an input counts pieces."""
    whole = quantity.limits.min.is_integer() and quantity.limits.max.is_integer()
    return quantity.whole or (quantity.unit == "n" and quantity.digits == 0 and whole)


def sample(quantity: Input, spec: Spec) -> str:
    """Return an example of number and unit for a message: that of the worked case."""
    worked = spec.worked.given.get(quantity.name, quantity.usual)
    number = worked if isinstance(worked, int | float) else quantity.limits.min
    return f"{number:.12g} {quantity.unit}"


def say_how(quantity: Input, spec: Spec) -> str:
    """Return what may be written for an input."""
    if is_count(quantity):
        return "Write a whole number, without quotes."
    keys = [unit.key for unit in list_units(spec.units[quantity.unit], spec.units)]
    if len(keys) == 1:
        return "Write a number, without quotes."
    text = f'Write a number in {quantity.unit}, or a text such as "{sample(quantity, spec)}"'
    return f"{text}; units: {', '.join(keys)}."


def show(value: object) -> str:
    """Return a value as the file has it, cut where it is long, without unprintable signs."""
    if isinstance(value, float):
        return str(value)
    try:
        text = json.dumps(value, ensure_ascii=False, default=str)
    except ValueError:
        return "a number of thousands of digits"
    except RecursionError:
        return "brackets inside brackets without end"
    plain = "".join(c if c.isprintable() else f"\\u{ord(c):04x}" for c in text)
    return plain if len(plain) <= SHOWN else f"{plain[:SHOWN]}…"
