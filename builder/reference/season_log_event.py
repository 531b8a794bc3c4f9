"""What kind of entry a row of the log is."""

from builder.reference.ranges import require_all, require_choice, require_given

EVENTS = ("run", "rinse", "alkaline", "acid", "first", "storage")  # definition of this project
NUMBERS = {code: float(number) for number, code in enumerate(EVENTS, start=1)}
OWING = frozenset(NUMBERS[code] for code in ("alkaline", "acid", "first"))
WASHES = frozenset(NUMBERS[code] for code in ("alkaline", "acid"))
ALKALINE = NUMBERS["alkaline"]
FIRST = NUMBERS["first"]


def event_n(event: str) -> float:
    """Return the number of the event.

    Place of the code in the list, from 1.

    Parameters
    ----------
    event : str
        Code of the event [choice], "run", "rinse", "alkaline", "acid", "first" or "storage".

    Returns
    -------
    float
        Number [n].

    Raises
    ------
    ValueError
        The code is unknown.

    References
    ----------
    Definition of this project.
    """
    require_choice("event", event, EVENTS)
    return NUMBERS[event]


def owing_n(event_n: float) -> float:
    """Return whether a rinse is owed after the event.

    1 for alkaline, acid and first, else 0.

    Parameters
    ----------
    event_n : float
        Number of the event [n], 1 to 6.

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
    return float(event_n in OWING)


def alkaline_n(event_n: float) -> float:
    """Return whether the event is an alkaline wash.

    1 for alkaline, else 0.

    Parameters
    ----------
    event_n : float
        Number of the event [n], 1 to 6.

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
    return float(event_n == ALKALINE)


def entry_n(owing_n: float | None = None, prior_n: float | None = None) -> float:
    """Return the running number of the rows that owe a rinse.

    Number so far plus 1 where the row owes one; blanks count 0.

    Parameters
    ----------
    owing_n : float, optional
        1 where a rinse is owed [n], 0 to 1.
    prior_n : float, optional
        Running number of the row before [n], 0 to 1e+06.

    Returns
    -------
    float
        Running number [n].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Definition of this project.
    """
    require_given(owing_n=owing_n, prior_n=prior_n)
    return (prior_n or 0.0) + (owing_n or 0.0)
