"""Water in the vessel ends and the pipes."""

import math

from builder.reference.geometry import cylinder_L
from builder.reference.ranges import require_all

MM_PER_M = 1000.0  # millimetres in a metre (definition)


def ends_L(vessels_n: float, vessel_ends_L: float) -> float:
    """Return the water in all vessel ends.

    Vessels times the ends of one.

    Parameters
    ----------
    vessels_n : float
        Pressure vessels [n], 1 to 1000.
    vessel_ends_L : float
        Water in the two ends and ports of one vessel [L], 0 to 10000.

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
    require_all(vessels_n=vessels_n, vessel_ends_L=vessel_ends_L)
    return vessels_n * vessel_ends_L


def pipe_L(pipe_bore_mm: float, pipe_length_m: float) -> float:
    """Return the water in one run of pipe.

    Cylinder of bore and length, by shells.

    Parameters
    ----------
    pipe_bore_mm : float
        Inner diameter of the pipe [mm], 0 to 5000.
    pipe_length_m : float
        Length of the pipe [m], 0 to 1e+06.

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
    require_all(pipe_bore_mm=pipe_bore_mm, pipe_length_m=pipe_length_m)
    return cylinder_L(pipe_bore_mm, pipe_length_m * MM_PER_M)


def pipes_L(
    pipe_1_L: float,
    pipe_2_L: float,
    pipe_3_L: float,
    pipe_4_L: float,
    pipe_5_L: float,
    pipe_6_L: float,
    pipe_7_L: float,
    pipe_8_L: float,
) -> float:
    """Return the water in all eight runs of pipe.

    Sum of the runs.

    Parameters
    ----------
    pipe_1_L : float
        Water in pipe run 1 [L], 0 to 1e+09.
    pipe_2_L : float
        Water in pipe run 2 [L], 0 to 1e+09.
    pipe_3_L : float
        Water in pipe run 3 [L], 0 to 1e+09.
    pipe_4_L : float
        Water in pipe run 4 [L], 0 to 1e+09.
    pipe_5_L : float
        Water in pipe run 5 [L], 0 to 1e+09.
    pipe_6_L : float
        Water in pipe run 6 [L], 0 to 1e+09.
    pipe_7_L : float
        Water in pipe run 7 [L], 0 to 1e+09.
    pipe_8_L : float
        Water in pipe run 8 [L], 0 to 1e+09.

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
    require_all(
        pipe_1_L=pipe_1_L,
        pipe_2_L=pipe_2_L,
        pipe_3_L=pipe_3_L,
        pipe_4_L=pipe_4_L,
        pipe_5_L=pipe_5_L,
        pipe_6_L=pipe_6_L,
        pipe_7_L=pipe_7_L,
        pipe_8_L=pipe_8_L,
    )
    runs = (pipe_1_L, pipe_2_L, pipe_3_L, pipe_4_L, pipe_5_L, pipe_6_L, pipe_7_L, pipe_8_L)
    return math.fsum(runs)
