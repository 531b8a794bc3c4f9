"""Exact first derivatives by complex step."""

import math
from collections.abc import Callable

STEP = 1e-30  # size of the imaginary step; no digits are lost at any size (from memory)


def complex_step(volume: Callable[[complex], complex], x: float) -> float:
    """Return the derivative of an analytic function at a real point.

    dV/dx = Im V(x + i h) / h, exact to rounding for polynomials.

    Parameters
    ----------
    volume : callable
        Function of one complex argument [L].
    x : float
        Point [unit of the argument].

    Returns
    -------
    float
        Derivative [L per unit of the argument].

    References
    ----------
    Squire & Trapp, SIAM Review 40 (1998) 110 (from memory).
    """
    return volume(complex(x, STEP)).imag / STEP


def complex_cylinder_L(diameter_mm: complex, length_mm: complex) -> complex:
    """Return the volume of a cylinder for complex arguments.

    V = d d l times the area of the unit circle over 4, without range check.

    Parameters
    ----------
    diameter_mm : complex
        Diameter [mm].
    length_mm : complex
        Length [mm].

    Returns
    -------
    complex
        Volume [L].

    References
    ----------
    Geometry (definition).
    """
    return math.pi / 4.0 * diameter_mm * diameter_mm * length_mm * 1e-6
