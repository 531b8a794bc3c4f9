"""What is in the cleaner: its label, a generic composition, and the reading of the fresh wash.

A function that names no source is a definition of this project.
"""

from scipy.optimize import brentq

from builder.reference.comparison import Verdict, round_compared
from builder.reference.equilibrium import need_eqpL
from builder.reference.ph import ALKALI_LEAST_EQPL

GENERIC_PCT = (4.0, 12.0, 5.0, 7.0)  # NaOH, Na2CO3, Na2SiO3, Na4EDTA (own choice)
SHARE_LEAST_PCT, SHARE_MOST_PCT = 60.0, 150.0  # of the label's alkali (own trials)
ALKALI_TOP_EQPL = 1e4  # beyond any reading of the model (rule of this package)
NAOH_GPMOL = 39.997  # sum of atomic weights (from memory), as the next three
NA2CO3_GPMOL = 105.988
NA2SIO3_GPMOL = 122.063
NA4EDTA_GPMOL = 380.17
SALT_GPMOL = (NAOH_GPMOL, NA2CO3_GPMOL, NA2SIO3_GPMOL, NA4EDTA_GPMOL)
WHOLE_PCT = 100.0
BOTH, LABEL, GENERIC, UNKNOWN = 1.0, 2.0, 3.0, 4.0  # states of knowledge


def composition_n(
    cleaner_naoh_pct: float | None = None,
    cleaner_carbonate_pct: float | None = None,
    cleaner_silicate_pct: float | None = None,
    cleaner_edta_pct: float | None = None,
    fresh_pH: float | None = None,
    fresh_temp_degC: float | None = None,
) -> float:
    """Return 1 for label and reading, 2 for a label, 3 for a reading alone, 4 for neither.

    Any share makes a label, the upper end of a range does not; a reading needs its temperature.
    """
    shares = cleaner_naoh_pct, cleaner_carbonate_pct, cleaner_silicate_pct, cleaner_edta_pct
    label = any(share is not None for share in shares)
    if fresh_pH is not None and fresh_temp_degC is not None:
        return BOTH if label else GENERIC
    return LABEL if label else UNKNOWN


def find_used_pct(
    place: int, composition: float, lower: float | None, upper: float | None
) -> float:
    """Return the middle of a range, the one end typed, 0 for none, or the generic share."""
    if composition == UNKNOWN:
        raise ValueError("a cleaner without label and reading has no composition")
    if composition == GENERIC:
        return GENERIC_PCT[place]
    ends = [end for end in (lower, upper) if end is not None]
    return sum(ends) / len(ends) if ends else 0.0


def find_half_pct(composition: float, lower: float | None, upper: float | None) -> float:
    """Return half the width of a range on a label, 0 where there is none."""
    if composition not in {BOTH, LABEL} or lower is None or upper is None:
        return 0.0
    return abs(upper - lower) / 2.0


def naoh_molpL(
    composition_n: float,
    cleaner_strength_gpL: float,
    cleaner_naoh_pct: float | None = None,
    cleaner_naoh_to_pct: float | None = None,
) -> float:
    """Return the NaOH in the wash before a reading corrects it, strength times share / mass."""
    share = find_used_pct(0, composition_n, cleaner_naoh_pct, cleaner_naoh_to_pct)
    return cleaner_strength_gpL * share / WHOLE_PCT / NAOH_GPMOL


def carbonate_molpL(
    composition_n: float,
    cleaner_strength_gpL: float,
    cleaner_carbonate_pct: float | None = None,
    cleaner_carbonate_to_pct: float | None = None,
) -> float:
    """Return the Na2CO3 in the wash, strength times mass share over molar mass."""
    share = find_used_pct(1, composition_n, cleaner_carbonate_pct, cleaner_carbonate_to_pct)
    return cleaner_strength_gpL * share / WHOLE_PCT / NA2CO3_GPMOL


def silicate_molpL(
    composition_n: float,
    cleaner_strength_gpL: float,
    cleaner_silicate_pct: float | None = None,
    cleaner_silicate_to_pct: float | None = None,
) -> float:
    """Return the Na2SiO3 in the wash, strength times mass share over molar mass."""
    share = find_used_pct(2, composition_n, cleaner_silicate_pct, cleaner_silicate_to_pct)
    return cleaner_strength_gpL * share / WHOLE_PCT / NA2SIO3_GPMOL


