"""Sugar solutions: density, separation, and sap or water for each litre of syrup."""

from builder.reference.ranges import require, require_all

# density in kg/m3, ICUMSA SPS-4 (second hand, two public source files): water over t, then
# powers of w (mass share) for each power of (t - 20)/100
WATER = (999.83952, 16.952577, -0.0079905127, -0.000046241757, 1.0584601e-7, -2.8103006e-10)
WATER_DIVISOR = 0.016887236  # same, per K
SUCROSE = (
    (0.0, 385.1761, 135.3705, 40.9299, -3.9643, 13.4853, -17.289),
    (0.0, -46.272, -7.172, 1.1597, 5.1126, 17.5254),
    (0.0, 59.7712, 7.2491, 12.363, -35.4791),
    (0.0, -47.2207, -21.6977, 27.6301),
    (0.0, 18.3184, 12.3081),
)
REFERENCE_DEGC = 20.0  # temperature of Brix tables (definition)
SAP_LEAST_BRIX = 1e-6  # below this there is no sap (rule of this package)
MOST_BRIX = 85.0  # top of the tables of sucrose (rule of this package)
KG_PER_T = 1000.0  # kg/m3 to kg/L (definition)
WHOLE_PCT = 100.0  # shares of one whole (definition)


def _polynomial(factors: tuple[float, ...], value: float) -> float:
    total = 0.0
    for factor in reversed(factors):
        total = total * value + factor
    return total


def sugar_density_kgpL(brix: float, temp_degC: float) -> float:
    """Return the density of a sucrose solution.

    Density of water plus a polynomial in mass share and temperature, by Horner.

    Parameters
    ----------
    brix : float
        Sugar [brix], 0 to 85.
    temp_degC : float
        Temperature [degC], 0 to 60.

    Returns
    -------
    float
        Density [kgpL].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    ICUMSA SPS-4 (second hand).
    """
    require_all(temp_degC=temp_degC)
    require("brix", brix, "brix", 0.0, MOST_BRIX)
    water = _polynomial(WATER, temp_degC) / (1.0 + WATER_DIVISOR * temp_degC)
    share = brix / WHOLE_PCT
    gap = (temp_degC - REFERENCE_DEGC) / WHOLE_PCT
    sucrose = _polynomial(tuple(_polynomial(row, share) for row in SUCROSE), gap)
    return (water + sucrose) / KG_PER_T


def separation_pct(feed_brix: float, concentrate_brix: float) -> float:
    """Return the water taken out by concentrating, by mass of the sap.

    100 (1 - feed/concentrate), all sugar staying in the concentrate.

    Parameters
    ----------
    feed_brix : float
        Sugar of the sap [brix], 0 to 100.
    concentrate_brix : float
        Sugar of the concentrate [brix], 1e-06 to 100.

    Returns
    -------
    float
        Share [pct].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Mass balance of the sugar (definition).
    """
    require_all(feed_brix=feed_brix, concentrate_brix=concentrate_brix)
    return WHOLE_PCT * (concentrate_brix - feed_brix) / concentrate_brix


def sap_per_syrup_n(sap_brix: float, syrup_brix: float) -> float:
    """Return the litres of sap for one litre of syrup.

    Sugar in a litre of syrup over sugar in a litre of sap, both at 20 degC.

    Parameters
    ----------
    sap_brix : float
        Sugar of what is boiled [brix], 1e-06 to 85.
    syrup_brix : float
        Sugar of the syrup [brix], 1e-06 to 85.

    Returns
    -------
    float
        Ratio of volumes [n].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Mass balance of the sugar (definition).
    """
    require("sap_brix", sap_brix, "brix", SAP_LEAST_BRIX, MOST_BRIX)
    require("syrup_brix", syrup_brix, "brix", SAP_LEAST_BRIX, MOST_BRIX)
    syrup = sugar_density_kgpL(syrup_brix, REFERENCE_DEGC) * syrup_brix
    return syrup / (sugar_density_kgpL(sap_brix, REFERENCE_DEGC) * sap_brix)


def water_per_syrup_n(sap_brix: float, syrup_brix: float) -> float:
    """Return the litres of water to boil off for one litre of syrup.

    Mass of sap less that of syrup, over the density of water at 20 degC.

    Parameters
    ----------
    sap_brix : float
        Sugar of what is boiled [brix], 1e-06 to 85.
    syrup_brix : float
        Sugar of the syrup [brix], 1e-06 to 85.

    Returns
    -------
    float
        Ratio of volumes [n].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Mass balance (definition).
    """
    sap_kg = sap_per_syrup_n(sap_brix, syrup_brix) * sugar_density_kgpL(sap_brix, REFERENCE_DEGC)
    water_kg = sap_kg - sugar_density_kgpL(syrup_brix, REFERENCE_DEGC)
    require("syrup_brix", syrup_brix, "brix", SAP_LEAST_BRIX, MOST_BRIX)
    return water_kg / sugar_density_kgpL(0.0, REFERENCE_DEGC)
