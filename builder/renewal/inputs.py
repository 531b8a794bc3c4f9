"""Inputs and choices of an older workbook, in the units in which they were typed."""

from builder.audit.cases import TYPED, TYPED_UNIT
from builder.audit.inputs import TypedError
from builder.exchange.given import Typed
from builder.renewal.source import Source, quote
from builder.spec.records import Choice, Input, Record, Unit


def read_inputs(source: Source) -> dict[str, Typed]:
    """Return what was typed for each input and choice; what was left blank stays out."""
    given: dict[str, Typed] = {}
    said = {key for former in source.list_former() for key in former.also}
    for name, quantity in source.spec.quantities.items():
        if not isinstance(quantity, Input | Choice):
            continue
        if not source.find(name + TYPED):
            if name in said:
                continue
            source.tell("new", "", name, f"not in the older workbook; {tell_default(quantity)}")
        elif isinstance(quantity, Choice):
            given[name] = read_choice(source, quantity)
        else:
            typed = read_input(source, quantity)
            if not is_untouched(source, quantity, typed):
                given[name] = typed
    return given


def read_choice(source: Source, choice: Choice) -> Typed:
    """Return the code of a choice, none where the cell is blank or says something else."""
    place = source.find(choice.name + TYPED)
    typed = source.read(place, choice.name)
    code = find_code(source, place, choice.name, choice, choice.name) if typed is not None else ""
    return Typed(None, code=code)


def find_code(source: Source, place: str, name: str, quantity: Choice | Record, words: str) -> str:
    """Return the code of the word in a cell, by the workbook's own list or by this edition's."""
    typed = source.reader.shown[place]
    code = source.list_words(words).get(str(typed).casefold(), "")
    try:
        return code if code in quantity.options else source.reader.read_choice(quantity, typed)
    except TypedError as error:
        source.drop(place, name, f"{error}; left blank")
        return ""


def read_input(source: Source, quantity: Input) -> Typed:
    """Return number and unit of an input; no number where it cannot be used."""
    name, canonical = quantity.name, source.spec.units[quantity.unit]
    place, unit_place = source.find(name + TYPED), source.find(name + TYPED_UNIT)
    unit = find_unit(source, canonical, name, unit_place)
    typed = source.read(place, name)
    if typed is None:
        number = None
    elif not isinstance(typed, float):
        source.drop(place, name, "not a number; left blank")
        number = None
    elif unit is None:
        source.drop(place, name, "its unit is not known; left blank")
        number = None
    else:
        number = typed
    found = Typed(number, unit=(unit or default_unit(source, quantity)).key)
    if number is not None:
        judge_limits(source, quantity, found, place)
    return found


def find_unit(source: Source, canonical: Unit, name: str, unit_place: str) -> Unit | None:
    """Return the unit beside a number or over a column, None where it is blank or unknown."""
    if unit_place and source.read(unit_place, name + TYPED_UNIT) is None:
        return None
    try:
        return source.reader.find_unit(canonical, unit_place)
    except TypedError as error:
        source.drop(unit_place, name + TYPED_UNIT, str(error))
        return None


def default_unit(source: Source, quantity: Input | Record) -> Unit:
    """Return the unit that the older workbook showed at first."""
    units = source.spec.units
    return units[units[quantity.unit].reader[source.units]]


def is_untouched(source: Source, quantity: Input, typed: Typed) -> bool:
    """Tell whether an input is blank beside the unit that stood there at first."""
    return typed.number is None and typed.unit == default_unit(source, quantity).key


def judge_limits(source: Source, quantity: Input, typed: Typed, place: str) -> None:
    """Tell where an input lies outside its limits."""
    try:
        source.reader.read_number(quantity, typed.number, source.find(quantity.name + TYPED_UNIT))
    except TypedError as error:
        number = f"{typed.number:.12g} {typed.unit}".removesuffix(" n")
        text = f"{number}, carried as it is: {error}"
        source.tell("outside", place, quantity.name, text)


def tell_default(quantity: Input | Choice) -> str:
    """Return what this edition makes of a blank one."""
    if isinstance(quantity, Choice):
        return f"usual is {quote(quantity.usual)}"
    if quantity.usual is None:
        return "nothing is usual"
    unit = "" if quantity.unit == "n" else f" {quantity.unit}"
    return f"usual is {quantity.usual:.12g}{unit}"
