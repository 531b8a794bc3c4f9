"""Verdicts: ok, look or stop; those on pH stand here, the others come from beside."""

from builder.reference.ranges import require, require_all
from builder.reference.verdicts_entries import Verdict, annulus_ok, composition_ok, core_ok
from builder.reference.verdicts_volumes import (
    RINSE_VOLUMES_LEAST_N,
    WOUND_RATIO_MIN_N,
    rinse_ok,
    solution_ok,
    tank_ok,
    wound_ok,
)

__all__ = [
    "RINSE_VOLUMES_LEAST_N",
    "WOUND_RATIO_MIN_N",
    "Verdict",
    "annulus_ok",
    "ceiling_ok",
    "composition_ok",
    "converged_ok",
    "core_ok",
    "end_floor_ok",
    "model_ok",
    "reading_ok",
    "rinse_ok",
    "solution_ok",
    "start_floor_ok",
    "tank_ok",
    "wound_ok",
]

MODEL_U_PH = 0.05  # uncertainty of the pH model, carbonate-rich, own comparison
STEP_LARGEST_PH = 0.0005  # largest last step of a solver that counts as converged (no source)
MODEL_FLOOR_PH = 7.5  # lowest pH that the model is asked for (common practice, no source)
MODEL_CEILING_PH = 13.75  # highest, a little above the tested 13.6 (no source)
IONIC_MAX = 0.5  # ionic strength in mol/L at which the model is clamped (definition)
FARTHEST_PH = 20.0  # end of the ranges of margins and steps (common practice, no source)


def _judge_margin(margin_pH: float) -> Verdict:
    """Return the verdict on a margin that the model's uncertainty may eat up."""
    if margin_pH < 0.0:
        return "stop"
    return "look" if margin_pH < MODEL_U_PH else "ok"


def ceiling_ok(ceiling_margin_pH: float) -> Verdict:
    """Return whether the fresh wash stays below the ceiling.

    Stop below 0, look from 0 to below the model's uncertainty, ok from there.

    Parameters
    ----------
    ceiling_margin_pH : float
        Ceiling less pH of the fresh wash [pH], -20 to 20.

    Returns
    -------
    str
        Verdict [ok].

    Raises
    ------
    ValueError
        The value lies outside its range.

    References
    ----------
    Own comparison with phreeqc.dat 2024 and pitzer.dat (definition of this project).
    """
    require("ceiling_margin_pH", ceiling_margin_pH, "pH", -FARTHEST_PH, FARTHEST_PH)
    return _judge_margin(ceiling_margin_pH)


def start_floor_ok(start_floor_margin_pH: float) -> Verdict:
    """Return whether the fresh wash starts above the floor.

    Stop below 0, look from 0 to below the model's uncertainty, ok from there.

    Parameters
    ----------
    start_floor_margin_pH : float
        pH of the fresh wash less floor [pH], -20 to 20.

    Returns
    -------
    str
        Verdict [ok].

    Raises
    ------
    ValueError
        The value lies outside its range.

    References
    ----------
    Own comparison with phreeqc.dat 2024 and pitzer.dat (definition of this project).
    """
    require("start_floor_margin_pH", start_floor_margin_pH, "pH", -FARTHEST_PH, FARTHEST_PH)
    return _judge_margin(start_floor_margin_pH)


def end_floor_ok(end_floor_margin_pH: float) -> Verdict:
    """Return whether the spent wash stays above the floor.

    Stop below 0, look from 0 to below the model's uncertainty, ok from there.

    Parameters
    ----------
    end_floor_margin_pH : float
        pH of the spent wash at the wash temperature less floor [pH], -20 to 20.

    Returns
    -------
    str
        Verdict [ok].

    Raises
    ------
    ValueError
        The value lies outside its range.

    References
    ----------
    Own comparison with phreeqc.dat 2024 and pitzer.dat (definition of this project).
    """
    require("end_floor_margin_pH", end_floor_margin_pH, "pH", -FARTHEST_PH, FARTHEST_PH)
    return _judge_margin(end_floor_margin_pH)


def reading_ok(end_pH: float, end_temp_degC: float | None = None) -> Verdict:
    """Return whether the end reading says at which temperature it was taken.

    The temperature is given.

    Parameters
    ----------
    end_pH : float
        Measured pH at the end of the wash [pH], 0 to 14.
    end_temp_degC : float or None, optional
        Temperature of that reading [degC], 1 to 60, None where it was not given.

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
    Own model: 0.01 mol/L NaOH falls by 0.6 from 25 to 45 degC (definition of this project).
    """
    require_all(end_pH=end_pH)
    if end_temp_degC is None:
        return "look"
    require_all(end_temp_degC=end_temp_degC)
    return "ok"


def converged_ok(last_step_pH: float) -> Verdict:
    """Return whether the pH solver has settled.

    Last step <= 0.0005.

    Parameters
    ----------
    last_step_pH : float
        Size of the solver's last step [pH], 0 to 20.

    Returns
    -------
    str
        Verdict, ok or look [ok].

    Raises
    ------
    ValueError
        The value lies outside its range.

    References
    ----------
    Rule of this package (common practice, no source).
    """
    require("last_step_pH", last_step_pH, "pH", 0.0, FARTHEST_PH)
    return "ok" if last_step_pH <= STEP_LARGEST_PH else "look"


def model_ok(wash_start_pH: float, wash_ionic_molpL: float) -> Verdict:
    """Return whether the fresh wash lies where the pH model holds.

    7.5 <= pH <= 13.75, and ionic strength < 0.5.

    Parameters
    ----------
    wash_start_pH : float
        pH of the fresh wash [pH], -2 to 18.
    wash_ionic_molpL : float
        Ionic strength of the fresh wash [molpL], 0 to 1000.

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
    Own comparison with phreeqc.dat 2024: range of the cases (definition of this project).
    """
    require_all(wash_start_pH=wash_start_pH)
    require("wash_ionic_molpL", wash_ionic_molpL, "molpL", 0.0, 1000.0)
    within = MODEL_FLOOR_PH <= wash_start_pH <= MODEL_CEILING_PH
    return "ok" if within and wash_ionic_molpL < IONIC_MAX else "look"
