"""Uncertainty of the hold-up from ends, pipes and the volumes elsewhere."""

import math

from builder.reference.ranges import require_all
from builder.reference.sensitivity import complex_step

PER_CENT = 0.01  # one per cent (definition)


def ends_part_u_L(vessels_n: float, vessel_ends_u_L: float) -> float:
    """Return the uncertainty of the hold-up caused by the vessel ends.

    vessels u(ends): the same error in each vessel.

    Parameters
    ----------
    vessels_n : float
        Pressure vessels [n], 1 to 1000.
    vessel_ends_u_L : float
        Standard uncertainty of the ends of one vessel [L], 0 to 10000.

    Returns
    -------
    float
        Standard uncertainty [L].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    JCGM 100:2008, law of propagation (from memory); shared inputs add before squaring (definition).
    """
    require_all(vessels_n=vessels_n, vessel_ends_u_L=vessel_ends_u_L)
    return complex_step(lambda ends: vessels_n * ends, 0.0) * vessel_ends_u_L


def pipe_bore_part_u_L(pipes_L: float, pipe_bore_u_pct: float) -> float:
    """Return the uncertainty of the hold-up caused by the pipe bores.

    2 pipes u(bore)/bore: one relative error common to all runs.

    Parameters
    ----------
    pipes_L : float
        Water in all pipes [L], 0 to 1e+09.
    pipe_bore_u_pct : float
        Relative standard uncertainty of every pipe bore, common to all [pct], 0 to 1000.

    Returns
    -------
    float
        Standard uncertainty [L].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    JCGM 100:2008, law of propagation (from memory); shared inputs add before squaring (definition).
    """
    require_all(pipes_L=pipes_L, pipe_bore_u_pct=pipe_bore_u_pct)
    slope = complex_step(lambda scale: pipes_L * scale * scale, 1.0)
    return abs(slope) * pipe_bore_u_pct * PER_CENT


def pipe_length_part_u_L(pipes_L: float, pipe_length_u_pct: float) -> float:
    """Return the uncertainty of the hold-up caused by the pipe lengths.

    pipes u(length)/length: one relative error common to all runs.

    Parameters
    ----------
    pipes_L : float
        Water in all pipes [L], 0 to 1e+09.
    pipe_length_u_pct : float
        Relative standard uncertainty of every pipe length, common to all [pct], 0 to 1000.

    Returns
    -------
    float
        Standard uncertainty [L].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    JCGM 100:2008, law of propagation (from memory); shared inputs add before squaring (definition).
    """
    require_all(pipes_L=pipes_L, pipe_length_u_pct=pipe_length_u_pct)
    slope = complex_step(lambda scale: pipes_L * scale, 1.0)
    return abs(slope) * pipe_length_u_pct * PER_CENT


def elsewhere_part_u_L(
    filter_housings_L: float, pumps_L: float, other_holdup_L: float, elsewhere_u_pct: float
) -> float:
    """Return the uncertainty of the hold-up caused by the volumes elsewhere.

    (housings + pumps + other) times their common relative error.

    Parameters
    ----------
    filter_housings_L : float
        Water in the filter housings [L], 0 to 1e+09.
    pumps_L : float
        Water in the pumps [L], 0 to 1e+09.
    other_holdup_L : float
        Water elsewhere [L], 0 to 1e+09.
    elsewhere_u_pct : float
        Relative standard uncertainty of the volumes elsewhere, common to all [pct], 0 to 1000.

    Returns
    -------
    float
        Standard uncertainty [L].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    JCGM 100:2008, law of propagation (from memory); shared inputs add before squaring (definition).
    """
    require_all(
        filter_housings_L=filter_housings_L,
        pumps_L=pumps_L,
        other_holdup_L=other_holdup_L,
        elsewhere_u_pct=elsewhere_u_pct,
    )
    elsewhere_L = math.fsum((filter_housings_L, pumps_L, other_holdup_L))
    return complex_step(lambda scale: elsewhere_L * scale, 1.0) * elsewhere_u_pct * PER_CENT
