"""Uncertainty of the hold-up from vessel, element and tube dimensions."""

from builder.reference.ranges import require_all
from builder.reference.sensitivity import complex_cylinder_L, complex_step


def vessel_bore_part_u_L(
    vessels_n: float, vessel_bore_mm: float, vessel_length_mm: float, vessel_bore_u_mm: float
) -> float:
    """Return the uncertainty of the hold-up caused by the vessel bore.

    |dV/d bore| u(bore), all vessels together.

    Parameters
    ----------
    vessels_n : float
        Pressure vessels [n], 1 to 1000.
    vessel_bore_mm : float
        Inner diameter of a vessel [mm], 1 to 5000.
    vessel_length_mm : float
        Inner length of a vessel [mm], 1 to 100000.
    vessel_bore_u_mm : float
        Standard uncertainty of the vessel bore [mm], 0 to 100000.

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
        vessels_n=vessels_n,
        vessel_bore_mm=vessel_bore_mm,
        vessel_length_mm=vessel_length_mm,
        vessel_bore_u_mm=vessel_bore_u_mm,
    )
    slope = complex_step(
        lambda bore: vessels_n * complex_cylinder_L(bore, vessel_length_mm), vessel_bore_mm
    )
    return abs(slope) * vessel_bore_u_mm


def vessel_length_part_u_L(
    vessels_n: float, vessel_bore_mm: float, vessel_length_u_mm: float
) -> float:
    """Return the uncertainty of the hold-up caused by the vessel length.

    |dV/d length| u(length), all vessels together.

    Parameters
    ----------
    vessels_n : float
        Pressure vessels [n], 1 to 1000.
    vessel_bore_mm : float
        Inner diameter of a vessel [mm], 1 to 5000.
    vessel_length_u_mm : float
        Standard uncertainty of the vessel length [mm], 0 to 100000.

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
        vessels_n=vessels_n, vessel_bore_mm=vessel_bore_mm, vessel_length_u_mm=vessel_length_u_mm
    )
    slope = complex_step(lambda length: vessels_n * complex_cylinder_L(vessel_bore_mm, length), 0.0)
    return abs(slope) * vessel_length_u_mm


def element_diameter_part_u_L(
    elements_n: float,
    element_diameter_mm: float,
    element_length_mm: float,
    element_diameter_u_mm: float,
) -> float:
    """Return the uncertainty of the hold-up caused by the element diameter.

    |dV/d diameter| u(diameter), all elements together.

    Parameters
    ----------
    elements_n : float
        Elements in the machine [n], 1 to 100000.
    element_diameter_mm : float
        Outer diameter of an element [mm], 1 to 5000.
    element_length_mm : float
        Length of an element [mm], 1 to 100000.
    element_diameter_u_mm : float
        Standard uncertainty of the element diameter [mm], 0 to 100000.

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
        elements_n=elements_n,
        element_diameter_mm=element_diameter_mm,
        element_length_mm=element_length_mm,
        element_diameter_u_mm=element_diameter_u_mm,
    )
    slope = complex_step(
        lambda d: -elements_n * complex_cylinder_L(d, element_length_mm), element_diameter_mm
    )
    return abs(slope) * element_diameter_u_mm


def element_length_part_u_L(
    elements_n: float,
    element_diameter_mm: float,
    core_tube_inner_mm: float,
    element_length_u_mm: float,
) -> float:
    """Return the uncertainty of the hold-up caused by the element length.

    |d(core tube - envelope)/d length| u(length): the signed sum of both effects.

    Parameters
    ----------
    elements_n : float
        Elements in the machine [n], 1 to 100000.
    element_diameter_mm : float
        Outer diameter of an element [mm], 1 to 5000.
    core_tube_inner_mm : float
        Inner diameter of the core tube [mm], 0 to 5000.
    element_length_u_mm : float
        Standard uncertainty of the element length [mm], 0 to 100000.

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
        elements_n=elements_n,
        element_diameter_mm=element_diameter_mm,
        core_tube_inner_mm=core_tube_inner_mm,
        element_length_u_mm=element_length_u_mm,
    )

    def moved_L(length: complex) -> complex:
        envelope = complex_cylinder_L(element_diameter_mm, length)
        return elements_n * (complex_cylinder_L(core_tube_inner_mm, length) - envelope)

    return abs(complex_step(moved_L, 0.0)) * element_length_u_mm


def core_tube_part_u_L(
    elements_n: float,
    core_tube_inner_mm: float,
    element_length_mm: float,
    core_tube_inner_u_mm: float,
) -> float:
    """Return the uncertainty of the hold-up caused by the core tube bore.

    |dV/d bore| u(bore), all tubes together.

    Parameters
    ----------
    elements_n : float
        Elements in the machine [n], 1 to 100000.
    core_tube_inner_mm : float
        Inner diameter of the core tube [mm], 0 to 5000.
    element_length_mm : float
        Length of an element [mm], 1 to 100000.
    core_tube_inner_u_mm : float
        Standard uncertainty of the core tube bore [mm], 0 to 100000.

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
        elements_n=elements_n,
        core_tube_inner_mm=core_tube_inner_mm,
        element_length_mm=element_length_mm,
        core_tube_inner_u_mm=core_tube_inner_u_mm,
    )
    slope = complex_step(
        lambda d: elements_n * complex_cylinder_L(d, element_length_mm), core_tube_inner_mm
    )
    return abs(slope) * core_tube_inner_u_mm
