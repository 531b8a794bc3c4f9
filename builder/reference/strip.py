"""The pH that one and the same solution shows at other temperatures, as a parabola.

Three states of a wash, fresh, at its floor and at its ceiling, are each carried from their own
temperature to 5, 30 and 60 degC by one step; figures and equations are of this project.
"""

import math
from dataclasses import replace
from functools import lru_cache

from builder.reference.equilibrium import (
    Medium,
    activity_coefficient_n,
    find_capacity_eqpL,
    find_need_eqpL,
    list_bindings,
    log_kw_n,
    settle,
)
from builder.reference.standing import floor_shift_pH

NODES_DEGC = (5.0, 30.0, 60.0)  # best of five sets tried (own comparison)
STEP_MOST_PH = 1.0  # longest step of a pass (rule of this package)
PRINTED_DEGC, PRINTED_PH = 5.0, 0.05  # steps of the printed strip: every 5 degC, to 0.05
ONE_BOUND = 1  # place of the binding of one H+ in a list of bindings


def find_slopes_eqpL(
    pH: float, temp_degC: float, totals: tuple[float, ...], medium: Medium
) -> list[float]:
    """Return dneed/dpH / ln 10 of free alkali, carbonate, silicate and EDTA, by difference."""
    water = find_capacity_eqpL(pH, temp_degC, (0.0, 0.0, 0.0), medium)
    alone = [
        tuple(total if place == kept else 0.0 for place, total in enumerate(totals))
        for kept in range(len(totals))
    ]
    weak = [find_capacity_eqpL(pH, temp_degC, some, medium) - water for some in alone]
    return [slope / math.log(10.0) for slope in (water, *weak)]


def guess_pH(pH: float, temp_degC: float, slopes: list[float], node_degC: float) -> float:
    """Return a first estimate of the pH at a node.

    Each equilibrium moves by the change of its constant, weighed by its slope in the state:
    OH by log Kw, each weak acid by the binding of its first H+.
    """
    here, there = list_bindings(temp_degC), list_bindings(node_degC)
    shifts = [log_kw_n(temp_degC) - log_kw_n(node_degC)]
    shifts += [b[ONE_BOUND] - a[ONE_BOUND] for a, b in zip(here, there, strict=True)]
    moved = sum(slope * shift for slope, shift in zip(slopes, shifts, strict=True))
    return pH + moved / sum(slopes)


@lru_cache(maxsize=256)
def find_nodes_pH(
    state_alkali_eqpL: float,
    totals: tuple[float, ...],
    alkali_eqpL: float,
    state_pH: float,
    state_temp_degC: float,
) -> tuple[float, ...]:
    """Return the pH at the nodes: the guess and one step of Newton on log need.

    Ionic strength and unpaired sodium stay those of the state.
    """
    state = settle(state_pH, state_temp_degC, totals, alkali_eqpL)
    slopes = find_slopes_eqpL(state_pH, state_temp_degC, totals, state)
    found = []
    for node in NODES_DEGC:
        medium = replace(state, log_g=math.log10(activity_coefficient_n(state.ionic_molpL, node)))
        guess = guess_pH(state_pH, state_temp_degC, slopes, node)
        need = find_need_eqpL(guess, node, totals, medium.log_g, medium.sodium_molpL)
        slope = find_capacity_eqpL(guess, node, totals, medium) / math.log(10.0)
        step = math.log10(state_alkali_eqpL / need) * need / slope
        found.append(guess + max(-STEP_MOST_PH, min(STEP_MOST_PH, step)))
    return tuple(found)


def node_pH(
    state_alkali_eqpL: float,
    carbonate_molpL: float,
    silicate_molpL: float,
    edta_molpL: float,
    alkali_eqpL: float,
    state_pH: float,
    state_temp_degC: float,
) -> float:
    """Return the pH of a state at 5 degC; sodium is that of the alkali dosed."""
    totals = (carbonate_molpL, silicate_molpL, edta_molpL)
    return find_nodes_pH(state_alkali_eqpL, totals, alkali_eqpL, state_pH, state_temp_degC)[0]


def rise_pK(
    state_alkali_eqpL: float,
    carbonate_molpL: float,
    silicate_molpL: float,
    edta_molpL: float,
    alkali_eqpL: float,
    state_pH: float,
    state_temp_degC: float,
) -> float:
    """Return the rise of a strip from 5 to 30 degC, for each kelvin."""
    totals = (carbonate_molpL, silicate_molpL, edta_molpL)
    nodes = find_nodes_pH(state_alkali_eqpL, totals, alkali_eqpL, state_pH, state_temp_degC)
    return (nodes[1] - nodes[0]) / (NODES_DEGC[1] - NODES_DEGC[0])


def bend_pK2(
    state_alkali_eqpL: float,
    carbonate_molpL: float,
    silicate_molpL: float,
    edta_molpL: float,
    alkali_eqpL: float,
    state_pH: float,
    state_temp_degC: float,
) -> float:
    """Return the bend of a strip: the leading term of the parabola through its nodes.

    Sum of p_i / product of the distances to the other nodes (Lagrange).
    """
    totals = (carbonate_molpL, silicate_molpL, edta_molpL)
    nodes = find_nodes_pH(state_alkali_eqpL, totals, alkali_eqpL, state_pH, state_temp_degC)
    return sum(
        pH / math.prod(here - other for other in NODES_DEGC if other != here)
        for pH, here in zip(nodes, NODES_DEGC, strict=True)
    )


