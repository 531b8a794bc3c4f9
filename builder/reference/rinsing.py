"""What is still to rinse, row by row, and the debts that a season opens.

All are definitions of this project.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

ALKALINE, ACID, FIRST, RINSE = "alkaline", "acid", "first", "rinse"
RUN, TEST, STORAGE, REPLACEMENT = "run", "test", "storage", "replacement"
EVENTS = (RUN, RINSE, ALKALINE, ACID, FIRST, TEST, STORAGE, REPLACEMENT)
WASHES = (ALKALINE, ACID)
COUNTING = (RINSE, FIRST, ALKALINE, ACID, REPLACEMENT)  # a rinse volume counts in their rows
SAP_FIRST, ENOUGH, MADE_GOOD, CARRIED_ON, OWES = 1.0, 2.0, 3.0, 4.0, 5.0  # states of a debt
NOT_KNOWN = 6.0  # the state of one whose volume nobody knows
# share of what stood up to which nothing is left: a conversion of units leaves about 1e-16,
# and no meter tells a millilitre in a thousand cubic metres
ROUNDING_FRAC = 1e-9


@dataclass(frozen=True, slots=True)
class Step:
    """One row as the rinse sees it: what its event asks (None: nothing), and what was rinsed."""

    event: str | None
    asked_L: float | None
    counted_L: float


@dataclass(frozen=True, slots=True)
class Stand:
    """What is still to rinse: above a row, once its debt is opened, and after its rinse."""

    above_L: float
    opened_L: float
    left_L: float


@dataclass(frozen=True, slots=True)
class Debt:
    """One debt: its row (0 the season's start), what it owed, was given, and how it ended.

    What nobody knows is None.
    """

    row: int
    owed_L: float | None
    done_L: float
    cleared: int | None
    state_n: float


def ask_rinse(event: str | None, rinse_L: float | None, first_L: float | None) -> float | None:
    """Return what an event asks: a wash its rinse, storage and replacement a first rinse.

    None for an event that opens no debt; a volume that nobody knows asks for nothing.
    """
    if event in WASHES:
        return rinse_L or 0.0
    return first_L or 0.0 if event in {STORAGE, REPLACEMENT} else None


def count_rinse(event: str | None, volume_L: float | None) -> float:
    """Return the volume that counts: in rows of a rinse, a wash or a replacement, else 0."""
    return volume_L or 0.0 if event in COUNTING else 0.0


def take_off(stood_L: float, counted_L: float) -> float:
    """Return what is left: never below 0, and 0 within 1e-9 of what stood."""
    left_L = stood_L - counted_L
    return left_L if left_L > ROUNDING_FRAC * stood_L else 0.0


def walk_rinses(steps: Sequence[Step], start_L: float) -> list[Stand]:
    """Return what is still to rinse in every row: first the debt opens, then the rinse counts.

    A debt does not add to what stands: the larger of the two stays.
    """
    stands: list[Stand] = []
    left_L = start_L
    for step in steps:
        above_L = left_L
        opened_L = above_L if step.asked_L is None else max(above_L, step.asked_L)
        left_L = take_off(opened_L, step.counted_L)
        stands.append(Stand(above_L, opened_L, left_L))
    return stands


def list_debts(steps: Sequence[Step], stands: Sequence[Stand], start_L: float) -> list[Debt]:
    """Return the debts in the order of opening; the season's start is one if it owes something."""
    opened = [0] if start_L > 0.0 else []
    opened += [row for row, step in enumerate(steps, start=1) if step.asked_L is not None]
    last = [*(row - 1 for row in opened[1:]), len(steps)]
    return [
        _follow(row, end, row == opened[-1], steps, stands, start_L)
        for row, end in zip(opened, last if opened else [], strict=True)
    ]


def _follow(
    row: int,
    end: int,
    newest: bool,  # noqa: FBT001 a fact of the debt
    steps: Sequence[Step],
    stands: Sequence[Stand],
    start_L: float,
) -> Debt:
    """Return one debt, followed from its row to where it was cleared, or to its last row."""
    span = range(max(row, 1), end + 1)
    cleared = next((n for n in span if stands[n - 1].left_L == 0.0), None)
    lived = span if cleared is None else range(span.start, cleared + 1)
    breach = any(steps[n - 1].event == RUN and stands[n - 1].left_L > 0.0 for n in lived)
    if breach:
        state_n = SAP_FIRST
    elif cleared is not None:
        state_n = ENOUGH if cleared == row else MADE_GOOD
    else:
        state_n = OWES if newest else CARRIED_ON
    owed_L = stands[row - 1].opened_L if row else start_L
    done_L = math.fsum(steps[n - 1].counted_L for n in lived)
    return Debt(row, owed_L, done_L, cleared, state_n)
