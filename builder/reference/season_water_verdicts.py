"""Verdicts on the make-up water: chlorine, standing, hardness and permeate."""

from builder.reference.ranges import require_all, require_choice
from builder.reference.verdicts_entries import Verdict, _compared

PERMEATE_TANKS = ("stainless", "plastic", "other_metal")  # definition of this project


def chlorine_ok(chlorine_after_mgpL: float, chlorine_limit_mgpL: float) -> Verdict:
    """Return whether the water may reach the membrane.

    Chlorine after standing <= limit, at 15 digits.

    Parameters
    ----------
    chlorine_after_mgpL : float
        Chlorine after standing [mgpL], 0 to 1e+06.
    chlorine_limit_mgpL : float
        Most chlorine that may reach the membrane [mgpL], 1e-09 to 1e+06.

    Returns
    -------
    str
        Verdict, ok or stop [ok].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Definition of this project.
    """
    require_all(chlorine_after_mgpL=chlorine_after_mgpL, chlorine_limit_mgpL=chlorine_limit_mgpL)
    low = _compared(chlorine_after_mgpL) <= _compared(chlorine_limit_mgpL)
    return "ok" if low else "stop"


def standing_ok(
    chlorine_standing_h: float, standing_least_h: float, standing_most_h: float
) -> Verdict:
    """Return whether the water stands as long as is usual.

    Standing >= the smaller of least and most, at 15 digits; longer does no harm.

    Parameters
    ----------
    chlorine_standing_h : float
        Time the water stands before use [h], 0 to 1e+06.
    standing_least_h : float
        Shortest standing [h], 0 to 1e+06.
    standing_most_h : float
        Longest standing [h], 0 to 1e+06.

    Returns
    -------
    str
        Verdict, ok or look [ok].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Common practice, no source.
    """
    require_all(
        chlorine_standing_h=chlorine_standing_h,
        standing_least_h=standing_least_h,
        standing_most_h=standing_most_h,
    )
    least_h = min(standing_least_h, standing_most_h)
    long_enough = _compared(chlorine_standing_h) >= _compared(least_h)
    return "ok" if long_enough else "look"


def hardness_ok(hardness_class_n: float) -> Verdict:
    """Return whether the water is soft.

    Class 1.

    Parameters
    ----------
    hardness_class_n : float
        Hardness class [n], 1 to 4.

    Returns
    -------
    str
        Verdict, ok or look [ok].

    Raises
    ------
    ValueError
        The value lies outside its range.

    References
    ----------
    Definition of this project.
    """
    require_all(hardness_class_n=hardness_class_n)
    return "ok" if hardness_class_n == 1.0 else "look"


def permeate_water_ok(
    permeate_stored_h: float, permeate_stored_most_h: float, permeate_tank: str
) -> Verdict:
    """Return whether stored permeate may rinse membranes.

    Stop in other metal, look where stored for longer than the most, else ok, at 15 digits.

    Parameters
    ----------
    permeate_stored_h : float
        Age of the stored permeate [h], 0 to 1e+06.
    permeate_stored_most_h : float
        Longest storage of permeate [h], 0 to 1e+06.
    permeate_tank : str
        Tank: stainless, plastic or other_metal [choice].

    Returns
    -------
    str
        Verdict [ok].

    Raises
    ------
    ValueError
        A value lies outside its range or is no choice.

    References
    ----------
    Permeate dissolves metals; store it for a few hours only: Centre ACER (second hand).
    """
    require_choice("permeate_tank", permeate_tank, PERMEATE_TANKS)
    require_all(permeate_stored_h=permeate_stored_h, permeate_stored_most_h=permeate_stored_most_h)
    if permeate_tank == "other_metal":
        return "stop"
    fresh = _compared(permeate_stored_h) <= _compared(permeate_stored_most_h)
    return "ok" if fresh else "look"
