"""Water between the membranes, and the spiral that the leaves imply."""

import math

from scipy.optimize import brentq
from scipy.special import roots_legendre

from builder.reference.ranges import require_all

POINTS, WEIGHTS = roots_legendre(3)  # Gauss-Legendre, exact to degree 5 (from memory)
MM2_PER_M2 = 1e6  # square millimetres in a square metre (definition)
FACES_PER_CHANNEL = 2.0  # membrane on both sides of each channel (definition)


def feed_channel_L(
    elements_n: float,
    element_area_m2: float,
    feed_spacer_mm: float,
    feed_spacer_porosity_frac: float,
) -> float:
    """Return the water in the feed spacers.

    Slab of half the area (each channel has two membranes) less the solid in it.

    Parameters
    ----------
    elements_n : float
        Elements in the machine [n], 1 to 100000.
    element_area_m2 : float
        Active membrane area of one element, both faces of each leaf [m2], 0.001 to 1000.
    feed_spacer_mm : float
        Thickness of the feed spacer [mm], 0.001 to 50.
    feed_spacer_porosity_frac : float
        Void fraction of the feed spacer [frac], 0 to 1.

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
    Geometry (definition).
    """
    require_all(
        elements_n=elements_n,
        element_area_m2=element_area_m2,
        feed_spacer_mm=feed_spacer_mm,
        feed_spacer_porosity_frac=feed_spacer_porosity_frac,
    )
    slab_L = elements_n * (element_area_m2 / FACES_PER_CHANNEL) * feed_spacer_mm  # m2 mm = L
    return slab_L - slab_L * (1.0 - feed_spacer_porosity_frac)


def permeate_channel_L(
    elements_n: float,
    element_area_m2: float,
    permeate_carrier_mm: float,
    permeate_carrier_porosity_frac: float,
) -> float:
    """Return the water in the permeate carriers.

    Slab of half the area (each channel has two membranes) less the solid in it.

    Parameters
    ----------
    elements_n : float
        Elements in the machine [n], 1 to 100000.
    element_area_m2 : float
        Active membrane area of one element, both faces of each leaf [m2], 0.001 to 1000.
    permeate_carrier_mm : float
        Thickness of the permeate carrier [mm], 0.001 to 50.
    permeate_carrier_porosity_frac : float
        Void fraction of the permeate carrier [frac], 0 to 1.

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
    Geometry (definition).
    """
    require_all(
        elements_n=elements_n,
        element_area_m2=element_area_m2,
        permeate_carrier_mm=permeate_carrier_mm,
        permeate_carrier_porosity_frac=permeate_carrier_porosity_frac,
    )
    slab_L = elements_n * (element_area_m2 / FACES_PER_CHANNEL) * permeate_carrier_mm  # m2 mm = L
    return slab_L - slab_L * (1.0 - permeate_carrier_porosity_frac)


def wound_diameter_mm(
    core_tube_outer_mm: float,
    element_area_m2: float,
    element_length_mm: float,
    feed_spacer_mm: float,
    permeate_carrier_mm: float,
    membrane_thickness_mm: float,
) -> float:
    """Return the outside diameter of the spiral that area and thicknesses imply.

    Integral of 2 pi r dr from tube to outside = (area/2/length) (spacer + carrier + 2 membranes).

    Parameters
    ----------
    core_tube_outer_mm : float
        Outer diameter of the core tube [mm], 0 to 5000.
    element_area_m2 : float
        Active membrane area of one element, both faces of each leaf [m2], 0.001 to 1000.
    element_length_mm : float
        Length of an element [mm], 1 to 100000.
    feed_spacer_mm : float
        Thickness of the feed spacer [mm], 0.001 to 50.
    permeate_carrier_mm : float
        Thickness of the permeate carrier [mm], 0.001 to 50.
    membrane_thickness_mm : float
        Thickness of one membrane sheet [mm], 0 to 50.

    Returns
    -------
    float
        Diameter [mm].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Geometry (definition).
    """
    require_all(
        core_tube_outer_mm=core_tube_outer_mm,
        element_area_m2=element_area_m2,
        element_length_mm=element_length_mm,
        feed_spacer_mm=feed_spacer_mm,
        permeate_carrier_mm=permeate_carrier_mm,
        membrane_thickness_mm=membrane_thickness_mm,
    )
    leaf_mm = element_area_m2 * MM2_PER_M2 / FACES_PER_CHANNEL / element_length_mm
    section_mm2 = leaf_mm * (feed_spacer_mm + permeate_carrier_mm + 2.0 * membrane_thickness_mm)
    inner_mm = core_tube_outer_mm / 2.0

    def missing_mm2(radius_mm: float) -> float:
        half = (radius_mm - inner_mm) / 2.0
        radii = [inner_mm + half * (x + 1.0) for x in POINTS]
        rings = sum(w * 2.0 * math.pi * r for r, w in zip(radii, WEIGHTS, strict=True))
        return float(half * rings) - section_mm2

    return 2.0 * float(brentq(missing_mm2, inner_mm, inner_mm + section_mm2**0.5, xtol=1e-13))


def wound_ratio_n(wound_diameter_mm: float, element_diameter_mm: float) -> float:
    """Return the implied diameter over the stated one.

    Wound diameter / element diameter; a plausible entry gives 0.8 to 1.

    Parameters
    ----------
    wound_diameter_mm : float
        Outside diameter that the spiral implies [mm], 0 to 1e+06.
    element_diameter_mm : float
        Outer diameter of an element [mm], 1 to 5000.

    Returns
    -------
    float
        Ratio [n].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Geometry (definition).
    """
    require_all(wound_diameter_mm=wound_diameter_mm, element_diameter_mm=element_diameter_mm)
    return wound_diameter_mm / element_diameter_mm
