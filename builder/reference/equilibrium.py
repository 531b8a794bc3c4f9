"""Water and the weak anions in it: activities, ion product, alkali of a pH and pH of an alkali."""

import math
from dataclasses import dataclass
from functools import lru_cache

from scipy.optimize import brentq

ZERO_DEGC_K = 273.15  # definition
# density of water, kg/m3, ICUMSA SPS-4 at 0 Brix (second hand, two public source files)
DENSITY = (999.83952, 16.952577, -0.0079905127, -0.000046241757, 1.0584601e-7, -2.8103006e-10)
DENSITY_DIVISOR = 0.016887236  # same, per K
PERMITTIVITY = (87.74, -0.40008, 0.0009398, -0.00000141)  # Malmberg & Maryott 1956 (from memory)
DAVIES_FACTOR = 1824830.0  # Debye-Hueckel factor (from memory)
DAVIES_B = 0.3  # Davies 1962, linear term (from memory)
DAVIES_TOP_MOLPL = 0.5  # ionic strength up to which Davies holds; clamped here (from memory)
# log10 Kw: constant, T, 1/T, log10 T, T^2, phreeqc.dat 2024 (read)
LOG_KW = (293.29227, 0.1360833, -10576.913, -123.73158, -0.00006996455)
# log10 K: constant, T, 1/T, log10 T, 1/T^2, phreeqc.dat 2024 (read)
LOG_K1 = (-356.3094, -0.06091964, 21834.37, 126.8339, -1684915.0)
LOG_K2 = (-107.8871, -0.03252849, 5151.79, 38.92561, -563713.9)
LOG_KS1 = (-302.3724, -0.050698, 15669.69, 108.18466, -1119669.0)
LOG_KS12 = (-294.0184, -0.07265, 11204.49, 108.18466, -1119669.0)
LOG_KY1 = (10.948, 1223.8)  # EDTA, one H+: at 298.15 K, slope on 1/T, minteq.v4.dat (read)
LOG_KY2 = (17.221, 2141.7)  # EDTA, two H+, same
LOG_KN = (2.7, 305.95)  # EDTA, one Na+, same
REFERENCE_K = 298.15  # temperature of the EDTA values, same
BARE_CHARGES = (2, 2, 4)  # of CO3, H2SiO4 and EDTA without H+
LOWEST_PH, HIGHEST_PH = -2.0, 20.0  # beyond any pH of the species model
STEP_PH = 1e-3  # step of numeric slopes (rule of this package)
TRACE_EQPL = 1e-6  # alkali above which the search goes by its logarithm


def water_density_kgpL(temp_degC: float) -> float:
    """Return the density of water, a polynomial of degree 5 over 1 + b t (ICUMSA SPS-4)."""
    kgpm3 = sum(a * temp_degC**power for power, a in enumerate(DENSITY))
    return kgpm3 / (1.0 + DENSITY_DIVISOR * temp_degC) / 1000.0


@lru_cache(maxsize=4096)
def davies_slope_n(temp_degC: float) -> float:
    """Return the slope A of the Davies equation, base 10.

    A = 1824830 sqrt(rho) / (eps T)^1.5, Debye-Hueckel limiting law (from memory).
    """
    permittivity = sum(a * temp_degC**power for power, a in enumerate(PERMITTIVITY))
    thermal = permittivity * (temp_degC + ZERO_DEGC_K)
    return float(DAVIES_FACTOR * math.sqrt(water_density_kgpL(temp_degC)) / thermal**1.5)


def activity_coefficient_n(ionic_strength_molpL: float, temp_degC: float) -> float:
    """Return the activity coefficient of a monovalent ion.

    log10 g = -A (s/(1+s) - 0.3 I), s = sqrt(I), I not above 0.5, Davies 1962 (from memory).
    """
    strength = min(ionic_strength_molpL, DAVIES_TOP_MOLPL)
    root = math.sqrt(strength)
    exponent = -davies_slope_n(temp_degC) * (root / (1.0 + root) - DAVIES_B * strength)
    return float(10.0**exponent)


@lru_cache(maxsize=4096)
def log_kw_n(temp_degC: float) -> float:
    """Return log10 of the ion product of water.

    a + b T + c/T + d log10 T + e T^2, T in kelvin, phreeqc.dat 2024 (read).
    """
    kelvin = temp_degC + ZERO_DEGC_K
    a, b, c, d, e = LOG_KW
    return a + b * kelvin + c / kelvin + d * math.log10(kelvin) + e * kelvin**2


