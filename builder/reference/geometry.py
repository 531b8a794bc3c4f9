"""Volumes of vessels, elements and channels, by shells and slabs."""

import math

from scipy.special import roots_legendre

from builder.reference.ranges import require_all

POINTS, WEIGHTS = roots_legendre(3)  # Gauss-Legendre, exact to degree 5 (from memory)
MM3_PER_L = 1e6  # cubic millimetres in a litre (definition)


def cylinder_L(diameter_mm: float, length_mm: float) -> float:
    """Return the volume of a cylinder by adding up thin shells.

    V = integral of 2 pi r l dr from 0 to the radius, exact quadrature.

    Parameters
    ----------
    diameter_mm : float
        Diameter of the cylinder [mm], 0 to 5000.
    length_mm : float
        Length of the cylinder [mm], 0 to 1e+08.

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
    require_all(diameter_mm=diameter_mm, length_mm=length_mm)
    half = diameter_mm / 4.0
    shells = sum(w * 2.0 * math.pi * half * (x + 1.0) for x, w in zip(POINTS, WEIGHTS, strict=True))
    return float(half * shells * length_mm / MM3_PER_L)


def elements_n(vessels_n: float, elements_per_vessel_n: float) -> float:
    """Return the number of elements in the machine.

    N = vessels times elements in each.

    Parameters
    ----------
    vessels_n : float
        Pressure vessels [n], 1 to 1000.
    elements_per_vessel_n : float
        Elements in one vessel [n], 1 to 100.

    Returns
    -------
    float
        Elements [n].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Definition of this project.
    """
    require_all(vessels_n=vessels_n, elements_per_vessel_n=elements_per_vessel_n)
    return float(vessels_n * elements_per_vessel_n)


def vessels_water_L(vessels_n: float, vessel_bore_mm: float, vessel_length_mm: float) -> float:
    """Return the water in the empty vessels.

    Vessels times the cylinder of bore and length.

    Parameters
    ----------
    vessels_n : float
        Pressure vessels [n], 1 to 1000.
    vessel_bore_mm : float
        Inner diameter of a vessel [mm], 1 to 5000.
    vessel_length_mm : float
        Inner length of a vessel [mm], 1 to 100000.

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
        vessels_n=vessels_n, vessel_bore_mm=vessel_bore_mm, vessel_length_mm=vessel_length_mm
    )
    return vessels_n * cylinder_L(vessel_bore_mm, vessel_length_mm)


def elements_envelope_L(
    elements_n: float, element_diameter_mm: float, element_length_mm: float
) -> float:
    """Return the volume of the elements taken as solid cylinders.

    N times the cylinder of outside diameter and length.

    Parameters
    ----------
    elements_n : float
        Elements in the machine [n], 1 to 100000.
    element_diameter_mm : float
        Outer diameter of an element [mm], 1 to 5000.
    element_length_mm : float
        Length of an element [mm], 1 to 100000.

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
        element_diameter_mm=element_diameter_mm,
        element_length_mm=element_length_mm,
    )
    return elements_n * cylinder_L(element_diameter_mm, element_length_mm)


def annulus_L(vessels_water_L: float, elements_envelope_L: float) -> float:
    """Return the vessel water outside the elements.

    Empty vessels less envelopes; negative where dimensions are wrong.

    Parameters
    ----------
    vessels_water_L : float
        Water in the empty vessels [L], 0 to 1e+09.
    elements_envelope_L : float
        Solid volume of the elements [L], 0 to 1e+09.

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
    require_all(vessels_water_L=vessels_water_L, elements_envelope_L=elements_envelope_L)
    return math.fsum((vessels_water_L, -elements_envelope_L))


def core_tubes_L(elements_n: float, core_tube_inner_mm: float, element_length_mm: float) -> float:
    """Return the water in the core tubes.

    N times the cylinder of tube bore and element length.

    Parameters
    ----------
    elements_n : float
        Elements in the machine [n], 1 to 100000.
    core_tube_inner_mm : float
        Inner diameter of the core tube [mm], 0 to 5000.
    element_length_mm : float
        Length of an element [mm], 1 to 100000.

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
        core_tube_inner_mm=core_tube_inner_mm,
        element_length_mm=element_length_mm,
    )
    return elements_n * cylinder_L(core_tube_inner_mm, element_length_mm)
