"""Oracles of the cells that the generator writes itself round inputs, units and verdicts.

They go out from what is typed and from the specs: fractions for factors, words for words.
"""

from collections.abc import Iterator

from workbook.files import Cell, Value

from builder.spec.records import Check, Choice, Grid, Input, Quantity, Result, Unit
from proof.coverage_columns import want_columns
from proof.coverage_copies import want_copies
from proof.coverage_passes import want_passes
from proof.coverage_scene import (
    CONVERTED,
    LABEL,
    STATE,
    UNIT,
    Scene,
    Sight,
    Wanted,
    convert,
)

BAD = ("missing", "text", "range", "unit")
VERDICTS = ("ok", "look", "stop", "missing", "none")
DECIMALS = 9  # a limit that is passed by less than this is not passed


def want_all(scene: Scene) -> dict[Cell, Wanted]:
    """Return what every cell should show for which the reference or an oracle has a say."""
    wanted: dict[Cell, Wanted] = {}
    for sight in (want_inputs, want_values, want_units, want_columns, want_passes):
        wanted |= dict(sight(scene))
    wanted |= dict(want_master(scene, wanted))
    wanted |= dict(want_copies(scene, wanted))
    return wanted


def want_values(scene: Scene) -> Sight:
    """Yield results and verdicts by their references."""
    for name, quantity in scene.spec.quantities.items():
        if isinstance(quantity, Check):
            word = scene.word(str(scene.season.values[name]))
            yield scene.file.cell(name), Wanted(word, "reference")
        elif isinstance(quantity, Result):
            value, tolerance = scene.value(name)
            yield scene.file.cell(name), Wanted(value, "reference", tolerance)


def want_inputs(scene: Scene) -> Sight:
    """Yield value used, state and converted value of each input and choice."""
    for name, quantity in scene.spec.quantities.items():
        if not isinstance(quantity, Input | Choice):
            continue
        title, row, _ = scene.file.cell(f"{name}_typed")
        converted, state = read_input(scene, quantity)
        used = converted if state == "ok" else None
        if isinstance(quantity, Input) and isinstance(used, float):
            used = max(quantity.limits.min, min(quantity.limits.max, used))
        yield (title, row, CONVERTED), Wanted(converted, "oracle: converted value")
        yield (title, row, STATE), Wanted(scene.word(state), "oracle: state")
        yield scene.file.cell(name), Wanted(used, "oracle: value used")


def read_input(scene: Scene, quantity: Input | Choice) -> tuple[Value, str]:
    """Return the canonical value of what is typed, and the state that it deserves."""
    title, row, col = scene.file.cell(f"{quantity.name}_typed")
    typed = scene.held.get((title, row, col))
    if isinstance(quantity, Choice):
        known = {text.pick(scene.lang): code for code, text in quantity.options.items()}
        code = known.get(str(typed), typed if typed in quantity.options else None)
        return code, "ok" if code else "missing" if typed is None else "range"
    if not isinstance(typed, float):
        empty = "none" if quantity.optional else "missing"
        return None, empty if typed is None else "text"
    canonical = scene.spec.units[quantity.unit]
    unit = scene.find_unit(scene.held.get((title, row, UNIT)), canonical)
    if unit is None:
        return None, "unit"
    number = convert(typed, unit, canonical)
    low = round(quantity.limits.min - number, DECIMALS)
    high = round(number - quantity.limits.max, DECIMALS)
    odd = quantity.whole and number != int(number)
    return number, "range" if low > 0 or high > 0 or odd else "ok"


