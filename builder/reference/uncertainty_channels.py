"""Uncertainty of the hold-up from the membrane channels."""

from builder.reference.ranges import require, require_all
from builder.reference.sensitivity import complex_step

SMALLEST = 1e-9  # least divisor taken as not zero (common practice, no source)
LARGEST = 1e9  # upper end of the same ranges (common practice, no source)
PER_CENT = 0.01  # one per cent (definition)


def element_area_part_u_L(
    feed_channel_L: float, permeate_channel_L: float, element_area_u_pct: float
) -> float:
    """Return the uncertainty of the hold-up caused by the membrane area.

    (feed + permeate channel) u(area)/area: one area moves both channels.

    Parameters
    ----------
    feed_channel_L : float
        Water in the feed channels [L], 0 to 1e+09.
    permeate_channel_L : float
        Water in the permeate carriers [L], 0 to 1e+09.
    element_area_u_pct : float
        Relative standard uncertainty of the membrane area [pct], 0 to 1000.

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
        feed_channel_L=feed_channel_L,
        permeate_channel_L=permeate_channel_L,
        element_area_u_pct=element_area_u_pct,
    )
    slope = complex_step(lambda scale: (feed_channel_L + permeate_channel_L) * scale, 1.0)
    return abs(slope) * element_area_u_pct * PER_CENT


def feed_spacer_part_u_L(feed_channel_L: float, feed_spacer_u_pct: float) -> float:
    """Return the uncertainty of the hold-up caused by the feed spacer thickness.

    feed channel u(thickness)/thickness.

    Parameters
    ----------
    feed_channel_L : float
        Water in the feed channels [L], 0 to 1e+09.
    feed_spacer_u_pct : float
        Relative standard uncertainty of the feed spacer thickness [pct], 0 to 1000.

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
    require_all(feed_channel_L=feed_channel_L, feed_spacer_u_pct=feed_spacer_u_pct)
    slope = complex_step(lambda scale: feed_channel_L * scale, 1.0)
    return abs(slope) * feed_spacer_u_pct * PER_CENT


def feed_porosity_part_u_L(
    feed_channel_L: float, feed_spacer_porosity_frac: float, feed_spacer_porosity_u_frac: float
) -> float:
    """Return the uncertainty of the hold-up caused by the feed spacer porosity.

    feed channel u(porosity)/porosity.

    Parameters
    ----------
    feed_channel_L : float
        Water in the feed channels [L], 0 to 1e+09.
    feed_spacer_porosity_frac : float
        Void fraction of the feed spacer [frac], 1e-09 to 1.
    feed_spacer_porosity_u_frac : float
        Standard uncertainty of the feed spacer porosity [frac], 0 to 1.

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
        feed_channel_L=feed_channel_L, feed_spacer_porosity_u_frac=feed_spacer_porosity_u_frac
    )
    require("feed_spacer_porosity_frac", feed_spacer_porosity_frac, "frac", SMALLEST, 1.0)
    slab_L = feed_channel_L / feed_spacer_porosity_frac
    slope = complex_step(lambda void: slab_L * void, feed_spacer_porosity_frac)
    return abs(slope) * feed_spacer_porosity_u_frac


def permeate_carrier_part_u_L(permeate_channel_L: float, permeate_carrier_u_pct: float) -> float:
    """Return the uncertainty of the hold-up caused by the permeate carrier thickness.

    permeate channel u(thickness)/thickness.

    Parameters
    ----------
    permeate_channel_L : float
        Water in the permeate carriers [L], 0 to 1e+09.
    permeate_carrier_u_pct : float
        Relative standard uncertainty of the permeate carrier thickness [pct], 0 to 1000.

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
        permeate_channel_L=permeate_channel_L, permeate_carrier_u_pct=permeate_carrier_u_pct
    )
    slope = complex_step(lambda scale: permeate_channel_L * scale, 1.0)
    return abs(slope) * permeate_carrier_u_pct * PER_CENT


def permeate_porosity_part_u_L(
    permeate_channel_L: float,
    permeate_carrier_porosity_frac: float,
    permeate_carrier_porosity_u_frac: float,
) -> float:
    """Return the uncertainty of the hold-up caused by the permeate carrier porosity.

    permeate channel u(porosity)/porosity.

    Parameters
    ----------
    permeate_channel_L : float
        Water in the permeate carriers [L], 0 to 1e+09.
    permeate_carrier_porosity_frac : float
        Void fraction of the permeate carrier [frac], 1e-09 to 1.
    permeate_carrier_porosity_u_frac : float
        Standard uncertainty of the permeate carrier porosity [frac], 0 to 1.

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
        permeate_channel_L=permeate_channel_L,
        permeate_carrier_porosity_u_frac=permeate_carrier_porosity_u_frac,
    )
    require("permeate_carrier_porosity_frac", permeate_carrier_porosity_frac, "frac", SMALLEST, 1.0)
    slab_L = permeate_channel_L / permeate_carrier_porosity_frac
    slope = complex_step(lambda void: slab_L * void, permeate_carrier_porosity_frac)
    return abs(slope) * permeate_carrier_porosity_u_frac
