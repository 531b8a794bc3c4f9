"""Storage over the summer: preservative, its strength, frost and the standard's edition."""

from builder.reference.ranges import require_all, require_choice
from builder.reference.season_storage_frost import frost_gap_degC, frost_ok
from builder.reference.verdicts_entries import Verdict, _compared

__all__ = [
    "POTASSIUM_METABISULPHITE_GPMOL",
    "SODIUM_METABISULPHITE_GPMOL",
    "SULPHUR_DIOXIDE_GPMOL",
    "frost_gap_degC",
    "frost_ok",
    "preservative_g",
    "preservative_ok",
    "preservative_ratio_n",
    "storage_so2_mgpL",
    "strength_ok",
]

# sums of atomic weights, g/mol (from memory)
SODIUM_METABISULPHITE_GPMOL = 190.11
POTASSIUM_METABISULPHITE_GPMOL = 222.32
SULPHUR_DIOXIDE_GPMOL = 64.066
SULPHUR_DIOXIDE_EACH = 2.0  # SO2 of one metabisulphite (definition)
PRESERVATIVES = {
    "sodium": SODIUM_METABISULPHITE_GPMOL,
    "potassium": POTASSIUM_METABISULPHITE_GPMOL,
}
EDITIONS = ("e2015", "e2020", "e2026")  # definition of this project
ANSWERS = ("yes", "no")  # definition of this project
MG_PER_G = 1000.0  # milligrams (definition)
WHOLE_PCT = 100.0  # shares of one whole (definition)


def preservative_ratio_n(preservative: str) -> float:
    """Return the mass of preservative that replaces one of sodium metabisulphite.

    Its molar mass over that of sodium metabisulphite.

    Parameters
    ----------
    preservative : str
        Metabisulphite: sodium or potassium [choice].

    Returns
    -------
    float
        Ratio [n].

    Raises
    ------
    ValueError
        The value is none of the choices.

    References
    ----------
    Sum of atomic weights (from memory).
    """
    require_choice("preservative", preservative, tuple(PRESERVATIVES))
    return PRESERVATIVES[preservative] / SODIUM_METABISULPHITE_GPMOL


def preservative_g(
    storage_solution_L: float,
    storage_strength_gpL: float,
    preservative_ratio_n: float,
    preservative_purity_pct: float,
) -> float:
    """Return the preservative for the storage solution.

    Solution times strength times ratio, over the pure share.

    Parameters
    ----------
    storage_solution_L : float
        Storage solution [L], 0 to 1e+09.
    storage_strength_gpL : float
        Strength as sodium metabisulphite [gpL], 0 to 1e+06.
    preservative_ratio_n : float
        Mass per mass of sodium metabisulphite [n], 0 to 100.
    preservative_purity_pct : float
        Purity of the preservative [pct], 1e-09 to 100.

    Returns
    -------
    float
        Mass [g].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Mass balance (definition).
    """
    require_all(
        storage_solution_L=storage_solution_L,
        storage_strength_gpL=storage_strength_gpL,
        preservative_ratio_n=preservative_ratio_n,
        preservative_purity_pct=preservative_purity_pct,
    )
    sodium_g = storage_solution_L * storage_strength_gpL
    return sodium_g / preservative_purity_pct * WHOLE_PCT * preservative_ratio_n


def storage_so2_mgpL(storage_strength_gpL: float) -> float:
    """Return the sulphur dioxide that the storage solution can give.

    Moles of sodium metabisulphite, two of sulphur dioxide from each.

    Parameters
    ----------
    storage_strength_gpL : float
        Strength as sodium metabisulphite [gpL], 0 to 1e+06.

    Returns
    -------
    float
        Sulphur dioxide [mgpL].

    Raises
    ------
    ValueError
        The value lies outside its range.

    References
    ----------
    Stoichiometry (definition).
    """
    require_all(storage_strength_gpL=storage_strength_gpL)
    moles_molpL = storage_strength_gpL / SODIUM_METABISULPHITE_GPMOL
    return moles_molpL * SULPHUR_DIOXIDE_EACH * SULPHUR_DIOXIDE_GPMOL * MG_PER_G


def strength_ok(
    storage_strength_gpL: float, storage_least_gpL: float, storage_most_gpL: float
) -> Verdict:
    """Return whether the storage solution has a usual strength.

    Least <= strength <= most, at 15 digits.

    Parameters
    ----------
    storage_strength_gpL : float
        Strength as sodium metabisulphite [gpL], 0 to 1e+06.
    storage_least_gpL : float
        Lowest strength [gpL], 0 to 1e+06.
    storage_most_gpL : float
        Highest strength [gpL], 0 to 1e+06.

    Returns
    -------
    str
        Verdict, ok or look [ok].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Generic strengths for elements in store, three texts (second hand).
    """
    require_all(
        storage_strength_gpL=storage_strength_gpL,
        storage_least_gpL=storage_least_gpL,
        storage_most_gpL=storage_most_gpL,
    )
    strength = _compared(storage_strength_gpL)
    within = _compared(storage_least_gpL) <= strength <= _compared(storage_most_gpL)
    return "ok" if within else "look"


def preservative_ok(organic: str, preservative: str, standard_edition: str) -> Verdict:
    """Return whether the standard's edition knows the preservative.

    Look for potassium metabisulphite under the 2015 edition of an organic producer, else ok.

    Parameters
    ----------
    organic : str
        Organic certification: yes or no [choice].
    preservative : str
        Metabisulphite: sodium or potassium [choice].
    standard_edition : str
        Edition of the standard: e2015, e2020 or e2026 [choice].

    Returns
    -------
    str
        Verdict, ok or look [ok].

    Raises
    ------
    ValueError
        A value is none of the choices.

    References
    ----------
    Notice of a producers' federation on the 2020 edition of CAN/CGSB-32.310 (second hand).
    """
    require_choice("organic", organic, ANSWERS)
    require_choice("preservative", preservative, tuple(PRESERVATIVES))
    require_choice("standard_edition", standard_edition, EDITIONS)
    unknown = (organic, preservative, standard_edition) == ("yes", "potassium", "e2015")
    return "look" if unknown else "ok"