def want_units(scene: Scene) -> Sight:
    """Yield the reader's units with their factors, and the factors of typed columns."""
    units, names = scene.spec.units, scene.file.names
    system = scene.season.values["reader_units"]
    for canonical in units.values():
        key = f"reader_{canonical.suffix}"
        if f"{key}_symbol_txt" in names:
            unit = units[canonical.reader[str(system)]] if system else None
            symbol = unit.symbol.pick(scene.lang) if unit else None
            yield scene.file.cell(f"{key}_symbol_txt"), Wanted(symbol, "oracle: reader's unit")
            yield from want_factors(scene, key, unit, canonical, None)
    for name, quantity in list_columns(scene):
        canonical = units[quantity.unit]
        unit = scene.find_unit(scene.held.get(scene.file.cell(f"{name}_typed_unit")), canonical)
        yield from want_factors(scene, name, unit, canonical, scene.word("unit"))


def want_factors(
    scene: Scene, key: str, unit: Unit | None, canonical: Unit, unknown: Value
) -> Sight:
    """Yield factor and offset from a unit to the canonical one: by exact fractions."""
    zero = convert(0.0, unit, canonical) if unit else unknown
    step = float(unit.factor / canonical.factor) if unit else unknown
    yield scene.file.cell(f"{key}_factor_n"), Wanted(step, "oracle: unit factor")
    yield scene.file.cell(f"{key}_offset_n"), Wanted(zero, "oracle: unit factor")


def list_columns(scene: Scene) -> Iterator[tuple[str, Quantity]]:
    """Yield the typed columns whose unit can be chosen, by the names of their headings."""
    for name, grid in scene.spec.quantities.items():
        for column in grid.columns if isinstance(grid, Grid) else []:
            if f"{name}_{column}_typed_unit" in scene.file.names:
                yield f"{name}_{column}", scene.spec.quantities[column]


def want_master(scene: Scene, wanted: dict[Cell, Wanted]) -> Sight:
    """Yield the counts of states, the master check, and what to mend first."""
    file = scene.file
    checks = [q.name for q in scene.spec.quantities.values() if isinstance(q, Check)]
    verdicts = [str(scene.season.values[name]) for name in checks]
    blocks = list_blocks(scene, "input_states_")
    flat = [str(state) for block in blocks for state, _ in list_states(scene, block, wanted)]
    counts = {f"inputs_{key}_n": float(flat.count(scene.word(key))) for key in BAD}
    bad = sum(counts.values())
    counts |= {f"checks_{key}_n": float(verdicts.count(key)) for key in VERDICTS[1:]}
    counts |= {"inputs_bad_n": bad, "checks_n": float(len(checks))}
    for name, count in counts.items():
        yield file.cell(name), Wanted(count, "oracle: count of states")
    master = "missing" if bad or "missing" in verdicts else "look" if "look" in verdicts else "ok"
    master = "stop" if "stop" in verdicts else master
    yield file.cell("master_state"), Wanted(scene.word(master), "oracle: master check")
    firsts = {f"first_{key}_txt": find_first(scene, "input", key, wanted) for key in BAD}
    firsts["stop_first_txt"] = find_first(scene, "check", "stop", wanted)
    mend = [label for label in firsts.values() if label] or [scene.word("nothing_to_mend")]
    for name, label in {**firsts, "mend_first_txt": mend[0]}.items():
        yield file.cell(name), Wanted(label, "oracle: first to mend")


def list_blocks(scene: Scene, prefix: str) -> list[str]:
    """Return the names of the blocks of states, in the order of the sheets."""
    count = sum(name.startswith(prefix) for name in scene.file.names)
    return [f"{prefix}{number}" for number in range(1, count + 1)]


def list_states(scene: Scene, block: str, wanted: dict[Cell, Wanted]) -> list[tuple[Value, str]]:
    """Return the states of a block, each with the label beside it."""
    return [
        (wanted[cell].value, str(scene.held[cell[0], cell[1], LABEL]))
        for cell in scene.file.names[block]
        if cell in wanted
    ]


def find_first(scene: Scene, kind: str, key: str, wanted: dict[Cell, Wanted]) -> str | None:
    """Return the label of the first state that is a word, in the order of the sheets."""
    for block in list_blocks(scene, f"{kind}_states_"):
        for state, label in list_states(scene, block, wanted):
            if state == scene.word(key):
                return label
    return None
