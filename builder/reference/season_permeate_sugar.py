"""Sugar in the permeate: reading, what it can see, and loss."""

from builder.reference.ranges import require_all
from builder.reference.verdicts_entries import Verdict, _compared

PERMEATE_DENSITY_KGPL = 1.0  # error 0.2 per cent (definition of this project)
WHOLE_PCT = 100.0  # shares of one whole (definition)


def sugar_brix(
    sugar_reading_brix: float, sugar_zero_brix: float, sugar_correction_brix: float
) -> float:
    """Return the sugar of the permeate.

    Reading less zero plus correction, never below 0.

    Parameters
    ----------
    sugar_reading_brix : float
        Reading of the instrument [brix], 0 to 100.
    sugar_zero_brix : float
        Reading of clean water [brix], -10 to 100.
    sugar_correction_brix : float
        Temperature correction of the reading [brix], -100 to 100.

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
    require_all(
        sugar_reading_brix=sugar_reading_brix,
        sugar_zero_brix=sugar_zero_brix,
        sugar_correction_brix=sugar_correction_brix,
    )
    return max(0.0, sugar_reading_brix - sugar_zero_brix + sugar_correction_brix)


def sugar_seen_brix(sugar_brix: float, sugar_resolution_brix: float) -> float:
    """Return the sugar where the instrument can see it.

    The sugar itself, where it is above the resolution at 15 digits.

    Parameters
    ----------
    sugar_brix : float
        Sugar of the permeate [brix], 0 to 300.
    sugar_resolution_brix : float
        Resolution of the instrument [brix], 0 to 100.

    Returns
    -------
    float
        Sugar [brix].

    Raises
    ------
    ValueError
        A value lies outside its range, or the sugar cannot be seen.

    References
    ----------
    Resolution of 0.1 per cent by mass: OIV-MA-AS2-02 (read).
    """
    require_all(sugar_brix=sugar_brix, sugar_resolution_brix=sugar_resolution_brix)
    if _compared(sugar_brix) <= _compared(sugar_resolution_brix):
        raise ValueError(
            f"sugar_brix = {sugar_brix} brix is not above "
            f"sugar_resolution_brix = {sugar_resolution_brix} brix"
        )
    return float(sugar_brix)


def sugar_passage_pct(sugar_seen_brix: float, feed_sugar_brix: float) -> float:
    """Return the sugar that passes the membrane.

    100 seen over feed, both by mass.

    Parameters
    ----------
    sugar_seen_brix : float
        Sugar that the instrument can see [brix], 0 to 300.
    feed_sugar_brix : float
        Sugar of the sap [brix], 1e-09 to 100.

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
    Definition of this project.
    """
    require_all(sugar_seen_brix=sugar_seen_brix, feed_sugar_brix=feed_sugar_brix)
    return sugar_seen_brix / (feed_sugar_brix / WHOLE_PCT)


def sugar_loss_kgph(sugar_seen_brix: float, sugar_flow_Lph: float) -> float:
    """Return the sugar lost with the permeate.

    Mass flow of the permeate, at 1 kg/L, times its sugar share.

    Parameters
    ----------
    sugar_seen_brix : float
        Sugar that the instrument can see [brix], 0 to 300.
    sugar_flow_Lph : float
        Permeate flow [Lph], 0 to 1e+08.

    Returns
    -------
    float
        Loss [kgph].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Definition of this project.
    """
    require_all(sugar_seen_brix=sugar_seen_brix, sugar_flow_Lph=sugar_flow_Lph)
    return PERMEATE_DENSITY_KGPL * sugar_flow_Lph * (sugar_seen_brix / WHOLE_PCT)


def sugar_hidden_kgph(sugar_resolution_brix: float, sugar_flow_Lph: float) -> float:
    """Return the sugar loss that a reading below the resolution could hide.

    Mass flow of the permeate, at 1 kg/L, times the resolution.

    Parameters
    ----------
    sugar_resolution_brix : float
        Resolution of the instrument [brix], 0 to 100.
    sugar_flow_Lph : float
        Permeate flow [Lph], 0 to 1e+08.

    Returns
    -------
    float
        Loss [kgph].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Definition of this project.
    """
    require_all(sugar_resolution_brix=sugar_resolution_brix, sugar_flow_Lph=sugar_flow_Lph)
    return PERMEATE_DENSITY_KGPL * sugar_flow_Lph * (sugar_resolution_brix / WHOLE_PCT)


def sugar_ok(
    sugar_brix: float,
    sugar_resolution_brix: float,
    sugar_alarm_brix: float,
    sugar_since_h: float,
    sugar_wait_h: float,
) -> Verdict:
    """Return whether the membrane holds the sugar back.

    Ok up to the resolution; look up to the alarm before the wait is over; else stop; 15 digits.

    Parameters
    ----------
    sugar_brix : float
        Sugar of the permeate [brix], 0 to 300.
    sugar_resolution_brix : float
        Resolution of the instrument [brix], 0 to 100.
    sugar_alarm_brix : float
        Sugar from which to stop [brix], 0 to 100.
    sugar_since_h : float
        Time since first start or last wash [h], 0 to 1e+06.
    sugar_wait_h : float
        Time after which sugar must be gone [h], 0 to 1e+06.

    Returns
    -------
    str
        Verdict [ok].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Common practice, no source.
    """
    require_all(
        sugar_brix=sugar_brix,
        sugar_resolution_brix=sugar_resolution_brix,
        sugar_alarm_brix=sugar_alarm_brix,
        sugar_since_h=sugar_since_h,
        sugar_wait_h=sugar_wait_h,
    )
    if _compared(sugar_brix) <= _compared(sugar_resolution_brix):
        return "ok"
    little = _compared(sugar_brix) <= _compared(sugar_alarm_brix)
    early = _compared(sugar_since_h) < _compared(sugar_wait_h)
    return "look" if little and early else "stop"