def log_k_n(factors: tuple[float, float, float, float, float], temp_degC: float) -> float:
    """Return log10 of a constant, a + b T + c/T + d log10 T + e/T^2 (form of phreeqc.dat)."""
    kelvin = temp_degC + ZERO_DEGC_K
    a, b, c, d, e = factors
    return a + b * kelvin + c / kelvin + d * math.log10(kelvin) + e / kelvin**2


@lru_cache(maxsize=4096)
def list_bindings(temp_degC: float) -> tuple[tuple[float, ...], ...]:
    """Return log10 of the cumulative H+ binding of CO3, H2SiO4 and EDTA, from bare upwards.

    Carbonate and silicate of phreeqc.dat 2024; EDTA by van 't Hoff, minteq.v4.dat (read).
    """
    k1, k2, ks1, ks12 = (log_k_n(k, temp_degC) for k in (LOG_K1, LOG_K2, LOG_KS1, LOG_KS12))
    lag = 1.0 / (temp_degC + ZERO_DEGC_K) - 1.0 / REFERENCE_K
    edta = (0.0, LOG_KY1[0] + LOG_KY1[1] * lag, LOG_KY2[0] + LOG_KY2[1] * lag)
    return (0.0, -k2, -k1 - k2), (0.0, ks1 - ks12, -ks12), edta


@lru_cache(maxsize=4096)
def log_kn_n(temp_degC: float) -> float:
    """Return log10 of the binding of Na+ to bare EDTA, by van 't Hoff, minteq.v4.dat (read)."""
    return LOG_KN[0] + LOG_KN[1] * (1.0 / (temp_degC + ZERO_DEGC_K) - 1.0 / REFERENCE_K)


def weigh_forms(
    pH: float, temp_degC: float, log_g: float, sodium_molpL: float
) -> list[list[tuple[float, int, int]]]:
    """Return (weight, alkali held, charge number) of the forms of CO3, silicate and EDTA.

    Form with k H+: 10^(log beta_k - k pH + (z0^2 - zk^2) log g), z = alkali held. The pair NaEDTA
    weighs 10^(log Kn + 8 log g) [Na], [Na] not paired, and holds 4 with a charge of 3.
    """
    forms = []
    for bare, binding in zip(BARE_CHARGES, list_bindings(temp_degC), strict=True):
        charges = range(bare, bare - len(binding), -1)
        forms.append(
            [
                (10.0 ** (beta - (bare - z) * pH + (bare * bare - z * z) * log_g), z, z)
                for beta, z in zip(binding, charges, strict=True)
            ]
        )
    edta = BARE_CHARGES[-1]
    pair = 10.0 ** (log_kn_n(temp_degC) + (edta**2 + 1 - (edta - 1) ** 2) * log_g) * sodium_molpL
    forms[-1].append((pair, edta, edta - 1))
    return forms


def sum_anions(
    pH: float, temp_degC: float, totals: tuple[float, ...], log_g: float, sodium_molpL: float
) -> tuple[float, float]:
    """Return the alkali that weak anions hold, and their sum c z^2."""
    held = squares = 0.0
    forms = weigh_forms(pH, temp_degC, log_g, sodium_molpL)
    for total, some in zip(totals, forms, strict=True):
        share = total / sum([weight for weight, _, _ in some])
        held += share * sum([weight * alkali for weight, alkali, _ in some])
        squares += share * sum([weight * z * z for weight, _, z in some])
    return held, squares


def find_free_sodium_molpL(
    pH: float, temp_degC: float, log_g: float, edta_molpL: float, sodium_eqpL: float
) -> float:
    """Return the sodium that is not paired with EDTA, the positive root of a quadratic.

    x + e k x / (w + k x) = N, k the pair's weight for each mol/L and w that of all other forms.
    """
    *others, (pair, _, _) = weigh_forms(pH, temp_degC, log_g, 1.0)[-1]
    rest = sum(weight for weight, *_ in others) / pair
    half = (rest + edta_molpL - sodium_eqpL) / 2.0
    root = math.hypot(half, math.sqrt(rest * sodium_eqpL))
    return rest * sodium_eqpL / (half + root) if half > 0.0 else root - half


