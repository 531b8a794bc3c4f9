"""Warming the wash, and its cleaner in portions.

Heat balance of one mixed volume, 1 L as 1 kg; equations of this project.
"""

import math

from scipy.integrate import quad

from builder.reference.comparison import Verdict, round_compared

WATER_KJPKGK = 4.182  # heat capacity of water at 20 degC (from memory)
J_PER_KJ = 1000.0
S_PER_H = 3600.0  # seconds, and kilojoules of a kilowatt hour (definition)
MIN_PER_H = 60.0
PORTIONS_LEAST_N = 2.0
SMALL_FILL_N = 3.0  # circuit over fill above which one portion more is due (own simulation)


def mixed_temp_degC(
    tank_fill_L: float, holdup_adopted_L: float, tank_temp_degC: float, machine_temp_degC: float
) -> float:
    """Return the temperature once tank and machine are mixed, the mean by volume."""
    warmth = tank_fill_L * tank_temp_degC + holdup_adopted_L * machine_temp_degC
    return warmth / (tank_fill_L + holdup_adopted_L)


def tank_needed_degC(
    tank_fill_L: float, holdup_adopted_L: float, wash_temp_degC: float, machine_temp_degC: float
) -> float:
    """Return how warm the fill has to be for the mixture to be at the wash temperature."""
    if tank_fill_L <= 0.0:
        raise ValueError("nothing is filled in")
    warmth = (
        tank_fill_L + holdup_adopted_L
    ) * wash_temp_degC - holdup_adopted_L * machine_temp_degC
    return warmth / tank_fill_L


def heat_kWh(wash_volume_L: float, wash_temp_degC: float, mixed_temp_degC: float) -> float:
    """Return the heat that the mixture still wants, never below 0."""
    rise_K = max(0.0, wash_temp_degC - mixed_temp_degC)
    return wash_volume_L * WATER_KJPKGK * rise_K / S_PER_H


def heat_end_degC(
    heater_kW: float, pump_kW: float, loss_WpK: float, room_temp_degC: float
) -> float:
    """Return the temperature at which the loss takes all power; none without a loss.

    Power is that of the heater and of the pump's shaft.
    """
    if loss_WpK <= 0.0:
        raise ValueError("without a loss the water warms for ever")
    return room_temp_degC + (heater_kW + pump_kW) * J_PER_KJ / loss_WpK


def pump_end_degC(pump_kW: float, loss_WpK: float, room_temp_degC: float) -> float:
    """Return the temperature that the pump alone would reach; none without a loss."""
    return heat_end_degC(0.0, pump_kW, loss_WpK, room_temp_degC)


def warming_min(
    wash_volume_L: float,
    wash_temp_degC: float,
    mixed_temp_degC: float,
    heater_kW: float,
    pump_kW: float,
    loss_WpK: float | None = None,
    room_temp_degC: float | None = None,
) -> float:
    """Return how long the mixture warms up to the wash temperature, 0 if it is as warm.

    Integral of V c dT / (P - loss (T - room)) by quadrature; none where the power never holds it.
    """
    loss = loss_WpK or 0.0
    if loss > 0.0 and room_temp_degC is None:
        raise ValueError("a loss needs the temperature of the room")
    room = room_temp_degC or 0.0

    def find_net_W(temp_degC: float) -> float:
        return (heater_kW + pump_kW) * J_PER_KJ - loss * (temp_degC - room)

    if find_net_W(wash_temp_degC) <= 0.0:
        raise ValueError("the power never warms the wash so far")
    ends = min(mixed_temp_degC, wash_temp_degC), wash_temp_degC
    per_W = quad(lambda temp: 1.0 / find_net_W(temp), *ends, epsabs=0.0, epsrel=1e-12, limit=500)[0]
    return float(wash_volume_L * WATER_KJPKGK * J_PER_KJ * per_W / S_PER_H * MIN_PER_H)


def pass_min(wash_volume_L: float, wash_flow_Lpmin: float) -> float:
    """Return how long the circuit takes to pass once, volume / flow."""
    return wash_volume_L / wash_flow_Lpmin


def first_strength_n(wash_volume_L: float, tank_fill_L: float) -> float:
    """Return how many times too strong the first pass is if all cleaner goes into the tank."""
    if tank_fill_L <= 0.0:
        raise ValueError("nothing is filled in")
    return wash_volume_L / tank_fill_L


def portions_n(first_strength_n: float, ceiling_strength_n: float) -> float:
    """Return the portions that keep each pass below the ceiling, at least 2.

    (V/fill - 1) / (f - 1) rounded up, one more where the fill is less than a third of the circuit.
    """
    room_n = ceiling_strength_n - 1.0
    if room_n <= 0.0:
        raise ValueError("the wash stands at its ceiling: no portion is safe")
    whole = math.ceil(round((first_strength_n - 1.0) / room_n, 9))
    return max(PORTIONS_LEAST_N, whole) + (1.0 if first_strength_n > SMALL_FILL_N else 0.0)


def portion_kg(cleaner_dose_kg: float, portions_n: float) -> float:
    """Return the cleaner of one portion."""
    return cleaner_dose_kg / portions_n


def peak_strength_n(first_strength_n: float, portions_n: float) -> float:
    """Return the highest strength of a pass, in strengths of the wash."""
    return 1.0 + (first_strength_n - 1.0) / portions_n


def tank_temp_ok(tank_temp_degC: float, temp_most_degC: float) -> Verdict:
    """Return stop where the fill is hotter than the membrane may get."""
    return "ok" if round_compared(tank_temp_degC) <= round_compared(temp_most_degC) else "stop"


def pump_heat_ok(pump_end_degC: float, temp_most_degC: float) -> Verdict:
    """Return whether the pump alone keeps the wash within its limit of temperature."""
    return "ok" if round_compared(pump_end_degC) <= round_compared(temp_most_degC) else "look"
