"""Temperature correction of a sugar reading."""

from builder.reference.ranges import require, require_all, require_choice, require_given

INSTRUMENTS = ("compensated", "plain")  # definition of this project
SUGAR_BASE_DEGC = 20.0  # temperature of refractometer scales, OIV-MA-AS2-02 (read)
# correction per K and per K^2, in powers of reading/10: own fit to OIV-MA-AS2-02 table I (read)
# and the refractive index of water of the IAPWS
PER_K = (0.06152545, 0.00814041, -0.00118659)
PER_K2 = (0.00119483, -0.00020348)
FIT_STEP_BRIX = 10.0  # step of the reading in that fit (definition)
PLAIN_LEAST_DEGC, PLAIN_MOST_DEGC = 2.0, 30.0  # range of that fit (definition)
PLAIN_MOST_BRIX = 40.0  # same (definition)


def _polynomial(factors: tuple[float, ...], value: float) -> float:
    total = 0.0
    for factor in reversed(factors):
        total = total * value + factor
    return total


def sugar_gap_degC(sugar_instrument: str, sugar_temp_degC: float | None = None) -> float:
    """Return how far the sample lies from the temperature of the scale.

    Temperature less 20 degC; 0 for a compensated instrument, or where the temperature is missing.

    Parameters
    ----------
    sugar_instrument : str
        Instrument: compensated or plain [choice].
    sugar_temp_degC : float, optional
        Temperature of the sample [degC], -60 to 60.

    Returns
    -------
    float
        Difference [degC].

    Raises
    ------
    ValueError
        A value lies outside its range or is no choice.

    References
    ----------
    OIV-MA-AS2-02, temperature of the scale (read).
    """
    require_choice("sugar_instrument", sugar_instrument, INSTRUMENTS)
    require_given(sugar_temp_degC=sugar_temp_degC)
    if sugar_instrument == "compensated" or sugar_temp_degC is None:
        return 0.0
    return sugar_temp_degC - SUGAR_BASE_DEGC


def sugar_tens_n(sugar_reading_brix: float) -> float:
    """Return the reading in steps of the fit.

    Reading over 10 Brix.

    Parameters
    ----------
    sugar_reading_brix : float
        Reading of the instrument [brix], 0 to 100.

    Returns
    -------
    float
        Steps [n].

    Raises
    ------
    ValueError
        The value lies outside its range.

    References
    ----------
    Definition of this project.
    """
    require_all(sugar_reading_brix=sugar_reading_brix)
    return sugar_reading_brix / FIT_STEP_BRIX


def sugar_shift_brix(sugar_gap_degC: float, sugar_tens_n: float) -> float:
    """Return the temperature correction of the fit, to add to a reading.

    Polynomial in the difference to 20 degC and in the reading, by Horner.

    Parameters
    ----------
    sugar_gap_degC : float
        Sample less scale, in temperature [degC], -80 to 40.
    sugar_tens_n : float
        Reading in steps of 10 Brix [n], 0 to 10.

    Returns
    -------
    float
        Correction [brix].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Own fit to OIV-MA-AS2-02, table I (read).
    """
    require_all(sugar_gap_degC=sugar_gap_degC, sugar_tens_n=sugar_tens_n)
    factors = (_polynomial(PER_K, sugar_tens_n), _polynomial(PER_K2, sugar_tens_n))
    return sugar_gap_degC * _polynomial(factors, sugar_gap_degC)


def sugar_correction_brix(
    sugar_instrument: str, sugar_reading_brix: float, sugar_temp_degC: float | None = None
) -> float:
    """Return the temperature correction to add to a reading.

    0 for a compensated instrument; else a polynomial in the difference to 20 degC and the reading.
    The two ranges are those of a plain instrument, which needs its temperature.

    Parameters
    ----------
    sugar_instrument : str
        Instrument: compensated or plain [choice].
    sugar_reading_brix : float
        Reading of the instrument [brix], 0 to 40.
    sugar_temp_degC : float, optional
        Temperature of the sample [degC], 2 to 30.

    Returns
    -------
    float
        Correction [brix].

    Raises
    ------
    ValueError
        A value lies outside its range or is no choice, or a plain one lacks its temperature.

    References
    ----------
    Own fit to OIV-MA-AS2-02, table I (read).
    """
    require_choice("sugar_instrument", sugar_instrument, INSTRUMENTS)
    if sugar_instrument == "compensated":
        require_all(sugar_reading_brix=sugar_reading_brix)
        require_given(sugar_temp_degC=sugar_temp_degC)
        return 0.0
    require("sugar_reading_brix", sugar_reading_brix, "brix", 0.0, PLAIN_MOST_BRIX)
    require("sugar_temp_degC", sugar_temp_degC, "degC", PLAIN_LEAST_DEGC, PLAIN_MOST_DEGC)
    gap = sugar_gap_degC(sugar_instrument, sugar_temp_degC)
    return sugar_shift_brix(gap, sugar_tens_n(sugar_reading_brix))
