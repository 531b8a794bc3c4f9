"""Sugar in the permeate: temperature correction of the reading, passage and loss."""

from builder.reference.comparison import Verdict, round_compared

SUGAR_BASE_DEGC = 20.0  # temperature of refractometer scales, OIV-MA-AS2-02 (read)
# correction per K and per K^2, in powers of reading/10: own fit to OIV-MA-AS2-02 table I (read)
# and the refractive index of water of the IAPWS
PER_K = (0.06152545, 0.00814041, -0.00118659)
PER_K2 = (0.00119483, -0.00020348)
FIT_STEP_BRIX = 10.0  # step of the reading in that fit (definition)
PERMEATE_DENSITY_KGPL = 1.0  # error 0.2 per cent (definition of this project)
WHOLE_PCT = 100.0  # shares of one whole (definition)


def sugar_gap_degC(sugar_instrument: str, sugar_temp_degC: float | None = None) -> float:
    """Return how far the sample lies from the temperature of the scale.

    t - 20; 0 for a compensated instrument or an unknown temperature: OIV-MA-AS2-02 (read).
    """
    if sugar_instrument == "compensated" or sugar_temp_degC is None:
        return 0.0
    return sugar_temp_degC - SUGAR_BASE_DEGC


def sugar_tens_n(sugar_reading_brix: float) -> float:
    """Return the reading in steps of the fit: reading/10 (definition of this project)."""
    return sugar_reading_brix / FIT_STEP_BRIX


def sugar_shift_brix(sugar_gap_degC: float, sugar_tens_n: float) -> float:
    """Return what the fit adds to a reading, from 2 to 30 degC and up to 40 Brix.

    d (a0 + a1 b + a2 b^2) + d^2 (c0 + c1 b): own fit to OIV-MA-AS2-02, table I (read).
    """
    gap, tens = sugar_gap_degC, sugar_tens_n
    per_K = PER_K[0] + PER_K[1] * tens + PER_K[2] * tens**2
    per_K2 = PER_K2[0] + PER_K2[1] * tens
    return gap * per_K + gap**2 * per_K2


def sugar_correction_brix(
    sugar_instrument: str, sugar_reading_brix: float, sugar_temp_degC: float | None = None
) -> float:
    """Return the correction to add to a reading; a plain instrument needs its temperature.

    The fit at t - 20 and reading/10; 0 for a compensated instrument: OIV-MA-AS2-02 (read).
    """
    if sugar_instrument == "compensated":
        return 0.0
    if sugar_temp_degC is None:
        raise ValueError("a plain instrument has no correction without its temperature")
    gap_degC = sugar_temp_degC - SUGAR_BASE_DEGC
    return sugar_shift_brix(gap_degC, sugar_reading_brix / FIT_STEP_BRIX)


def sugar_brix(
    sugar_reading_brix: float, sugar_zero_brix: float, sugar_correction_brix: float
) -> float:
    """Return the sugar of the permeate: reading - zero + correction, never below 0 (definition)."""
    return max(0.0, sugar_reading_brix - sugar_zero_brix + sugar_correction_brix)


def sugar_seen_brix(sugar_brix: float, sugar_resolution_brix: float) -> float:
    """Return the sugar where the instrument can see it: above its resolution only.

    Resolution of 0.1 per cent by mass: OIV-MA-AS2-02 (read).
    """
    if round_compared(sugar_brix) <= round_compared(sugar_resolution_brix):
        raise ValueError(f"{sugar_brix} brix is not above a resolution of {sugar_resolution_brix}")
    return sugar_brix


def sugar_passage_pct(sugar_seen_brix: float, feed_sugar_brix: float) -> float:
    """Return the permeate's sugar as a share of the sap's: 100 permeate/sap (definition)."""
    return WHOLE_PCT * sugar_seen_brix / feed_sugar_brix


def sugar_carried_kgph(brix: float, sugar_flow_Lph: float) -> float:
    """Return the sugar that the permeate carries off: flow, at 1 kg/L, times brix/100 (balance)."""
    return sugar_flow_Lph * PERMEATE_DENSITY_KGPL * brix / WHOLE_PCT


def sugar_ok(
    sugar_brix: float,
    sugar_resolution_brix: float,
    sugar_alarm_brix: float,
    sugar_since_h: float,
    sugar_wait_h: float,
) -> Verdict:
    """Return ok up to the resolution; look up to the alarm before the wait is over; else stop.

    2 to 3 h after a start or a wash: common practice, no source.
    """
    sugar = round_compared(sugar_brix)
    if sugar <= round_compared(sugar_resolution_brix):
        return "ok"
    little = sugar <= round_compared(sugar_alarm_brix)
    early = round_compared(sugar_since_h) < round_compared(sugar_wait_h)
    return "look" if little and early else "stop"
