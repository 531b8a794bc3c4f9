"""The rinse record: one line for each debt of the season, in the order of opening.

All are definitions of this project.
"""

from collections.abc import Sequence
from dataclasses import replace

from builder.reference.entry import BAD
from builder.reference.force import Column, Typed
from builder.reference.log import find_start
from builder.reference.rinsing import (
    NOT_KNOWN,
    WASHES,
    Debt,
    Step,
    ask_rinse,
    list_debts,
    walk_rinses,
)
from builder.reference.units import Raw

START = "start"
COLUMNS = (
    "record_row_n",
    "record_day_d",
    "record_kind",
    "record_product",
    "record_product_kg",
    "record_line_n",
    "record_owed_L",
    "record_done_L",
    "record_cleared_d",
    "record_water",
    "record_initials",
    "record_mended",
    "record_state_n",
)


def record(
    row_begun_n_list: Column,
    row_day_d_list: Column,
    row_event_code_list: Typed,
    row_in_line_n_list: Column,
    row_used_product_kg_list: Typed,
    row_counted_L_list: Column,
    row_water_code_list: Typed,
    log_product_list: Typed,
    log_initials_list: Typed,
    log_mended_list: Typed,
    held_rinse_L_list: Column,
    held_first_L_list: Column,
    season_start: str | None = None,
) -> dict[str, list[Raw]]:
    """Return the record, blank after the last debt: as many lines as the log has rows, and one.

    A day that is not known is blank; the season's start has no day, product, water or initials.
    A debt whose volume nobody knows owes a blank, is not cleared and has a state of its own.
    """
    asked = zip(row_event_code_list, row_in_line_n_list, row_counted_L_list, strict=True)
    steps = [_step(*row, held_rinse_L_list, held_first_L_list) for row in asked]
    begun = zip(row_begun_n_list, row_in_line_n_list, strict=True)
    first_line = int(next((line or 0.0 for flag, line in begun if flag), 0.0))
    start_L = find_start(first_line, held_first_L_list, season_start)
    debts = list_debts(steps, walk_rinses(steps, start_L), start_L)
    columns = (
        row_day_d_list,
        row_event_code_list,
        log_product_list,
        row_used_product_kg_list,
        row_in_line_n_list,
        row_water_code_list,
        log_initials_list,
        log_mended_list,
    )
    origin: tuple[Raw, ...] = (None, START, None, None, float(first_line), None, None, None)
    told = [origin, *zip(*columns, strict=True)]
    held = (held_rinse_L_list, held_first_L_list)
    debts = [_doubt(debt, told[debt.row], *held) for debt in debts]
    lines = [_write(debt, told[debt.row], row_day_d_list) for debt in debts]
    lines += [(None,) * len(COLUMNS)] * (len(steps) + 1 - len(lines))
    return {
        name: list(column) for name, column in zip(COLUMNS, zip(*lines, strict=True), strict=True)
    }


def _step(event: Raw, line_n: float | None, counted_L: float | None, *held: Column) -> Step:
    code = event if isinstance(event, str) else None
    rinse_L, first_L = (column[int(line_n or 0.0)] for column in held)
    return Step(code, ask_rinse(code, rinse_L, first_L), counted_L or 0.0)


def _doubt(debt: Debt, told: Sequence[Raw], *held: Column) -> Debt:
    """Return a debt as it is, or without what hangs on a volume that nobody knows."""
    _, kind, _, _, line_n, *_ = told
    rinse_L, first_L = (column[int(line_n or 0.0)] for column in held)
    if (rinse_L if kind in WASHES else first_L) is not None:
        return debt
    return replace(debt, owed_L=None, cleared=None, state_n=NOT_KNOWN)


def _write(debt: Debt, told: Sequence[Raw], days: Column) -> tuple[Raw, ...]:
    """Return one line of the record."""
    day, kind, product, product_kg, line_n, water, initials, mended = told
    cleared = days[debt.cleared - 1] if debt.cleared else None
    return (
        float(debt.row),
        day or None,
        kind,
        product,
        _keep(product_kg),
        line_n,
        debt.owed_L,
        debt.done_L,
        cleared or None,
        _keep(water),
        initials,
        mended,
        debt.state_n,
    )


def _keep(cell: Raw) -> Raw:
    """Return what a cell says, nothing for one that is not usable."""
    return None if cell == BAD else cell


def paper_volume_n(reader_units: str) -> float:
    """Return the unit of the printed volumes: 1 litre, 2 US gallon, 3 imperial gallon."""
    return {"metric": 1.0, "us": 2.0, "imperial": 3.0}[reader_units]


def paper_mass_n(reader_units: str) -> float:
    """Return the unit of the printed masses: 1 kilogram, 2 pound."""
    return {"metric": 1.0, "us": 2.0, "imperial": 2.0}[reader_units]
