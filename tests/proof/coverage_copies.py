"""Oracles of the cells that show a value once more: answers, cards, readers' units, identity."""

from workbook.files import Cell, Value

from builder.spec.pages import Block
from builder.spec.records import Choice, Input, Result, Tolerance
from proof.coverage_scene import (
    LABEL,
    READER,
    READER_UNIT,
    STATE,
    TYPED,
    Scene,
    Sight,
    Wanted,
    convert,
)

IDENTITY = ("machine_title", "producer", "site")
KEY_STATES = ("ok", "look", "stop", "missing", "none")


def want_copies(scene: Scene, wanted: dict[Cell, Wanted]) -> Sight:
    """Yield what stands beside results, and what repeats them on other sheets."""
    for name, quantity in scene.spec.quantities.items():
        if isinstance(quantity, Result):
            title, row, _ = scene.file.cell(name)
            yield from want_beside(scene, title, row, name)
    for sheet in scene.spec.sheets:
        title = sheet.title.pick(scene.lang)
        for block in sheet.blocks:
            if block.kind == "answers":
                yield from want_answers(scene, title, block)
            elif block.kind == "card":
                yield from want_card(scene, title, block)
            elif block.kind == "bearer":
                yield from want_bearer(scene, title)
            elif block.kind == "about":
                yield from want_key(scene, title)
        yield from want_top(scene, title, wanted)


def want_top(scene: Scene, title: str, wanted: dict[Cell, Wanted]) -> Sight:
    """Yield master check and first input to mend at the top of a sheet."""
    for key, name in (("all_checks", "master_state"), ("mend_first", "mend_first_txt")):
        row = scene.find_run(title, [scene.word(key)])
        shown = wanted[scene.file.cell(name)].value
        for cell in ((title, row, col) for col in range(LABEL + 1, STATE)):
            if cell in scene.file.formulas:
                yield cell, Wanted(shown, "oracle: top of a sheet")


def want_bearer(scene: Scene, title: str) -> Sight:
    """Yield which machine this is."""
    row = scene.find_run(title, [scene.word(key) for key in IDENTITY])
    for step, key in enumerate(IDENTITY):
        typed = scene.held.get(scene.file.cell(f"{key}_typed"))
        yield (title, row + step, TYPED), Wanted(typed, "oracle: identity")


def want_key(scene: Scene, title: str) -> Sight:
    """Yield the words of the verdicts beside what they mean."""
    for key in KEY_STATES:
        row = scene.find_run(title, [scene.word(f"key_{key}")])
        yield (title, row, TYPED), Wanted(scene.word(key), "oracle: key")


def want_answers(scene: Scene, title: str, block: Block) -> Sight:
    """Yield the values of a block that repeats what is worked out elsewhere."""
    row = scene.find_run(title, [scene.label(name) for name in block.rows])
    for step, name in enumerate(block.rows):
        yield from want_repeat(scene, (title, row + step, TYPED), name)
        yield from want_beside(scene, title, row + step, name)


def want_card(scene: Scene, title: str, block: Block) -> Sight:
    """Yield the numbers beside the steps of a card."""
    steps = [f"{n}.  {step.text.pick(scene.lang)}" for n, step in enumerate(block.steps, start=1)]
    row = scene.find_run(title, steps)
    for number, step in enumerate(block.steps):
        if step.show:
            yield from want_repeat(scene, (title, row + number, TYPED), step.show)
            yield from want_reader(scene, title, row + number, step.show)


def want_repeat(scene: Scene, cell: Cell, name: str) -> Sight:
    """Yield one value, or the word of a choice."""
    value, tolerance = scene.value(name)
    if isinstance(scene.spec.quantities[name], Choice):
        value = scene.option(name)
    elif value is None and isinstance(scene.spec.quantities[name], Input):
        tolerance = None
    yield cell, Wanted(value, "oracle: copy", tolerance)


def want_beside(scene: Scene, title: str, row: int, name: str) -> Sight:
    """Yield what stands in a result's row: its word, its value for the reader, its state."""
    quantity = scene.spec.quantities[name]
    value, _ = scene.value(name)
    if isinstance(quantity, Result):
        if quantity.words:
            word = quantity.words[int(value) - 1] if isinstance(value, float) else None
            picked = word.pick(scene.lang) if word else None
            yield (title, row, READER), Wanted(picked, "oracle: word of a result")
        yield (title, row, STATE), Wanted(state(scene, quantity, value), "oracle: state")
    yield from want_reader(scene, title, row, name)


def state(scene: Scene, quantity: Result, value: Value) -> Value:
    """Return the word beside a result."""
    if quantity.check:
        return scene.word(str(scene.season.values[quantity.check]))
    if value is not None:
        return None
    return scene.word("none" if quantity.name in scene.ground.waiting else "missing")


def want_reader(scene: Scene, title: str, row: int, name: str) -> Sight:
    """Yield a value in the unit that the reader has chosen, and that unit."""
    quantity, units = scene.spec.quantities[name], scene.spec.units
    if not quantity.unit or set(units[quantity.unit].reader.values()) <= {quantity.unit}:
        return
    canonical = units[quantity.unit]
    system = scene.season.values["reader_units"]
    unit = units[canonical.reader[str(system)]] if system else None
    value, tolerance = scene.value(name)
    shown = convert(value, canonical, unit) if unit and isinstance(value, float) else None
    if unit and tolerance:
        scale = float(canonical.factor / unit.factor)
        tolerance = Tolerance(tolerance.abs * scale, tolerance.rel, tolerance.why)
    yield (title, row, READER), Wanted(shown, "oracle: reader's value", tolerance)
    symbol = unit.symbol.pick(scene.lang) if unit else None
    yield (title, row, READER_UNIT), Wanted(symbol, "oracle: reader's unit")
