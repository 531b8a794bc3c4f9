"""Rinse after a wash and before first use: volume, time, tank fills and ideal dilution.

The rules by hold-up, by elements and by hours are common practice, no source; the rest follows
from them (definition).
"""

import math

from builder.reference.comparison import Verdict

RINSE_VOLUMES_LEAST_N = 10.0  # thin one ideally mixed volume to exp(-10) = 4.5e-5
COVER_N = 2.0  # standard uncertainties that a rinse covers (JCGM 100, from memory)
RINSE_STEP_METRIC_L = 10.0  # what a tank scale is read to (own choice), as the next two
RINSE_STEP_US_L = 18.92705892  # 5 US gallons of 231 cubic inches (definition)
RINSE_STEP_IMPERIAL_L = 9.09218  # 2 imperial gallons of 4.54609 L (definition)
ROUNDING_N = 1e-9  # a quotient this little above a whole number counts as it


def rinse_by_holdup_L(rinse_factor_n: float, holdup_adopted_L: float) -> float:
    """Return the rinse by hold-up, factor times hold-up."""
    return rinse_factor_n * holdup_adopted_L


def rinse_by_elements_L(
    rinse_first_element_L: float, rinse_further_element_L: float, elements_n: float
) -> float:
    """Return the rinse by elements, first + (N - 1) further."""
    return rinse_first_element_L + (elements_n - 1.0) * rinse_further_element_L


def rinse_owed_L(rinse_rule: str, rinse_by_holdup_L: float, rinse_by_elements_L: float) -> float:
    """Return the rinse that the rule picks: "holdup", "elements" or the "larger" of both."""
    return {
        "holdup": rinse_by_holdup_L,
        "elements": rinse_by_elements_L,
        "larger": max(rinse_by_holdup_L, rinse_by_elements_L),
    }[rinse_rule]


def rinse_covered_n(rinse_rule: str, rinse_cover: str, holdup_from_n: float) -> float:
    """Return 1 where the doubt of the hold-up is covered: "yes", or "auto" for an estimate.

    A rule by elements does not rest on the hold-up: 0.
    """
    wanted = rinse_cover == "yes" or (rinse_cover == "auto" and holdup_from_n > 1.0)
    return float(wanted and rinse_rule != "elements")


def rinse_cover_L(rinse_factor_n: float, holdup_adopted_u_L: float) -> float:
    """Return the rinse for twice the uncertainty of the hold-up, factor 2 u."""
    return rinse_by_holdup_L(rinse_factor_n, COVER_N * holdup_adopted_u_L)


def rinse_wanted_L(
    rinse_rule: str,
    rinse_owed_L: float,
    rinse_covered_n: float,
    rinse_by_holdup_L: float,
    rinse_cover_L: float,
) -> float:
    """Return the rinse to run: what is owed, at least that by hold-up with the doubt covered.

    A rule by elements does not rest on the hold-up.
    """
    covered = rinse_covered_n == 1.0 and rinse_rule != "elements"
    return max(rinse_owed_L, rinse_by_holdup_L + rinse_cover_L) if covered else rinse_owed_L


def rinse_step_L(reader_units: str) -> float:
    """Return the step that a rinse is rounded up to, in the reader's units."""
    return {
        "metric": RINSE_STEP_METRIC_L,
        "us": RINSE_STEP_US_L,
        "imperial": RINSE_STEP_IMPERIAL_L,
    }[reader_units]


def rinse_target_L(rinse_wanted_L: float, rinse_step_L: float) -> float:
    """Return the rinse to read off, rounded up to whole steps."""
    return math.ceil(rinse_wanted_L / rinse_step_L - ROUNDING_N) * rinse_step_L


def first_rinse_target_L(first_rinse_owed_L: float, rinse_step_L: float) -> float:
    """Return the first rinse to read off, rounded up to whole steps."""
    return rinse_target_L(first_rinse_owed_L, rinse_step_L)


def rinse_time_min(rinse_target_L: float, rinse_flow_Lpmin: float) -> float:
    """Return how long the rinse takes, volume / flow."""
    return rinse_target_L / rinse_flow_Lpmin


def rinse_fills_n(rinse_target_L: float, rinse_tank_L: float) -> float:
    """Return the tank fills of the rinse, volume / tank rounded up."""
    return float(math.ceil(rinse_target_L / rinse_tank_L - ROUNDING_N))


def rinse_volumes_n(rinse_owed_L: float, holdup_adopted_L: float) -> float:
    """Return the rinse in hold-up volumes, rinse / hold-up; none without a hold-up."""
    if holdup_adopted_L == 0.0:
        raise ValueError("a rinse is no number of hold-up volumes of 0 L")
    return rinse_owed_L / holdup_adopted_L


def rinse_ideal_decades_n(rinse_volumes_n: float) -> float:
    """Return the powers of ten by which one ideally mixed volume is thinned.

    -log10(exp(-n)) = n log10 e, washout of one mixed volume (Levenspiel, from memory).
    """
    return rinse_volumes_n * math.log10(math.e)


def first_rinse_hourly_L(rated_flow_Lph: float, first_rinse_hours_h: float) -> float:
    """Return what the rated flow delivers in the given hours, flow times hours."""
    return rated_flow_Lph * first_rinse_hours_h


def first_rinse_owed_L(
    rinse_rule: str, first_rinse_hourly_L: float, rinse_by_elements_L: float
) -> float:
    """Return the first rinse that the rule picks, with the hourly volume for the hold-up's."""
    return rinse_owed_L(rinse_rule, first_rinse_hourly_L, rinse_by_elements_L)


def first_rinse_time_min(first_rinse_target_L: float, rinse_flow_Lpmin: float) -> float:
    """Return how long the first rinse takes, volume / flow."""
    return first_rinse_target_L / rinse_flow_Lpmin


def first_rinse_fills_n(first_rinse_target_L: float, rinse_tank_L: float) -> float:
    """Return the tank fills of the first rinse, volume / tank rounded up."""
    return rinse_fills_n(first_rinse_target_L, rinse_tank_L)


def rinse_ok(rinse_volumes_n: float) -> Verdict:
    """Return whether the rinse would do for an ideally mixed machine, volumes >= 10."""
    return "ok" if rinse_volumes_n >= RINSE_VOLUMES_LEAST_N else "look"
