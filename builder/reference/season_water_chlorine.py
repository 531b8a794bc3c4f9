"""Free chlorine in the make-up water: decay while it stands, and exposure of the membrane."""

import math

from scipy.optimize import brentq
from scipy.special import roots_legendre

from builder.reference.ranges import require_all
from builder.reference.verdicts_entries import _compared

NODES, WEIGHTS = roots_legendre(16)  # quadrature, exact to rounding on one panel (definition)
PANEL = 1.0  # largest rate times time of one panel (rule of this package)
GONE = 50.0  # rate times time after which less than 1e-21 is left (rule of this package)
WHOLE_PCT = 100.0  # shares of one whole (definition)


def chlorine_rate_ph(
    chlorine_first_mgpL: float, chlorine_second_mgpL: float, chlorine_between_h: float
) -> float:
    """Return the rate at which chlorine decays.

    ln(first/second) over the time between, defined for first > second > 0 only.

    Parameters
    ----------
    chlorine_first_mgpL : float
        First chlorine reading [mgpL], 0 to 1e+06.
    chlorine_second_mgpL : float
        Second, later chlorine reading [mgpL], 0 to 1e+06.
    chlorine_between_h : float
        Time between the two readings [h], 1e-09 to 1e+06.

    Returns
    -------
    float
        Rate [ph].

    Raises
    ------
    ValueError
        A value lies outside its range, or no decay was seen.

    References
    ----------
    First-order decay, a fair assumption for a network (read: abstract).
    """
    require_all(
        chlorine_first_mgpL=chlorine_first_mgpL,
        chlorine_second_mgpL=chlorine_second_mgpL,
        chlorine_between_h=chlorine_between_h,
    )
    if not _compared(chlorine_first_mgpL) > _compared(chlorine_second_mgpL) > 0.0:
        raise ValueError(
            f"chlorine_second_mgpL = {chlorine_second_mgpL} mgpL is not above 0 and "
            f"below chlorine_first_mgpL = {chlorine_first_mgpL} mgpL"
        )
    return math.log(chlorine_first_mgpL / chlorine_second_mgpL) / chlorine_between_h


def chlorine_after_mgpL(
    chlorine_first_mgpL: float, chlorine_rate_ph: float, chlorine_standing_h: float
) -> float:
    """Return the chlorine that is left after standing.

    First reading times exp(-rate standing), as halvings.

    Parameters
    ----------
    chlorine_first_mgpL : float
        First chlorine reading [mgpL], 0 to 1e+06.
    chlorine_rate_ph : float
        First-order rate of decay [ph], 1e-30 to 1e+12.
    chlorine_standing_h : float
        Time the water stands before use [h], 0 to 1e+06.

    Returns
    -------
    float
        Chlorine [mgpL].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    First-order decay, a fair assumption for a network (read: abstract).
    """
    require_all(
        chlorine_first_mgpL=chlorine_first_mgpL,
        chlorine_rate_ph=chlorine_rate_ph,
        chlorine_standing_h=chlorine_standing_h,
    )
    halvings = chlorine_rate_ph * chlorine_standing_h / math.log(2.0)
    return float(chlorine_first_mgpL * 2.0**-halvings)


def chlorine_rest_h(
    chlorine_first_mgpL: float, chlorine_rate_ph: float, chlorine_limit_mgpL: float
) -> float:
    """Return how long the water stands until its chlorine is at the limit.

    Root of first exp(-rate t) = limit, on a logarithmic scale; never below 0.

    Parameters
    ----------
    chlorine_first_mgpL : float
        First chlorine reading [mgpL], 0 to 1e+06.
    chlorine_rate_ph : float
        First-order rate of decay [ph], 1e-30 to 1e+12.
    chlorine_limit_mgpL : float
        Most chlorine that may reach the membrane [mgpL], 1e-09 to 1e+06.

    Returns
    -------
    float
        Time [h].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    First-order decay, a fair assumption for a network (read: abstract).
    """
    require_all(
        chlorine_first_mgpL=chlorine_first_mgpL,
        chlorine_rate_ph=chlorine_rate_ph,
        chlorine_limit_mgpL=chlorine_limit_mgpL,
    )
    if chlorine_first_mgpL <= chlorine_limit_mgpL:
        return 0.0

    def over(decays: float) -> float:
        return chlorine_first_mgpL / chlorine_limit_mgpL * math.exp(-decays) - 1.0

    longest = math.log2(chlorine_first_mgpL / chlorine_limit_mgpL) + 1.0  # log2 exceeds ln
    decays = float(brentq(over, 0.0, longest, xtol=1e-18, rtol=1e-15))
    return decays / chlorine_rate_ph


def chlorine_exposure_mghpL(
    chlorine_second_mgpL: float, chlorine_rate_ph: float, chlorine_contact_h: float
) -> float:
    """Return the exposure of the membrane over the contact.

    Integral of second exp(-rate t) from 0 to contact, by Gauss-Legendre panels.

    Parameters
    ----------
    chlorine_second_mgpL : float
        Second, later chlorine reading [mgpL], 0 to 1e+06.
    chlorine_rate_ph : float
        First-order rate of decay [ph], 1e-30 to 1e+12.
    chlorine_contact_h : float
        Time the membrane sees the water [h], 0 to 1e+06.

    Returns
    -------
    float
        Exposure [mghpL].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    First-order decay, a fair assumption for a network (read: abstract).
    """
    require_all(
        chlorine_second_mgpL=chlorine_second_mgpL,
        chlorine_rate_ph=chlorine_rate_ph,
        chlorine_contact_h=chlorine_contact_h,
    )
    end_h = min(chlorine_contact_h, GONE / chlorine_rate_ph)
    panels = max(1, math.ceil(end_h * chlorine_rate_ph / PANEL))
    half_h = end_h / panels / 2.0
    terms = [
        weight * half_h * math.exp(-chlorine_rate_ph * half_h * (2 * panel + 1 + node))
        for panel in range(panels)
        for node, weight in zip(NODES, WEIGHTS, strict=True)
    ]
    return float(chlorine_second_mgpL * math.fsum(terms))


def chlorine_life_pct(chlorine_exposure_mghpL: float, chlorine_life_mghpL: float) -> float:
    """Return the share of the membrane's life that the exposure takes.

    100 exposure over life.

    Parameters
    ----------
    chlorine_exposure_mghpL : float
        Chlorine times time that the membrane sees [mghpL], 0 to 1e+13.
    chlorine_life_mghpL : float
        Exposure that the membrane bears in its life [mghpL], 1e-09 to 1e+09.

    Returns
    -------
    float
        Share [pct].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Linear damage (common practice, no source).
    """
    require_all(
        chlorine_exposure_mghpL=chlorine_exposure_mghpL, chlorine_life_mghpL=chlorine_life_mghpL
    )
    return chlorine_exposure_mghpL / (chlorine_life_mghpL / WHOLE_PCT)
