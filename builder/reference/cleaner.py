"""Alkali that the cleaner brings into the wash."""

from builder.reference.ranges import require_all

GRAM_SHARE = 0.01  # per cent to fraction (definition)
NAOH_GPMOL = 39.997  # sum of atomic weights (from memory)
NA2CO3_GPMOL = 105.988  # sum of atomic weights (from memory)
NA2SIO3_GPMOL = 122.063  # sum of atomic weights (from memory)
NA4EDTA_GPMOL = 380.17  # sum of atomic weights (from memory)
CHARGES = (
    1.0,
    2.0,
    2.0,
    4.0,
)  # strong-base charge of NaOH, Na2CO3, Na2SiO3, Na4EDTA (definition)


def naoh_molpL(cleaner_strength_gpL: float, cleaner_naoh_pct: float) -> float:
    """Return the NaOH in the wash.

    Strength times mass share over molar mass.

    Parameters
    ----------
    cleaner_strength_gpL : float
        Cleaner in the circulating solution [gpL], 0 to 1e+06.
    cleaner_naoh_pct : float
        Anhydrous NaOH in the cleaner, by mass [pct], 0 to 100.

    Returns
    -------
    float
        Concentration [molpL].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Sum of atomic weights (from memory).
    """
    require_all(cleaner_strength_gpL=cleaner_strength_gpL, cleaner_naoh_pct=cleaner_naoh_pct)
    mass_gpL = cleaner_strength_gpL * cleaner_naoh_pct * GRAM_SHARE
    return mass_gpL / NAOH_GPMOL


def carbonate_molpL(cleaner_strength_gpL: float, cleaner_carbonate_pct: float) -> float:
    """Return the Na2CO3 in the wash.

    Strength times mass share over molar mass.

    Parameters
    ----------
    cleaner_strength_gpL : float
        Cleaner in the circulating solution [gpL], 0 to 1e+06.
    cleaner_carbonate_pct : float
        Anhydrous Na2CO3 in the cleaner, by mass [pct], 0 to 100.

    Returns
    -------
    float
        Concentration [molpL].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Sum of atomic weights (from memory).
    """
    require_all(
        cleaner_strength_gpL=cleaner_strength_gpL, cleaner_carbonate_pct=cleaner_carbonate_pct
    )
    mass_gpL = cleaner_strength_gpL * cleaner_carbonate_pct * GRAM_SHARE
    return mass_gpL / NA2CO3_GPMOL


def silicate_molpL(cleaner_strength_gpL: float, cleaner_silicate_pct: float) -> float:
    """Return the Na2SiO3 in the wash.

    Strength times mass share over molar mass.

    Parameters
    ----------
    cleaner_strength_gpL : float
        Cleaner in the circulating solution [gpL], 0 to 1e+06.
    cleaner_silicate_pct : float
        Anhydrous Na2SiO3 in the cleaner, by mass [pct], 0 to 100.

    Returns
    -------
    float
        Concentration [molpL].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Sum of atomic weights (from memory).
    """
    require_all(
        cleaner_strength_gpL=cleaner_strength_gpL, cleaner_silicate_pct=cleaner_silicate_pct
    )
    mass_gpL = cleaner_strength_gpL * cleaner_silicate_pct * GRAM_SHARE
    return mass_gpL / NA2SIO3_GPMOL


def edta_molpL(cleaner_strength_gpL: float, cleaner_edta_pct: float) -> float:
    """Return the Na4EDTA in the wash.

    Strength times mass share over molar mass.

    Parameters
    ----------
    cleaner_strength_gpL : float
        Cleaner in the circulating solution [gpL], 0 to 1e+06.
    cleaner_edta_pct : float
        Anhydrous Na4EDTA in the cleaner, by mass [pct], 0 to 100.

    Returns
    -------
    float
        Concentration [molpL].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Sum of atomic weights (from memory).
    """
    require_all(cleaner_strength_gpL=cleaner_strength_gpL, cleaner_edta_pct=cleaner_edta_pct)
    mass_gpL = cleaner_strength_gpL * cleaner_edta_pct * GRAM_SHARE
    return mass_gpL / NA4EDTA_GPMOL


def alkali_eqpL(
    naoh_molpL: float, carbonate_molpL: float, silicate_molpL: float, edta_molpL: float
) -> float:
    """Return the strong-base charge of the wash.

    Sodium of each salt: NaOH + 2 Na2CO3 + 2 Na2SiO3 + 4 Na4EDTA.

    Parameters
    ----------
    naoh_molpL : float
        Total NaOH [molpL], 0 to 100.
    carbonate_molpL : float
        Total carbonate [molpL], 0 to 20.
    silicate_molpL : float
        Total silicate [molpL], 0 to 20.
    edta_molpL : float
        Total EDTA [molpL], 0 to 20.

    Returns
    -------
    float
        Alkali [eqpL].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Charge balance (definition).
    """
    require_all(
        naoh_molpL=naoh_molpL,
        carbonate_molpL=carbonate_molpL,
        silicate_molpL=silicate_molpL,
        edta_molpL=edta_molpL,
    )
    salts = (naoh_molpL, carbonate_molpL, silicate_molpL, edta_molpL)
    return sum(charge * salt for charge, salt in zip(CHARGES, salts, strict=True))
