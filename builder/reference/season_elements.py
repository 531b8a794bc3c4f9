"""Sugar in the permeate of single elements."""

from builder.reference.ranges import require_all

DIGITS = 15  # significant digits that spreadsheets compare (measured in one engine)
OK, LOOK, STOP = 1.0, 2.0, 3.0  # ranks of an element (definition of this project)


def element_brix(reading_brix: float, sugar_zero_brix: float) -> float:
    """Return the sugar of one element's permeate.

    Reading less that of clean water, never below 0.

    Parameters
    ----------
    reading_brix : float
        Reading of one element's permeate [brix], -10 to 100.
    sugar_zero_brix : float
        Reading of clean water [brix], -10 to 100.

    Returns
    -------
    float
        Sugar [brix].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Definition of this project.
    """
    require_all(reading_brix=reading_brix, sugar_zero_brix=sugar_zero_brix)
    return max(0.0, reading_brix - sugar_zero_brix)


def element_rank_n(
    element_brix: float, sugar_resolution_brix: float, sugar_alarm_brix: float
) -> float:
    """Return the rank of one element.

    1 up to the resolution, 2 up to the alarm, 3 above, at 15 digits.

    Parameters
    ----------
    element_brix : float
        Sugar of one element's permeate [brix], 0 to 110.
    sugar_resolution_brix : float
        Least sugar that the instrument tells [brix], 0 to 100.
    sugar_alarm_brix : float
        Sugar from which to act [brix], 0 to 100.

    Returns
    -------
    float
        Rank [n].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Definition of this project.
    """
    require_all(
        element_brix=element_brix,
        sugar_resolution_brix=sugar_resolution_brix,
        sugar_alarm_brix=sugar_alarm_brix,
    )
    values = (element_brix, sugar_resolution_brix, sugar_alarm_brix)
    sugar, least, alarm = (float(f"{value:.{DIGITS}g}") for value in values)
    if sugar <= least:
        return OK
    return LOOK if sugar <= alarm else STOP