def edta_molpL(
    composition_n: float,
    cleaner_strength_gpL: float,
    cleaner_edta_pct: float | None = None,
    cleaner_edta_to_pct: float | None = None,
) -> float:
    """Return the Na4EDTA in the wash, strength times mass share over molar mass."""
    share = find_used_pct(3, composition_n, cleaner_edta_pct, cleaner_edta_to_pct)
    return cleaner_strength_gpL * share / WHOLE_PCT / NA4EDTA_GPMOL


def label_alkali_eqpL(
    naoh_molpL: float, carbonate_molpL: float, silicate_molpL: float, edta_molpL: float
) -> float:
    """Return the alkali of the composition reckoned with, the sodium of its salts.

    NaOH + 2 Na2CO3 + 2 Na2SiO3 + 4 Na4EDTA (charge balance).
    """
    return naoh_molpL + 2.0 * carbonate_molpL + 2.0 * silicate_molpL + 4.0 * edta_molpL


def fresh_alkali_eqpL(
    fresh_pH: float,
    fresh_temp_degC: float,
    carbonate_molpL: float,
    silicate_molpL: float,
    edta_molpL: float,
) -> float:
    """Return the alkali A that the reading of the fresh wash shows.

    Root of need(pH; sodium A) = A (Brent), refused for water.
    """
    totals = (carbonate_molpL, silicate_molpL, edta_molpL)

    def surplus(alkali: float) -> float:
        return need_eqpL(fresh_pH, fresh_temp_degC, *totals, alkali) - alkali

    alkali = float(brentq(surplus, 0.0, ALKALI_TOP_EQPL, xtol=1e-17, rtol=1e-14))
    if alkali <= ALKALI_LEAST_EQPL:
        raise ValueError(f"a fresh wash of {alkali} eq/L is water")
    return alkali


def alkali_eqpL(
    composition_n: float,
    label_alkali_eqpL: float | None = None,
    fresh_alkali_eqpL: float | None = None,
) -> float:
    """Return the alkali of the wash: that of the reading, where there is none that of the label."""
    alkali = {LABEL: label_alkali_eqpL, UNKNOWN: None}.get(composition_n, fresh_alkali_eqpL)
    if alkali is None:
        raise ValueError("neither a reading nor a label tells the alkali")
    return alkali


def acting_naoh_pct(
    alkali_eqpL: float,
    carbonate_molpL: float,
    silicate_molpL: float,
    edta_molpL: float,
    cleaner_strength_gpL: float,
) -> float:
    """Return the NaOH that the cleaner acts with: the alkali that its other salts do not bring.

    Negative where some carbonate is bicarbonate or the EDTA is not wholly neutralised.
    """
    if cleaner_strength_gpL <= 0.0:
        raise ValueError("a wash without cleaner acts with no NaOH")
    salts_eqpL = label_alkali_eqpL(0.0, carbonate_molpL, silicate_molpL, edta_molpL)
    return WHOLE_PCT * NAOH_GPMOL * (alkali_eqpL - salts_eqpL) / cleaner_strength_gpL


def label_share_pct(
    composition_n: float, label_alkali_eqpL: float, fresh_alkali_eqpL: float
) -> float:
    """Return the alkali of the reading as a share of the label's; there must be a label."""
    if composition_n != BOTH or label_alkali_eqpL <= 0.0:
        raise ValueError("a share of the label needs a label and a reading")
    return WHOLE_PCT * fresh_alkali_eqpL / label_alkali_eqpL


def composition_ok(
    composition_n: float,
    cleaner_naoh_pct: float | None = None,
    cleaner_carbonate_pct: float | None = None,
    cleaner_silicate_pct: float | None = None,
    cleaner_edta_pct: float | None = None,
) -> Verdict:
    """Return whether the least shares are those of one cleaner: together <= 100 % at 15 digits."""
    if composition_n not in {BOTH, LABEL}:
        raise ValueError("there is no label")
    shares = cleaner_naoh_pct, cleaner_carbonate_pct, cleaner_silicate_pct, cleaner_edta_pct
    whole_pct = sum(share or 0.0 for share in shares)
    return "ok" if round_compared(whole_pct) <= WHOLE_PCT else "stop"


def fresh_reading_ok(fresh_pH: float, fresh_temp_degC: float | None = None) -> Verdict:
    """Return whether the reading of the fresh wash says at which temperature it was taken."""
    return "look" if fresh_temp_degC is None or fresh_pH is None else "ok"


def fresh_share_ok(label_share_pct: float) -> Verdict:
    """Return whether reading and label fit: 60 <= share <= 150 %."""
    return "ok" if SHARE_LEAST_PCT <= label_share_pct <= SHARE_MOST_PCT else "look"
