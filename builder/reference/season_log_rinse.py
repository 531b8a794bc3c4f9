"""Rinse water that one entry of the log owes, and what was used."""

from fractions import Fraction

from builder.reference.ranges import require_all, require_given
from builder.reference.season_log_event import ALKALINE, FIRST, OWING, WASHES

# share of what is owed up to which nothing is missing: a conversion of units leaves about 1e-16,
# and no meter tells a millilitre in a thousand cubic metres (definition of this project)
ROUNDING_FRAC = 1e-9


def owed_L(
    event_n: float,
    rinse_owed_L: float,
    first_rinse_owed_L: float,
    holdup_adopted_L: float,
    rinse_factor_n: float,
    day_owed_L: float | None = None,
    day_holdup_L: float | None = None,
    day_factor_n: float | None = None,
) -> float:
    """Return the rinse water that the entry owes.

    The day's; else, for a wash, hold-up x factor where one is the day's; else today's.

    Parameters
    ----------
    event_n : float
        Number of the event [n], 1 to 6.
    rinse_owed_L : float
        Rinse owed after a wash, today's [L], 0 to 1e+09.
    first_rinse_owed_L : float
        First rinse owed, today's [L], 0 to 1e+09.
    holdup_adopted_L : float
        Hold-up, today's [L], 0 to 1e+09.
    rinse_factor_n : float
        Hold-up volumes owed, today's [n], 0 to 1e+06.
    day_owed_L : float, optional
        Rinse water owed on the day [L], -1e+09 to 1e+09.
    day_holdup_L : float, optional
        Hold-up that held on the day [L], -1e+09 to 1e+09.
    day_factor_n : float, optional
        Hold-up volumes owed on the day [n], -1e+06 to 1e+06.

    Returns
    -------
    float
        Volume [L].

    Raises
    ------
    ValueError
        A value lies outside its range, or the event owes no rinse.

    References
    ----------
    Definition of this project.
    """
    require_all(
        event_n=event_n,
        rinse_owed_L=rinse_owed_L,
        first_rinse_owed_L=first_rinse_owed_L,
        holdup_adopted_L=holdup_adopted_L,
        rinse_factor_n=rinse_factor_n,
    )
    require_given(day_owed_L=day_owed_L, day_holdup_L=day_holdup_L, day_factor_n=day_factor_n)
    if event_n not in OWING:
        raise ValueError(f"event_n = {event_n} n owes no rinse")
    if day_owed_L is not None:
        return float(day_owed_L)
    if event_n == FIRST:
        return float(first_rinse_owed_L)
    if day_holdup_L is None and day_factor_n is None:
        return float(rinse_owed_L)
    holdup_L = holdup_adopted_L if day_holdup_L is None else day_holdup_L
    factor_n = rinse_factor_n if day_factor_n is None else day_factor_n
    return float(holdup_L * factor_n)


def today_n(
    event_n: float,
    day_holdup_L: float | None = None,
    day_factor_n: float | None = None,
    day_owed_L: float | None = None,
    day_floor_pH: float | None = None,
    day_ceiling_pH: float | None = None,
) -> float:
    """Return whether the entry leans on any of today's inputs.

    1 where the day's rinse is not fixed by the day's columns, or an alkaline wash's limits are not.

    Parameters
    ----------
    event_n : float
        Number of the event [n], 1 to 6.
    day_holdup_L : float, optional
        Hold-up that held on the day [L], -1e+09 to 1e+09.
    day_factor_n : float, optional
        Hold-up volumes owed on the day [n], -1e+06 to 1e+06.
    day_owed_L : float, optional
        Rinse water owed on the day [L], -1e+09 to 1e+09.
    day_floor_pH : float, optional
        Floor that held on the day [pH], -100 to 100.
    day_ceiling_pH : float, optional
        Ceiling that held on the day [pH], -100 to 100.

    Returns
    -------
    float
        1 or 0 [n].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Definition of this project.
    """
    require_all(event_n=event_n)
    require_given(
        day_holdup_L=day_holdup_L,
        day_factor_n=day_factor_n,
        day_owed_L=day_owed_L,
        day_floor_pH=day_floor_pH,
        day_ceiling_pH=day_ceiling_pH,
    )
    by_product = event_n in WASHES and None not in (day_holdup_L, day_factor_n)
    rinse_open = event_n in OWING and day_owed_L is None and not by_product
    limits_open = event_n == ALKALINE and None in (day_floor_pH, day_ceiling_pH)
    return float(rinse_open or limits_open)


def done_L(
    rinse_L: float | None = None, rinse_Lpmin: float | None = None, rinse_min: float | None = None
) -> float:
    """Return the rinse water that was used.

    Volume read off; else flow x time; undefined without either.

    Parameters
    ----------
    rinse_L : float, optional
        Rinse water read off [L], -1e+09 to 1e+09.
    rinse_Lpmin : float, optional
        Flow of the rinse [Lpmin], -1e+09 to 1e+09.
    rinse_min : float, optional
        Time of the rinse [min], -1e+06 to 1e+06.

    Returns
    -------
    float
        Volume [L].

    Raises
    ------
    ValueError
        A value lies outside its range, or too little is given.

    References
    ----------
    Definition of this project.
    """
    require_given(rinse_L=rinse_L, rinse_Lpmin=rinse_Lpmin, rinse_min=rinse_min)
    if rinse_L is not None:
        return float(rinse_L)
    if rinse_Lpmin is None or rinse_min is None:
        raise ValueError("done_L lacks rinse_L, or rinse_Lpmin and rinse_min")
    return float(rinse_Lpmin * rinse_min)


def short_L(owed_L: float, done_L: float) -> float:
    """Return the rinse water that is missing.

    Owed less done, 0 unless that is more than 1e-9 of what is owed.

    Parameters
    ----------
    owed_L : float
        Rinse water owed [L], -1e+15 to 1e+15.
    done_L : float
        Rinse water used [L], -1e+15 to 1e+15.

    Returns
    -------
    float
        Volume [L].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Definition of this project.
    """
    require_all(owed_L=owed_L, done_L=done_L)
    owed, done = Fraction(owed_L), Fraction(done_L)  # exact, whatever the doubles
    missing = owed - done
    return float(missing) if missing > Fraction(ROUNDING_FRAC) * abs(owed) else 0.0
