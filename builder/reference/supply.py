"""The water that washes and rinses are made with: chlorine, hardness, lime, stored permeate."""

import math

from scipy.integrate import quad
from scipy.optimize import brentq

from builder.reference.comparison import Verdict, round_compared
from builder.reference.equilibrium import activity_coefficient_n, log_kw_n

# mg per mg of chlorine in the field, AWWA guide to the disinfection of pipelines and storage
# facilities, table 7-2 (second hand)
RATIO_METABISULPHITE_N = 1.47
RATIO_BISULPHITE_N = 1.61
RATIO_ASCORBIC_N = 2.5
# upper ends of soft, moderately hard and hard water (USGS, read in three of its pages)
SOFT_MOST_MGPLCACO3 = 60.0
MODERATE_MOST_MGPLCACO3 = 120.0
HARD_MOST_MGPLCACO3 = 180.0
CALCIUM_CARBONATE_MGPEQ = 50043.5  # half the molar mass of CaCO3 (from memory)
NOISE_DIGITS = 9  # decimals of a difference of readings that count (rule of this package)
GONE = 50.0  # rate times time after which less than 1e-21 is left (rule of this package)
MG_PER_G = 1000.0  # milligrams (definition)
WHOLE_PCT = 100.0  # shares of one whole (definition)
# log10 of the solubility product: constant, T, 1/T, log10 T, wateq4f.dat (Plummer & Busenberg
# 1982), read
LOG_CALCITE = (-171.9065, -0.077993, 2839.319, 71.595)
# second dissociation of carbonic acid, same and 1/T^2, phreeqc.dat 2024 (read)
LOG_K2 = (-107.8871, -0.03252849, 5151.79, 38.92561, -563713.9)
STRENGTH_PER_TDS = 2.5e-5  # mol/L of ionic strength per mg/L, Standard Methods 2330 (from memory)
SATURATION_MOST_N = 0.3  # no scale expected within 0.3 of zero (from memory)
# where the index holds: carbonate complexes matter above pH 8.5 (own comparison with PHREEQC)
WATER_PH_LEAST, WATER_PH_MOST = 6.5, 8.5
WATER_LEAST_DEGC, WATER_MOST_DEGC = 2.0, 40.0
WATER_TDS_MOST_MGPL = 1000.0
LOWEST_PH, HIGHEST_PH = -20.0, 60.0  # wide enough for any trace of calcium (rule of this package)
ZERO_DEGC_K = 273.15  # kelvin (definition)


def chlorine_rate_ph(
    chlorine_first_mgpL: float, chlorine_second_mgpL: float, chlorine_between_h: float
) -> float:
    """Return the rate at which chlorine decays; there is none unless first > second > 0.

    ln(first/second)/time: first order, a fair assumption for a network (read: abstract).
    """
    first, second = round_compared(chlorine_first_mgpL), round_compared(chlorine_second_mgpL)
    if not first > second > 0.0:
        raise ValueError(f"chlorine of {second} mg/L after {first} mg/L gives no rate of decay")
    return math.log(chlorine_first_mgpL / chlorine_second_mgpL) / chlorine_between_h


def chlorine_after_mgpL(
    chlorine_first_mgpL: float, chlorine_rate_ph: float, chlorine_standing_h: float
) -> float:
    """Return the chlorine left after standing: first exp(-rate t), of first order as above."""
    return chlorine_first_mgpL * math.exp(-chlorine_rate_ph * chlorine_standing_h)


def chlorine_rest_h(
    chlorine_first_mgpL: float, chlorine_rate_ph: float, chlorine_limit_mgpL: float
) -> float:
    """Return how long the water stands until its chlorine is at the limit, never below 0.

    Numerical root of first exp(-rate t) = limit, of first order as above.
    """
    excess = chlorine_first_mgpL / chlorine_limit_mgpL
    if excess <= 1.0:
        return 0.0
    decays = brentq(lambda x: excess * math.exp(-x) - 1.0, 0.0, excess, xtol=1e-18, rtol=1e-15)
    return float(decays) / chlorine_rate_ph


