"""Limits of temperature and pH that a data sheet sets, and how the fresh wash keeps them.

A function that names no source is a definition of this project.
"""

from itertools import pairwise

from builder.reference.comparison import Verdict, round_compared
from builder.reference.ph import judge_margin

COLD_DEGC = 20.0  # below it a wash cleans little (a trade journal of 2006, opening read)
LABEL_TEMP_DEGC = 25.0  # temperature at which limits of pH are often meant (no source)
Typed = float | None
Pairs = list[tuple[float, float]]


def list_pairs(*typed: Typed) -> Pairs:
    """Return the pairs of temperature and pH that are whole, as they were typed."""
    pairs = zip(typed[::2], typed[1::2], strict=True)
    return [(temp, pH) for temp, pH in pairs if temp is not None and pH is not None]


def find_limit(wash_temp_degC: float, pairs: Pairs) -> tuple[float, float]:
    """Return the first of the coolest pairs that are not below the wash; none raises."""
    wash = round_compared(wash_temp_degC)
    fitting = [pair for pair in pairs if round_compared(pair[0]) >= wash]
    return min(fitting, key=lambda pair: round_compared(pair[0]))


def limit_most_degC(
    limit_1_temp_degC: Typed = None,
    limit_1_pH: Typed = None,
    limit_2_temp_degC: Typed = None,
    limit_2_pH: Typed = None,
    limit_3_temp_degC: Typed = None,
    limit_3_pH: Typed = None,
) -> float:
    """Return the highest temperature for which there is a limit of pH; none raises."""
    first = limit_1_temp_degC, limit_1_pH
    second = limit_2_temp_degC, limit_2_pH
    return max(temp for temp, _ in list_pairs(*first, *second, limit_3_temp_degC, limit_3_pH))


def temp_most_degC(wash_temp_max_degC: Typed = None, limit_most_degC: Typed = None) -> float:
    """Return the highest temperature allowed, the lower of both; none raises."""
    both = wash_temp_max_degC, limit_most_degC
    return min(temp for temp in both if temp is not None)


def ceiling_pH(
    wash_temp_degC: float,
    limit_1_temp_degC: Typed = None,
    limit_1_pH: Typed = None,
    limit_2_temp_degC: Typed = None,
    limit_2_pH: Typed = None,
    limit_3_temp_degC: Typed = None,
    limit_3_pH: Typed = None,
) -> float:
    """Return the pH that goes with the smallest limit not below the wash.

    A wash hotter than all limits has none; of two with one temperature the first typed counts.
    """
    first = limit_1_temp_degC, limit_1_pH
    second = limit_2_temp_degC, limit_2_pH
    pairs = list_pairs(*first, *second, limit_3_temp_degC, limit_3_pH)
    return find_limit(wash_temp_degC, pairs)[1]


def limit_used_degC(
    wash_temp_degC: float,
    limit_1_temp_degC: Typed = None,
    limit_1_pH: Typed = None,
    limit_2_temp_degC: Typed = None,
    limit_2_pH: Typed = None,
    limit_3_temp_degC: Typed = None,
    limit_3_pH: Typed = None,
) -> float:
    """Return the temperature of the limit that gives the ceiling."""
    first = limit_1_temp_degC, limit_1_pH
    second = limit_2_temp_degC, limit_2_pH
    pairs = list_pairs(*first, *second, limit_3_temp_degC, limit_3_pH)
    return find_limit(wash_temp_degC, pairs)[0]


def ceiling_start_pH(limit_means: str, wash_start_pH: float, start_at_25_pH: float) -> float:
    """Return the pH compared: at 25 degC, at the wash temperature, or the higher of both."""
    return {
        "at_25": start_at_25_pH,
        "at_wash": wash_start_pH,
        "unknown": max(wash_start_pH, start_at_25_pH),
    }[limit_means]


def ceiling_temp_degC(
    ceiling_start_pH: float, wash_start_pH: float, wash_temp_degC: float
) -> float:
    """Return the temperature of the pH compared: that of the wash if it is its start, else 25."""
    return wash_temp_degC if ceiling_start_pH == wash_start_pH else LABEL_TEMP_DEGC


def ceiling_margin_pH(ceiling_pH: float, ceiling_start_pH: float) -> float:
    """Return how far the fresh wash stays below the ceiling, ceiling less the pH compared."""
    return ceiling_pH - ceiling_start_pH


def temp_ok(wash_temp_degC: float, heater_over_gap_degC: float, temp_most_degC: float) -> Verdict:
    """Return stop where the heater passes the limit, look for a cold wash, else ok."""
    if round_compared(wash_temp_degC + heater_over_gap_degC) > round_compared(temp_most_degC):
        return "stop"
    return "look" if round_compared(wash_temp_degC) < COLD_DEGC else "ok"


def pairs_ok(
    limit_1_temp_degC: Typed = None,
    limit_1_pH: Typed = None,
    limit_2_temp_degC: Typed = None,
    limit_2_pH: Typed = None,
    limit_3_temp_degC: Typed = None,
    limit_3_pH: Typed = None,
) -> Verdict:
    """Return whether temperatures rise from pair to pair and pH does not; none raises.

    A gap before a pair wants a look.
    """
    typed = (limit_1_temp_degC, limit_1_pH), (limit_2_temp_degC, limit_2_pH)
    found = [list_pairs(*pair) for pair in (*typed, (limit_3_temp_degC, limit_3_pH))]
    count = sum(map(len, found))
    if not count:
        raise ValueError("no limit has both temperature and pH")
    pairs = [(round_compared(temp), round_compared(pH)) for ((temp, pH),) in filter(None, found)]
    rising = all(b[0] > a[0] and b[1] <= a[1] for a, b in pairwise(pairs))
    return "ok" if all(found[:count]) and rising else "look"


def ceiling_ok(
    wash_temp_degC: float,
    limit_most_degC: float,
    wash_start_u_pH: float,
    ceiling_margin_pH: Typed = None,
) -> Verdict:
    """Return stop for a wash hotter than all limits or above its ceiling, look within its doubt."""
    if round_compared(wash_temp_degC) > round_compared(limit_most_degC):
        return "stop"
    if ceiling_margin_pH is None:
        raise ValueError("there is no margin")
    return judge_margin(ceiling_margin_pH, wash_start_u_pH)
