"""Make-up water: what neutralises its chlorine stands here, the rest comes from beside."""

from builder.reference.ranges import require_all, require_choice
from builder.reference.season_water_carbonate import (
    CALCIUM_CARBONATE_MGPEQ,
    LOG_CALCITE,
    STRENGTH_PER_TDS,
    saturation_pH,
    water_bicarbonate_molpL,
    water_calcium_molpL,
)
from builder.reference.season_water_chlorine import (
    chlorine_after_mgpL,
    chlorine_exposure_mghpL,
    chlorine_life_pct,
    chlorine_rate_ph,
    chlorine_rest_h,
)
from builder.reference.season_water_hardness import (
    CALCIUM_CARBONATE_MGPMEQ,
    HARD_MOST_MGPLCACO3,
    MODERATE_MOST_MGPLCACO3,
    SOFT_MOST_MGPLCACO3,
    hardness_class_n,
    scale_g,
    water_alkali_cost_eqpL,
    water_cleaner_kg,
)
from builder.reference.season_water_saturation import (
    SATURATION_MOST_N,
    WATER_LEAST_DEGC,
    WATER_MOST_DEGC,
    WATER_PH_LEAST,
    WATER_PH_MOST,
    WATER_TDS_MOST_MGPL,
    saturation_index_n,
    saturation_ok,
    water_range_ok,
)
from builder.reference.season_water_standing import permeate_left_h, standing_short_h
from builder.reference.season_water_verdicts import (
    chlorine_ok,
    hardness_ok,
    permeate_water_ok,
    standing_ok,
)

__all__ = [
    "CALCIUM_CARBONATE_MGPEQ",
    "CALCIUM_CARBONATE_MGPMEQ",
    "HARD_MOST_MGPLCACO3",
    "LOG_CALCITE",
    "MG_PER_G",
    "MODERATE_MOST_MGPLCACO3",
    "NEUTRALISERS",
    "RATIO_ASCORBIC_N",
    "RATIO_BISULPHITE_N",
    "RATIO_METABISULPHITE_N",
    "SATURATION_MOST_N",
    "SOFT_MOST_MGPLCACO3",
    "STRENGTH_PER_TDS",
    "WATER_LEAST_DEGC",
    "WATER_MOST_DEGC",
    "WATER_PH_LEAST",
    "WATER_PH_MOST",
    "WATER_TDS_MOST_MGPL",
    "chlorine_after_mgpL",
    "chlorine_exposure_mghpL",
    "chlorine_life_pct",
    "chlorine_ok",
    "chlorine_rate_ph",
    "chlorine_rest_h",
    "hardness_class_n",
    "hardness_ok",
    "neutraliser_g",
    "neutraliser_ratio_n",
    "permeate_left_h",
    "permeate_water_ok",
    "saturation_index_n",
    "saturation_ok",
    "saturation_pH",
    "scale_g",
    "standing_ok",
    "standing_short_h",
    "water_alkali_cost_eqpL",
    "water_bicarbonate_molpL",
    "water_calcium_molpL",
    "water_cleaner_kg",
    "water_range_ok",
]

# mg per mg of chlorine in the field, AWWA guide to the disinfection of pipelines and storage
# facilities, table 7-2 (second hand)
RATIO_METABISULPHITE_N = 1.47
RATIO_BISULPHITE_N = 1.61
RATIO_ASCORBIC_N = 2.5
NEUTRALISERS = {
    "metabisulphite": RATIO_METABISULPHITE_N,
    "bisulphite": RATIO_BISULPHITE_N,
    "ascorbic": RATIO_ASCORBIC_N,
}
MG_PER_G = 1000.0  # milligrams (definition)
WHOLE_PCT = 100.0  # shares of one whole (definition)


def neutraliser_ratio_n(neutraliser: str) -> float:
    """Return the mass of neutraliser for one of chlorine.

    1.47 for metabisulphite, 1.61 for bisulphite, 2.5 for ascorbic acid.

    Parameters
    ----------
    neutraliser : str
        Neutraliser: metabisulphite, bisulphite or ascorbic [choice].

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
    AWWA guide, table 7-2 (second hand).
    """
    require_choice("neutraliser", neutraliser, tuple(NEUTRALISERS))
    return NEUTRALISERS[neutraliser]


def neutraliser_g(
    treated_water_L: float,
    chlorine_now_mgpL: float,
    neutraliser_ratio_n: float,
    neutraliser_excess_n: float,
    neutraliser_purity_pct: float,
) -> float:
    """Return the neutraliser for the water at hand.

    Chlorine in the water times ratio times excess, over the pure share.

    Parameters
    ----------
    treated_water_L : float
        Water to treat [L], 0 to 1e+09.
    chlorine_now_mgpL : float
        Chlorine to neutralise [mgpL], 0 to 1e+06.
    neutraliser_ratio_n : float
        Neutraliser per chlorine, by mass [n], 0 to 1000.
    neutraliser_excess_n : float
        Dose over the field ratio [n], 1 to 100.
    neutraliser_purity_pct : float
        Purity of the neutraliser [pct], 1e-09 to 100.

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
    AWWA guide, table 7-2 (second hand).
    """
    require_all(
        treated_water_L=treated_water_L,
        chlorine_now_mgpL=chlorine_now_mgpL,
        neutraliser_ratio_n=neutraliser_ratio_n,
        neutraliser_excess_n=neutraliser_excess_n,
        neutraliser_purity_pct=neutraliser_purity_pct,
    )
    chlorine_g = chlorine_now_mgpL / MG_PER_G * treated_water_L
    pure_g = chlorine_g * (neutraliser_ratio_n * neutraliser_excess_n)
    return pure_g / neutraliser_purity_pct * WHOLE_PCT