def read_strip_pH(temp_degC: float, node_pH: float, rise_pK: float, bend_pK2: float) -> float:
    """Return the pH of a strip at a temperature, none outside its nodes.

    p + (t - 5)(b + (t - 30) d), divided differences (Newton).
    """
    cold, middle, hot = NODES_DEGC
    if not cold <= temp_degC <= hot:
        raise ValueError(f"a strip does not reach {temp_degC} degC")
    return node_pH + (temp_degC - cold) * (rise_pK + (temp_degC - middle) * bend_pK2)


def sample_degC(row_n: float) -> float:
    """Return the temperature of a printed row: 5, 10 and so on to 60 degC."""
    return PRINTED_DEGC * row_n


def sample_degF(row_n: float) -> float:
    """Return the same temperature in degrees Fahrenheit, 9 t / 5 + 32."""
    return 9.0 * sample_degC(row_n) / 5.0 + 32.0


def print_pH(row_n: float, node_pH: float, rise_pK: float, bend_pK2: float) -> float:
    """Return the pH of a strip at the temperature of a printed row, to the nearest 0.05."""
    shown = read_strip_pH(sample_degC(row_n), node_pH, rise_pK, bend_pK2)
    return math.floor(shown / PRINTED_PH + 0.5) * PRINTED_PH


def floor_line_pH(
    row_n: float, floor_node_pH: float, floor_rise_pK: float, floor_bend_pK2: float
) -> float:
    """Return the floor as printed in a row."""
    return print_pH(row_n, floor_node_pH, floor_rise_pK, floor_bend_pK2)


def start_line_pH(
    row_n: float, start_node_pH: float, start_rise_pK: float, start_bend_pK2: float
) -> float:
    """Return the fresh wash as printed in a row."""
    return print_pH(row_n, start_node_pH, start_rise_pK, start_bend_pK2)


def ceiling_line_pH(
    row_n: float, ceiling_node_pH: float, ceiling_rise_pK: float, ceiling_bend_pK2: float
) -> float:
    """Return the ceiling as printed in a row."""
    return print_pH(row_n, ceiling_node_pH, ceiling_rise_pK, ceiling_bend_pK2)


def at_10_pH(node_pH: float, rise_pK: float, bend_pK2: float) -> float:
    """Return the pH of a strip at 10 degC."""
    return read_strip_pH(10.0, node_pH, rise_pK, bend_pK2)


def at_20_pH(node_pH: float, rise_pK: float, bend_pK2: float) -> float:
    """Return the pH of a strip at 20 degC."""
    return read_strip_pH(20.0, node_pH, rise_pK, bend_pK2)


def at_25_pH(node_pH: float, rise_pK: float, bend_pK2: float) -> float:
    """Return the pH of a strip at 25 degC."""
    return read_strip_pH(25.0, node_pH, rise_pK, bend_pK2)


def at_30_pH(node_pH: float, rise_pK: float, bend_pK2: float) -> float:
    """Return the pH of a strip at 30 degC."""
    return read_strip_pH(30.0, node_pH, rise_pK, bend_pK2)


def at_40_pH(node_pH: float, rise_pK: float, bend_pK2: float) -> float:
    """Return the pH of a strip at 40 degC."""
    return read_strip_pH(40.0, node_pH, rise_pK, bend_pK2)


def temp_effect_pK(wash_temp_degC: float, start_rise_pK: float, start_bend_pK2: float) -> float:
    """Return the slope of the start's strip at the wash temperature, by difference.

    (p(t+1) - p(t-1)) / 2, exact for a parabola.
    """
    cold, middle, _ = NODES_DEGC

    def find_shift(temp: float) -> float:
        return (temp - cold) * (start_rise_pK + (temp - middle) * start_bend_pK2)

    return (find_shift(wash_temp_degC + 1.0) - find_shift(wash_temp_degC - 1.0)) / 2.0


def floor_at_end_pH(
    end_temp_degC: float,
    wash_temp_degC: float,
    floor_pH: float,
    floor_node_pH: float | None = None,
    floor_rise_pK: float | None = None,
    floor_bend_pK2: float | None = None,
) -> float:
    """Return the floor at the temperature of the end reading, itself at that of the wash.

    By the strip of this wash; where there is none by the constant shape, floor less its shift at
    the wash temperature and with that at the reading's (definition).
    """
    if end_temp_degC == wash_temp_degC:
        return floor_pH
    if floor_node_pH is None or floor_rise_pK is None or floor_bend_pK2 is None:
        return floor_pH - floor_shift_pH(wash_temp_degC) + floor_shift_pH(end_temp_degC)
    return read_strip_pH(end_temp_degC, floor_node_pH, floor_rise_pK, floor_bend_pK2)


def ceiling_at_wash_pH(
    wash_temp_degC: float,
    ceiling_temp_degC: float,
    ceiling_pH: float,
    ceiling_node_pH: float,
    ceiling_rise_pK: float,
    ceiling_bend_pK2: float,
) -> float:
    """Return the ceiling at the wash temperature, itself where it is compared at that."""
    if ceiling_temp_degC == wash_temp_degC:
        return ceiling_pH
    return read_strip_pH(wash_temp_degC, ceiling_node_pH, ceiling_rise_pK, ceiling_bend_pK2)


def floor_margin_pH(end_pH: float, floor_at_end_pH: float) -> float:
    """Return how far the end reading is above the floor of its own temperature."""
    return end_pH - floor_at_end_pH