@dataclass(frozen=True, slots=True)
class Medium:
    """What the ions of a settled solution feel, and what keeps its pH."""

    need_eqpL: float
    ionic_molpL: float
    log_g: float
    sodium_molpL: float  # not paired


def find_need_eqpL(
    pH: float, temp_degC: float, totals: tuple[float, ...], log_g: float, sodium_molpL: float
) -> float:
    """Return the alkali that keeps a pH among given activities and unpaired sodium.

    need = (10^(log Kw + pH) - 10^-pH)/g + alkali held by the weak anions (charge balance).
    """
    held, _ = sum_anions(pH, temp_degC, totals, log_g, sodium_molpL)
    return float((10.0 ** (log_kw_n(temp_degC) + pH) - 10.0**-pH) / 10.0**log_g + held)


def find_capacity_eqpL(
    pH: float, temp_degC: float, totals: tuple[float, ...], medium: Medium
) -> float:
    """Return dneed/dpH among given activities and unpaired sodium, by five points.

    (f(-2h) - 8 f(-h) + 8 f(h) - f(2h)) / 12h, exact to h^4.
    """

    def find(steps: float) -> float:
        there = pH + steps * STEP_PH
        return find_need_eqpL(there, temp_degC, totals, medium.log_g, medium.sodium_molpL)

    return (8.0 * (find(1.0) - find(-1.0)) - find(2.0) + find(-2.0)) / (12.0 * STEP_PH)


@lru_cache(maxsize=4096)
def settle(pH: float, temp_degC: float, totals: tuple[float, ...], sodium_eqpL: float) -> Medium:
    """Return a solution of a pH at its own ionic strength, a root (Brent).

    I = 1/2 sum c z^2, with sodium that covers at least the alkali, and the anion of an acid that
    has taken up the rest of it. Activities stand still above I = 0.5.
    """
    hydroxide_activity = 10.0 ** (log_kw_n(temp_degC) + pH)

    def find_medium(strength: float) -> Medium:
        log_g = math.log10(activity_coefficient_n(strength, temp_degC))
        sodium = find_free_sodium_molpL(pH, temp_degC, log_g, totals[-1], sodium_eqpL)
        held, squares = sum_anions(pH, temp_degC, totals, log_g, sodium)
        hydrogen, hydroxide = 10.0**-pH / 10.0**log_g, hydroxide_activity / 10.0**log_g
        need = hydroxide - hydrogen + held
        paired = sodium_eqpL - sodium
        strong = max(sodium_eqpL, need) - paired + max(0.0, sodium_eqpL - need)
        return Medium(need, 0.5 * (strong + hydrogen + hydroxide + squares), log_g, sodium)

    def surplus(strength: float) -> float:
        return find_medium(strength).ionic_molpL - strength

    if surplus(DAVIES_TOP_MOLPL) >= 0.0:
        return find_medium(DAVIES_TOP_MOLPL)
    return find_medium(float(brentq(surplus, 0.0, DAVIES_TOP_MOLPL, xtol=1e-16, rtol=1e-14)))


def need_eqpL(
    pH: float,
    temp_degC: float,
    carbonate_molpL: float,
    silicate_molpL: float,
    edta_molpL: float,
    sodium_eqpL: float,
) -> float:
    """Return the alkali that keeps a pH, by the charge balance at its own ionic strength."""
    totals = (carbonate_molpL, silicate_molpL, edta_molpL)
    return settle(pH, temp_degC, totals, sodium_eqpL).need_eqpL


@lru_cache(maxsize=256)
def solve_pH(
    alkali_eqpL: float,
    carbonate_molpL: float,
    silicate_molpL: float,
    edta_molpL: float,
    sodium_eqpL: float,
    temp_degC: float,
) -> float:
    """Return the pH of a solution, the root of need(pH) = alkali between two bounds (Brent)."""
    totals = (carbonate_molpL, silicate_molpL, edta_molpL)

    def surplus(pH: float) -> float:
        need = settle(pH, temp_degC, totals, sodium_eqpL).need_eqpL
        return math.asinh(need / TRACE_EQPL) - math.asinh(alkali_eqpL / TRACE_EQPL)

    return float(brentq(surplus, LOWEST_PH, HIGHEST_PH, xtol=1e-14, rtol=1e-15))
