"""Water outside the elements where nobody measured it: vessel ends, filter housings, pumps.

A function that names no source chooses between what was typed and what is typical (definition).
"""

# water at the ends of one vessel and its standard uncertainty: vessels are 60 to 250 mm longer than
# their elements (from memory); each empty 10 mm holds about 0.03, 0.08 and 0.32 L (bore); middle of
# the range, and half the range over the root of 3
ENDS_SMALL_L, ENDS_SMALL_U_L = 0.5, 0.17  # 2.5 x 40 inch
ENDS_MEDIUM_L, ENDS_MEDIUM_U_L = 1.2, 0.44  # 4 x 40 inch
ENDS_LARGE_L, ENDS_LARGE_U_L = 5.0, 1.8  # 8 x 40 inch
HOUSINGS_SMALL_L, HOUSINGS_MEDIUM_L, HOUSINGS_LARGE_L = 1.5, 3.0, 6.0  # judgement, no source
PUMPS_SMALL_L, PUMPS_MEDIUM_L, PUMPS_LARGE_L = 0.5, 1.0, 2.5  # judgement, no source
ELSEWHERE_GUESS_PCT = 50.0  # doubt of water elsewhere that nobody measured (judgement, no source)
ENDS_L = {"2.5x40": ENDS_SMALL_L, "4x40": ENDS_MEDIUM_L, "8x40": ENDS_LARGE_L}
ENDS_U_L = {"2.5x40": ENDS_SMALL_U_L, "4x40": ENDS_MEDIUM_U_L, "8x40": ENDS_LARGE_U_L}
HOUSINGS_L = {"2.5x40": HOUSINGS_SMALL_L, "4x40": HOUSINGS_MEDIUM_L, "8x40": HOUSINGS_LARGE_L}
PUMPS_L = {"2.5x40": PUMPS_SMALL_L, "4x40": PUMPS_MEDIUM_L, "8x40": PUMPS_LARGE_L}


def find_usual(figures: dict[str, float], element_size: str) -> float:
    """Return the figure of a usual size of element; another size has none."""
    if element_size not in figures:
        raise ValueError(f"nothing is typical of elements of the size {element_size!r}")
    return figures[element_size]


def prefer_typed(typed: float | None, typical: float | None) -> float:
    """Return what was typed, 0 too, else what is typical; one of the two must be there."""
    found = typical if typed is None else typed
    if found is None:
        raise ValueError("neither a typed figure nor a typical one is there")
    return found


def typical_ends_L(element_size: str) -> float:
    """Return the water at the ends of one vessel: caps, adapters, length beyond its elements.

    Middle of 60 to 250 mm (from memory) times the water in each empty mm; none for another size.
    """
    return find_usual(ENDS_L, element_size)


def typical_ends_u_L(element_size: str) -> float:
    """Return the standard uncertainty of the water at the ends of one vessel.

    Half the range over the root of 3 (even chances in the range); none for another size.
    """
    return find_usual(ENDS_U_L, element_size)


def typical_housings_L(element_size: str) -> float:
    """Return the water in the filter housings of a machine with such elements.

    Judgement, no source; none for another size.
    """
    return find_usual(HOUSINGS_L, element_size)


def typical_pumps_L(element_size: str) -> float:
    """Return the water in the pumps of a machine with such elements.

    Judgement, no source; none for another size.
    """
    return find_usual(PUMPS_L, element_size)


def ends_each_L(vessel_ends_L: float | None = None, typical_ends_L: float | None = None) -> float:
    """Return the water used for the ends of one vessel, typed, else typical."""
    return prefer_typed(vessel_ends_L, typical_ends_L)


def ends_each_u_L(
    vessel_ends_u_L: float,
    vessel_ends_L: float | None = None,
    typical_ends_u_L: float | None = None,
) -> float:
    """Return the uncertainty of the ends used: that of typed ends, else that of typical ones."""
    return prefer_typed(None if vessel_ends_L is None else vessel_ends_u_L, typical_ends_u_L)


def housings_L(
    filter_housings_L: float | None = None, typical_housings_L: float | None = None
) -> float:
    """Return the water used for the filter housings, typed, else typical."""
    return prefer_typed(filter_housings_L, typical_housings_L)


def pumps_water_L(pumps_L: float | None = None, typical_pumps_L: float | None = None) -> float:
    """Return the water used for the pumps, typed, else typical."""
    return prefer_typed(pumps_L, typical_pumps_L)


def elsewhere_doubt_pct(
    elsewhere_u_pct: float, filter_housings_L: float | None = None, pumps_L: float | None = None
) -> float:
    """Return the relative standard uncertainty of the water elsewhere.

    As stated where housings and pumps were typed, else 50 % (judgement, no source) or more.
    """
    if filter_housings_L is not None and pumps_L is not None:
        return elsewhere_u_pct
    return max(elsewhere_u_pct, ELSEWHERE_GUESS_PCT)