def chlorine_exposure_mghpL(
    chlorine_second_mgpL: float, chlorine_rate_ph: float, chlorine_contact_h: float
) -> float:
    """Return the chlorine times time that the membrane sees.

    Integral of second exp(-rate t) over the contact, by quadrature, of first order as above.
    """
    decays = min(chlorine_rate_ph * chlorine_contact_h, GONE)
    integral = quad(lambda x: math.exp(-x), 0.0, decays, epsabs=0.0, epsrel=1e-13)[0]
    return chlorine_second_mgpL * integral / chlorine_rate_ph


def chlorine_life_pct(chlorine_exposure_mghpL: float, chlorine_life_mghpL: float) -> float:
    """Return the share of the membrane's life that the exposure takes.

    100 exposure/life: linear damage, common practice, no source.
    """
    return WHOLE_PCT * chlorine_exposure_mghpL / chlorine_life_mghpL


def chlorine_off_mgpL(chlorine_step_mgpL: float) -> float:
    """Return the most that one reading can be off, half a step of the kit (definition)."""
    return chlorine_step_mgpL / 2.0


def chlorine_fast_ph(
    chlorine_first_mgpL: float,
    chlorine_second_mgpL: float,
    chlorine_between_h: float,
    chlorine_off_mgpL: float,
    chlorine_rate_ph: float,
) -> float:
    """Return the fastest decay that the kit allows for; there must be one, and some chlorine left.

    From first + half a step to second - half a step, of first order as above.
    """
    least_mgpL = round(chlorine_second_mgpL - chlorine_off_mgpL, NOISE_DIGITS)
    if least_mgpL <= 0.0:
        raise ValueError(f"a second reading of {least_mgpL} mg/L may be none at all")
    most_mgpL = chlorine_first_mgpL + chlorine_off_mgpL
    return math.log(most_mgpL / (chlorine_second_mgpL - chlorine_off_mgpL)) / chlorine_between_h


def chlorine_proven_mgpL(
    chlorine_first_mgpL: float, chlorine_second_mgpL: float, chlorine_off_mgpL: float
) -> float:
    """Return the drop between the readings that the kit proves, less than 0 where it proves none.

    first - second - twice what one reading can be off (definition).
    """
    return (chlorine_first_mgpL - chlorine_off_mgpL) - (chlorine_second_mgpL + chlorine_off_mgpL)


def chlorine_slow_ph(
    chlorine_first_mgpL: float,
    chlorine_second_mgpL: float,
    chlorine_between_h: float,
    chlorine_off_mgpL: float,
    chlorine_rate_ph: float,
) -> float:
    """Return the slowest decay that the kit allows for; the readings must be apart.

    From first - half a step to second + half a step, of first order as above.
    """
    first_mgpL = chlorine_first_mgpL - chlorine_off_mgpL
    second_mgpL = chlorine_second_mgpL + chlorine_off_mgpL
    if round(first_mgpL - second_mgpL, NOISE_DIGITS) <= 0.0:
        raise ValueError("the kit does not tell the readings apart")
    return math.log(first_mgpL / second_mgpL) / chlorine_between_h


def chlorine_rest_least_h(
    chlorine_first_mgpL: float,
    chlorine_off_mgpL: float,
    chlorine_fast_ph: float,
    chlorine_limit_mgpL: float,
) -> float:
    """Return the shortest standing that may do, by the fastest decay from first + half a step."""
    most_mgpL = chlorine_first_mgpL + chlorine_off_mgpL
    return chlorine_rest_h(most_mgpL, chlorine_fast_ph, chlorine_limit_mgpL)


def chlorine_rest_most_h(
    chlorine_first_mgpL: float,
    chlorine_off_mgpL: float,
    chlorine_slow_ph: float,
    chlorine_limit_mgpL: float,
) -> float:
    """Return the standing that will do, by the slowest decay from first - half a step."""
    least_mgpL = chlorine_first_mgpL - chlorine_off_mgpL
    return chlorine_rest_h(least_mgpL, chlorine_slow_ph, chlorine_limit_mgpL)


def chlorine_ok(
    chlorine_rate_ph: float, chlorine_standing_h: float, chlorine_rest_most_h: float | None = None
) -> Verdict:
    """Return ok where the water stands as long as the slowest decay wants, else stop.

    Stop also where the kit cannot tell how long that is (definition).
    """
    if chlorine_rest_most_h is None:
        return "stop"
    long_enough = round_compared(chlorine_standing_h) >= round_compared(chlorine_rest_most_h)
    return "ok" if long_enough else "stop"


