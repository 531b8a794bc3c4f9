"""Before and after the season: start-up of a machine that stood still, and its storage.

Limits of start-up are common practice, no source. Where nothing is named, the definition is this
project's own. Verdicts compare 15 digits.
"""

from builder.reference.comparison import Verdict, round_compared
from builder.reference.rinsing import take_off

# sums of atomic weights (from memory)
SODIUM_METABISULPHITE_GPMOL = 190.11
POTASSIUM_METABISULPHITE_GPMOL = 222.32
SODIUM_BISULPHITE_GPMOL = 104.06
SULPHUR_DIOXIDE_GPMOL = 64.066
STORAGE_SHORT_D = 30.0  # longest rest of the weaker solution, generic texts (read)
STORAGE_SHORT_GPL, STORAGE_LONG_GPL = 1.0, 10.0  # as sodium bisulphite, the same texts
MG_PER_G = 1000.0


def soak_left_min(shaft_soak_least_min: float, shaft_soak_min: float) -> float:
    """Return how much longer a stuck shaft has to soak: least less soak, never below 0."""
    return max(0.0, shaft_soak_least_min - shaft_soak_min)


def soak_ok(
    shaft_soak_min: float, shaft_soak_least_min: float, shaft_soak_most_min: float
) -> Verdict:
    """Return ok for least <= soak <= most, else look."""
    return _within(shaft_soak_min, shaft_soak_least_min, shaft_soak_most_min)


def latch_margin_bar(latch_reached_bar: float, latch_pressure_bar: float) -> float:
    """Return how far the feed pressure went beyond its latch: reached less latch."""
    return latch_reached_bar - latch_pressure_bar


def latch_ok(
    latch_reached_bar: float,
    latch_pressure_bar: float,
    latch_time_s: float,
    latch_time_most_s: float,
) -> Verdict:
    """Return ok where the feed pressure reached its latch in time, else stop."""
    reached = round_compared(latch_reached_bar) >= round_compared(latch_pressure_bar)
    in_time = round_compared(latch_time_s) <= round_compared(latch_time_most_s)
    return "ok" if reached and in_time else "stop"


def wetting_left_min(wetting_least_min: float, wetting_run_min: float) -> float:
    """Return how much longer the wetting run has to last: least less run, never below 0."""
    return max(0.0, wetting_least_min - wetting_run_min)


def wetting_ok(
    wetting_run_min: float, wetting_least_min: float, wetting_most_min: float
) -> Verdict:
    """Return ok for least <= run <= most, else look."""
    return _within(wetting_run_min, wetting_least_min, wetting_most_min)


def first_rinse_left_L(first_rinse_target_L: float, first_rinse_done_L: float) -> float:
    """Return how much of the first rinse is still to run, as a rinse of the log is short."""
    return take_off(first_rinse_target_L, first_rinse_done_L)


def first_rinse_ok(first_rinse_done_L: float, first_rinse_target_L: float) -> Verdict:
    """Return stop where something of the first rinse is left, else ok."""
    return "stop" if take_off(first_rinse_target_L, first_rinse_done_L) else "ok"


def storage_strength_gpL(storage_rest_d: float, sheet_strength_gpL: float | None = None) -> float:
    """Return the strength as sodium bisulphite: the data sheet's, else by the length of the rest.

    1 g/L up to 30 days, 10 beyond: generic texts on elements in store (read).
    """
    if sheet_strength_gpL is not None:
        return sheet_strength_gpL
    long = round_compared(storage_rest_d) > STORAGE_SHORT_D
    return STORAGE_LONG_GPL if long else STORAGE_SHORT_GPL


def preservative_ratio_n(preservative: str) -> float:
    """Return the mass of this salt for one of sodium bisulphite: 1 mol gives 2 of bisulphite."""
    salts = {"sodium": SODIUM_METABISULPHITE_GPMOL, "potassium": POTASSIUM_METABISULPHITE_GPMOL}
    return salts[preservative] / (2.0 * SODIUM_BISULPHITE_GPMOL)


def preservative_g(
    storage_solution_L: float,
    storage_strength_gpL: float,
    preservative_ratio_n: float,
    preservative_purity_pct: float,
) -> float:
    """Return the preservative to weigh: solution x strength x ratio over the pure share."""
    pure_g = storage_solution_L * storage_strength_gpL * preservative_ratio_n
    return pure_g * 100.0 / preservative_purity_pct


def storage_so2_mgpL(storage_strength_gpL: float) -> float:
    """Return the sulphur dioxide that the solution can give: 1 mol for 1 mol of bisulphite."""
    return storage_strength_gpL / SODIUM_BISULPHITE_GPMOL * SULPHUR_DIOXIDE_GPMOL * MG_PER_G


def strength_ok(
    storage_strength_gpL: float,
    storage_rest_d: float,
    storage_least_gpL: float,
    storage_long_least_gpL: float,
    storage_most_gpL: float,
) -> Verdict:
    """Return ok for least <= strength <= most, else look; the least is that of the rest.

    Generic strengths for elements in store, three texts (second hand).
    """
    long = round_compared(storage_rest_d) > STORAGE_SHORT_D
    least_gpL = storage_long_least_gpL if long else storage_least_gpL
    return _within(storage_strength_gpL, least_gpL, storage_most_gpL)


def frost_gap_degC(storage_temp_degC: float, storage_coldest_degC: float) -> float:
    """Return how far the store stays above its coldest: temperature less coldest."""
    return storage_temp_degC - storage_coldest_degC


def frost_ok(
    storage_temp_degC: float, storage_coldest_degC: float, storage_warmest_degC: float
) -> Verdict:
    """Return stop for a store below the coldest, look above the warmest, else ok.

    Generic texts on elements in store: never freeze, up to 35 degC (second hand).
    """
    if round_compared(storage_temp_degC) < round_compared(storage_coldest_degC):
        return "stop"
    return (
        "look" if round_compared(storage_temp_degC) > round_compared(storage_warmest_degC) else "ok"
    )


def preservative_ok(organic: str, preservative: str, standard_edition: str) -> Verdict:
    """Return look for potassium metabisulphite of an organic producer under the 2015 edition.

    Notice of a producers' federation on the 2020 edition of CAN/CGSB-32.310 (second hand).
    """
    unknown = (organic, preservative, standard_edition) == ("yes", "potassium", "e2015")
    return "look" if unknown else "ok"


def _within(value: float, low: float, high: float) -> Verdict:
    return "ok" if round_compared(low) <= round_compared(value) <= round_compared(high) else "look"
