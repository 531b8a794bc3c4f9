"""Hours that are short or left: water that stands, permeate that is stored."""

from builder.reference.ranges import require_all


def standing_short_h(
    chlorine_standing_h: float, standing_least_h: float, standing_most_h: float
) -> float:
    """Return how much longer the water has to stand.

    The smaller of least and most, less standing, never below 0.

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
    float
        Time [h].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Definition of this project.
    """
    require_all(
        chlorine_standing_h=chlorine_standing_h,
        standing_least_h=standing_least_h,
        standing_most_h=standing_most_h,
    )
    wanted = sorted((standing_least_h, standing_most_h))[0]
    return float(wanted - min(chlorine_standing_h, wanted))


def permeate_left_h(permeate_stored_most_h: float, permeate_stored_h: float) -> float:
    """Return how much longer the stored permeate may be used.

    Most less age, never below 0.

    Parameters
    ----------
    permeate_stored_most_h : float
        Longest storage of permeate [h], 0 to 1e+06.
    permeate_stored_h : float
        Age of the stored permeate [h], 0 to 1e+06.

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
    Definition of this project.
    """
    require_all(permeate_stored_most_h=permeate_stored_most_h, permeate_stored_h=permeate_stored_h)
    return float(permeate_stored_most_h - min(permeate_stored_h, permeate_stored_most_h))