def standing_short_h(
    chlorine_standing_h: float, standing_least_h: float, standing_most_h: float
) -> float:
    """Return how much longer the water has to stand, whichever limit is the smaller.

    max(0, min(least, most) - standing): 24 to 48 h, common practice, no source.
    """
    return max(0.0, min(standing_least_h, standing_most_h) - chlorine_standing_h)


def standing_ok(
    chlorine_standing_h: float, standing_least_h: float, standing_most_h: float
) -> Verdict:
    """Return ok where the water stands as long as the smaller limit, else look.

    24 to 48 h: common practice, no source.
    """
    least_h = min(standing_least_h, standing_most_h)
    long_enough = round_compared(chlorine_standing_h) >= round_compared(least_h)
    return "ok" if long_enough else "look"


def neutraliser_ratio_n(neutraliser: str) -> float:
    """Return the mass of neutraliser for one of chlorine: AWWA guide, table 7-2 (second hand)."""
    ratios = {
        "metabisulphite": RATIO_METABISULPHITE_N,
        "bisulphite": RATIO_BISULPHITE_N,
        "ascorbic": RATIO_ASCORBIC_N,
    }
    return ratios[neutraliser]


def neutraliser_g(
    treated_water_L: float,
    chlorine_now_mgpL: float,
    neutraliser_ratio_n: float,
    neutraliser_excess_n: float,
    neutraliser_purity_pct: float,
) -> float:
    """Return the neutraliser for the water at hand.

    Water times chlorine times ratio times excess, over the purity (mass balance).
    """
    chlorine_g = treated_water_L * chlorine_now_mgpL / MG_PER_G
    purity = neutraliser_purity_pct / WHOLE_PCT
    return chlorine_g * neutraliser_ratio_n * neutraliser_excess_n / purity


def hardness_class_n(hardness_mgpLCaCO3: float) -> float:
    """Return 1 for soft to 4 for very hard: 1 + the limits of 60, 120 and 180 exceeded (USGS)."""
    limits = SOFT_MOST_MGPLCACO3, MODERATE_MOST_MGPLCACO3, HARD_MOST_MGPLCACO3
    return 1.0 + sum(round_compared(hardness_mgpLCaCO3) > limit for limit in limits)


def hardness_ok(hardness_class_n: float) -> Verdict:
    """Return ok for soft water, else look (definition of this project)."""
    return "ok" if hardness_class_n == 1.0 else "look"


def permeate_left_h(permeate_stored_most_h: float, permeate_stored_h: float) -> float:
    """Return how much longer stored permeate may be used: max(0, most - age) (definition)."""
    return max(0.0, permeate_stored_most_h - permeate_stored_h)


def permeate_water_ok(
    permeate_stored_h: float, permeate_stored_most_h: float, permeate_tank: str
) -> Verdict:
    """Return stop in other metal, look where stored for too long, else ok.

    Permeate dissolves metals; store it for a few hours only: Centre ACER (second hand).
    """
    if permeate_tank == "other_metal":
        return "stop"
    fresh = round_compared(permeate_stored_h) <= round_compared(permeate_stored_most_h)
    return "ok" if fresh else "look"


def water_calcium_molpL(calcium_mgpLCaCO3: float) -> float:
    """Return the calcium: hardness over the molar mass of CaCO3; none has no index (definition)."""
    if calcium_mgpLCaCO3 <= 0.0:
        raise ValueError("water without calcium has no saturation index")
    return calcium_mgpLCaCO3 / (2.0 * CALCIUM_CARBONATE_MGPEQ)


def _carbonate_ratio_n(pH: float, temp_degC: float, g: float) -> float:
    """Return CO3/HCO3 at a pH: K2/(aH g^3), as gammas are g for HCO3 and g^4 for CO3."""
    kelvin = temp_degC + ZERO_DEGC_K
    a, b, c, d, e = LOG_K2
    log_k2 = a + b * kelvin + c / kelvin + d * math.log10(kelvin) + e / kelvin**2
    return float(10.0 ** (log_k2 + pH) / g**3)


def _saturation_n(
    temp_degC: float, g: float, calcium_molpL: float, carbonate_molpL: float
) -> float:
    """Return log10 of ion activity product over solubility product; both gammas are g^4."""
    kelvin = temp_degC + ZERO_DEGC_K
    a, b, c, d = LOG_CALCITE
    log_ks = a + b * kelvin + c / kelvin + d * math.log10(kelvin)
    return math.log10(calcium_molpL) + math.log10(carbonate_molpL) + 8.0 * math.log10(g) - log_ks


