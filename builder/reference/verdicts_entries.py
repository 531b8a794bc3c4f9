"""Verdicts on what was typed: does it contradict itself."""

from typing import Literal

from builder.reference.ranges import require_all

Verdict = Literal["ok", "look", "stop"]

DIGITS = 15  # significant digits that spreadsheets compare (measured in one engine)
WHOLE_PCT = 100.0  # shares of one whole (definition)


def _compared(value: float) -> float:
    """Return a value as a spreadsheet compares it, so that 8.1 in is 205.74 mm."""
    return float(f"{value:.{DIGITS}g}")


def annulus_ok(
    element_diameter_mm: float,
    vessel_bore_mm: float,
    elements_per_vessel_n: float,
    element_length_mm: float,
    vessel_length_mm: float,
) -> Verdict:
    """Return whether the elements fit into their vessel.

    Diameter < bore, and elements in a row times their length <= vessel length, at 15 digits.

    Parameters
    ----------
    element_diameter_mm : float
        Outer diameter of an element [mm], 1 to 5000.
    vessel_bore_mm : float
        Inside diameter of a vessel [mm], 1 to 5000.
    elements_per_vessel_n : float
        Elements in one vessel [n], 1 to 100.
    element_length_mm : float
        Length of an element [mm], 1 to 100000.
    vessel_length_mm : float
        Inside length of a vessel [mm], 1 to 100000.

    Returns
    -------
    str
        Verdict, ok or stop [ok].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Geometry (definition).
    """
    require_all(
        element_diameter_mm=element_diameter_mm,
        vessel_bore_mm=vessel_bore_mm,
        elements_per_vessel_n=elements_per_vessel_n,
        element_length_mm=element_length_mm,
        vessel_length_mm=vessel_length_mm,
    )
    narrower = _compared(element_diameter_mm) < _compared(vessel_bore_mm)
    row_mm = elements_per_vessel_n * element_length_mm
    not_longer = _compared(row_mm) <= _compared(vessel_length_mm)
    return "ok" if narrower and not_longer else "stop"


def core_ok(
    core_tube_inner_mm: float, core_tube_outer_mm: float, element_diameter_mm: float
) -> Verdict:
    """Return whether the core tube has a wall and lies inside its element.

    Inner < outer < element diameter, at 15 digits.

    Parameters
    ----------
    core_tube_inner_mm : float
        Inner diameter of the core tube [mm], 0 to 5000.
    core_tube_outer_mm : float
        Outer diameter of the core tube [mm], 0 to 5000.
    element_diameter_mm : float
        Outer diameter of an element [mm], 1 to 5000.

    Returns
    -------
    str
        Verdict, ok or stop [ok].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Geometry (definition).
    """
    require_all(
        core_tube_inner_mm=core_tube_inner_mm,
        core_tube_outer_mm=core_tube_outer_mm,
        element_diameter_mm=element_diameter_mm,
    )
    outer_mm = _compared(core_tube_outer_mm)
    inside = _compared(core_tube_inner_mm) < outer_mm < _compared(element_diameter_mm)
    return "ok" if inside else "stop"


def composition_ok(
    cleaner_naoh_pct: float,
    cleaner_carbonate_pct: float,
    cleaner_silicate_pct: float,
    cleaner_edta_pct: float,
) -> Verdict:
    """Return whether the cleaner's shares can be those of one cleaner.

    Sum of the four shares <= 100, at 15 digits.

    Parameters
    ----------
    cleaner_naoh_pct : float
        Anhydrous NaOH in the cleaner, by mass [pct], 0 to 100.
    cleaner_carbonate_pct : float
        Anhydrous Na2CO3 in the cleaner, by mass [pct], 0 to 100.
    cleaner_silicate_pct : float
        Anhydrous Na2SiO3 in the cleaner, by mass [pct], 0 to 100.
    cleaner_edta_pct : float
        Anhydrous Na4EDTA in the cleaner, by mass [pct], 0 to 100.

    Returns
    -------
    str
        Verdict, ok or stop [ok].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Shares of one whole (definition).
    """
    require_all(
        cleaner_naoh_pct=cleaner_naoh_pct,
        cleaner_carbonate_pct=cleaner_carbonate_pct,
        cleaner_silicate_pct=cleaner_silicate_pct,
        cleaner_edta_pct=cleaner_edta_pct,
    )
    shares = (cleaner_naoh_pct, cleaner_carbonate_pct, cleaner_silicate_pct, cleaner_edta_pct)
    return "ok" if _compared(sum(shares)) <= WHOLE_PCT else "stop"
