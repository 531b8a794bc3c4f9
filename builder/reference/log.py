"""One row of the season log: what it owes, what it lacks, what is wrong with it.

All are definitions of this project. A flag is 1 or 0; events are codes.
"""

from fractions import Fraction

from builder.reference.comparison import round_compared

ALKALINE, ACID, FIRST = "alkaline", "acid", "first"
WASHES = (ALKALINE, ACID)
OWING = (*WASHES, FIRST)  # events after which a rinse is owed
OK, LOOK, STOP, MISSING = 1.0, 2.0, 3.0, 4.0  # ranks of a row
# share of what is owed up to which nothing is missing: a conversion of units leaves about 1e-16,
# and no meter tells a millilitre in a thousand cubic metres
ROUNDING_FRAC = 1e-9


def owing_n(event: str) -> float:
    """Return the flag of a rinse owed after the event: alkaline, acid or first."""
    return float(event in OWING)


def alkaline_n(event: str) -> float:
    """Return the flag of an alkaline wash."""
    return float(event == ALKALINE)


def entry_n(owing_n: float | None = None, prior_n: float | None = None) -> float:
    """Return the running number of the rows that owe a rinse: that of the row before plus flag."""
    return (prior_n or 0.0) + (owing_n or 0.0)


def top_margin_pH(
    begin_pH: float, ceiling_pH: float, alkaline_n: float, day_ceiling_pH: float | None = None
) -> float:
    """Return how far the wash starts below the ceiling: the day's, else today's, less reading.

    No answer but for an alkaline wash.
    """
    if not alkaline_n:
        raise ValueError(f"alkaline_n = {alkaline_n} n: no alkaline wash, no margin to the ceiling")
    return (ceiling_pH if day_ceiling_pH is None else day_ceiling_pH) - begin_pH


def low_margin_pH(
    finish_pH: float, floor_pH: float, alkaline_n: float, day_floor_pH: float | None = None
) -> float:
    """Return how far the wash ends above the floor: reading less the day's, else today's.

    No answer but for an alkaline wash.
    """
    if not alkaline_n:
        raise ValueError(f"alkaline_n = {alkaline_n} n: no alkaline wash, no margin to the floor")
    return finish_pH - (floor_pH if day_floor_pH is None else day_floor_pH)


def owed_L(
    event: str,
    rinse_owed_L: float,
    first_rinse_owed_L: float,
    holdup_adopted_L: float,
    rinse_factor_n: float,
    day_owed_L: float | None = None,
    day_holdup_L: float | None = None,
    day_factor_n: float | None = None,
) -> float:
    """Return the rinse that the row owes: the day's, else today's for its event.

    A wash with a hold-up or a factor of the day owes hold-up x factor, today's for a missing one.
    """
    if event not in OWING:
        raise ValueError(f"{event} owes no rinse")
    if day_owed_L is not None:
        return day_owed_L
    if event == FIRST:
        return first_rinse_owed_L
    if day_holdup_L is None and day_factor_n is None:
        return rinse_owed_L
    holdup_L = holdup_adopted_L if day_holdup_L is None else day_holdup_L
    return holdup_L * (rinse_factor_n if day_factor_n is None else day_factor_n)


def today_n(
    event: str,
    day_holdup_L: float | None = None,
    day_factor_n: float | None = None,
    day_owed_L: float | None = None,
    day_floor_pH: float | None = None,
    day_ceiling_pH: float | None = None,
) -> float:
    """Return the flag of a row that leans on today's inputs.

    A rinse owed is fixed by the day's, that of a wash also by the day's hold-up and factor; an
    alkaline wash needs the day's floor and ceiling as well.
    """
    by_product = event in WASHES and None not in (day_holdup_L, day_factor_n)
    rinse_open = event in OWING and day_owed_L is None and not by_product
    limits_open = event == ALKALINE and None in (day_floor_pH, day_ceiling_pH)
    return float(rinse_open or limits_open)


def done_L(
    rinse_L: float | None = None, rinse_Lpmin: float | None = None, rinse_min: float | None = None
) -> float:
    """Return the rinse that was done: the volume read off, else flow x time."""
    if rinse_L is not None:
        return rinse_L
    if rinse_Lpmin is None or rinse_min is None:
        raise ValueError("done_L lacks rinse_L, or rinse_Lpmin and rinse_min")
    return rinse_Lpmin * rinse_min


def short_L(owed_L: float, done_L: float) -> float:
    """Return the rinse that is missing: owed less done, 0 up to 1e-9 of what is owed.

    In exact fractions, so that the billionth itself is still enough.
    """
    missing = Fraction(owed_L) - Fraction(done_L)
    return float(missing) if missing > Fraction(ROUNDING_FRAC) * abs(Fraction(owed_L)) else 0.0


def begun_n(
    day_d: float | None = None,
    event: str | None = None,
    hours_h: float | None = None,
    sap_L: float | None = None,
    flow_Lph: float | None = None,
    rinse_L: float | None = None,
    rinse_min: float | None = None,
) -> float:
    """Return the flag of a row that is begun: one of these columns is filled in."""
    columns = (day_d, event, hours_h, sap_L, flow_Lph, rinse_L, rinse_min)
    return float(any(value is not None for value in columns))


def lacking_n(
    begun_n: float,
    day_d: float | None = None,
    event: str | None = None,
    done_L: float | None = None,
    begin_pH: float | None = None,
    finish_pH: float | None = None,
) -> float:
    """Return how much a row that is begun lacks.

    Day, event, rinse where one is owed, both readings of an alkaline wash: 1 each.
    """
    lacks = [day_d is None, event is None, event in OWING and done_L is None]
    lacks += [event == ALKALINE and reading is None for reading in (begin_pH, finish_pH)]
    return float(sum(lacks)) if begun_n else 0.0


def bad_n(
    begun_n: float,
    event: str | None = None,
    short_L: float | None = None,
    top_margin_pH: float | None = None,
    low_margin_pH: float | None = None,
) -> float:
    """Return how much is wrong in a row that is begun.

    Rinse short, alkaline wash above the ceiling at start, below the floor at end: 1 each.
    """
    wrong = [event in OWING and (short_L or 0.0) > 0.0]
    wrong += [event == ALKALINE and (m or 0.0) < 0.0 for m in (top_margin_pH, low_margin_pH)]
    return float(sum(wrong)) if begun_n else 0.0


def watch_n(
    begun_n: float, permeate_brix: float | None = None, sugar_resolution_brix: float | None = None
) -> float:
    """Return the flag of sugar seen: more than the instrument's resolution, at 15 digits."""
    if not begun_n or permeate_brix is None or sugar_resolution_brix is None:
        return 0.0
    return float(round_compared(permeate_brix) > round_compared(sugar_resolution_brix))


def rank_n(begun_n: float, lacking_n: float, bad_n: float, watch_n: float) -> float:
    """Return the rank of a row that is begun by the worst that it holds.

    4 something is missing, 3 something is wrong, 2 sugar is seen, 1 all is well.
    """
    if not begun_n:
        raise ValueError(f"begun_n = {begun_n} n: a row that is not begun has no rank")
    return MISSING if lacking_n else STOP if bad_n else LOOK if watch_n else OK


def verdict_n(rank_n: float) -> float:
    """Return the place of the word that a row shows: its rank (definition)."""
    return rank_n