def water_bicarbonate_molpL(
    water_pH: float, water_temp_degC: float, water_tds_mgpL: float, alkalinity_mgpLCaCO3: float
) -> float:
    """Return the bicarbonate of the water, where hydroxide leaves any.

    Alkalinity = HCO3 + 2 CO3 + OH - H (definition); constants of phreeqc.dat 2024 (read).
    """
    g = activity_coefficient_n(STRENGTH_PER_TDS * water_tds_mgpL, water_temp_degC)
    hydroxide_molpL = 10.0 ** (log_kw_n(water_temp_degC) + water_pH) / g
    hydrogen_molpL = 10.0**-water_pH / g
    alkalinity_eqpL = alkalinity_mgpLCaCO3 / CALCIUM_CARBONATE_MGPEQ
    carbonate_eqpL = float(alkalinity_eqpL - (hydroxide_molpL - hydrogen_molpL))
    if carbonate_eqpL <= 0.0:
        raise ValueError(f"alkalinity of {alkalinity_eqpL} eq/L leaves no bicarbonate")
    return carbonate_eqpL / (1.0 + 2.0 * _carbonate_ratio_n(water_pH, water_temp_degC, g))


def saturation_pH(
    water_temp_degC: float,
    water_tds_mgpL: float,
    water_calcium_molpL: float,
    water_bicarbonate_molpL: float,
) -> float:
    """Return the pH at which the water would be just saturated with calcite.

    Numerical root of log10(Ca CO3 g^8/Ks) = 0, where CO3 is what the pH makes of the HCO3:
    Standard Methods 2330 B (from memory); phreeqc.dat 2024 and wateq4f.dat (read).
    """
    g = activity_coefficient_n(STRENGTH_PER_TDS * water_tds_mgpL, water_temp_degC)

    def index_n(pH: float) -> float:
        carbonate_molpL = water_bicarbonate_molpL * _carbonate_ratio_n(pH, water_temp_degC, g)
        return _saturation_n(water_temp_degC, g, water_calcium_molpL, carbonate_molpL)

    return float(brentq(index_n, LOWEST_PH, HIGHEST_PH, xtol=1e-14, rtol=1e-15))


def saturation_index_n(
    water_pH: float,
    water_temp_degC: float,
    water_tds_mgpL: float,
    calcium_mgpLCaCO3: float,
    alkalinity_mgpLCaCO3: float,
) -> float:
    """Return the saturation index of calcite from the ions, without a saturation pH.

    log10(Ca CO3 g^8/Ks): Standard Methods 2330 B (from memory); constants as above (read).
    """
    water = water_pH, water_temp_degC, water_tds_mgpL
    g = activity_coefficient_n(STRENGTH_PER_TDS * water_tds_mgpL, water_temp_degC)
    bicarbonate_molpL = water_bicarbonate_molpL(*water, alkalinity_mgpLCaCO3)
    carbonate_molpL = bicarbonate_molpL * _carbonate_ratio_n(water_pH, water_temp_degC, g)
    calcium_molpL = water_calcium_molpL(calcium_mgpLCaCO3)
    return _saturation_n(water_temp_degC, g, calcium_molpL, carbonate_molpL)


def saturation_ok(saturation_index_n: float) -> Verdict:
    """Return ok up to an index of 0.3, else look: no scale expected so far (from memory)."""
    return "ok" if round_compared(saturation_index_n) <= SATURATION_MOST_N else "look"


def water_range_ok(water_pH: float, water_temp_degC: float, water_tds_mgpL: float) -> Verdict:
    """Return ok where the index holds, else look: pH 6.5 to 8.5, 2 to 40 degC, 1000 mg/L.

    Range of an own comparison with PHREEQC 2024 (definition of this project).
    """
    within = (
        WATER_PH_LEAST <= round_compared(water_pH) <= WATER_PH_MOST
        and WATER_LEAST_DEGC <= round_compared(water_temp_degC) <= WATER_MOST_DEGC
        and round_compared(water_tds_mgpL) <= WATER_TDS_MOST_MGPL
    )
    return "ok" if within else "look"
