"""Laws of hold-up, rinse, dose and margins, read from their definitions, not from formulas."""

import math
from collections.abc import Iterator

from proof.properties_machines import PIPES, Given, Side, limits, number

# holdup_geometry_L = vessels_n (pi/4 bore^2 length) - N (pi/4 diameter^2 length_el) + N (area/2
# spacer porosity) + N (area/2 carrier porosity) + N (pi/4 core_inner^2 length_el) + vessels_n ends
# + pipes + housings + pumps + other + element_extra_pct/100 of what the elements and the gap hold.
# So a longer element takes water away: it is wider than its tube. The tube's outside and the
# membrane's thickness do not stand in it.
SIGNS = {
    "vessels_n": 1,
    "vessel_bore_mm": 1,
    "vessel_length_mm": 1,
    "vessel_ends_L": 1,
    "element_diameter_mm": -1,
    "element_length_mm": -1,
    "element_area_m2": 1,
    "feed_spacer_mm": 1,
    "feed_spacer_porosity_frac": 1,
    "permeate_carrier_mm": 1,
    "permeate_carrier_porosity_frac": 1,
    "core_tube_inner_mm": 1,
    "element_extra_pct": 1,
    "core_tube_outer_mm": 0,
    "membrane_thickness_mm": 0,
    "filter_housings_L": 1,
    "pumps_L": 1,
    "other_holdup_L": 1,
    **{f"pipe_{i}_{part}": 1 for i in PIPES for part in ("bore_mm", "length_m")},
}
DOUBLED = (
    "elements_n",
    "vessels_water_L",
    "elements_envelope_L",
    "annulus_L",
    "feed_channel_L",
    "permeate_channel_L",
    "core_tubes_L",
    "element_part_L",
    "element_extra_L",
    "vessel_spare_L",
    "ends_L",
    "membrane_side_L",
    "recipe_volume_L",
)
KEPT = ("pipes_L", "elsewhere_L", "wound_diameter_mm", "wound_ratio_n", "first_rinse_hourly_L")
HOLDUPS = ("holdup_geometry_L", "holdup_adopted_L")
SHIFT_PH = 0.25
MARGINS = {  # by definition: limit less value, or value less limit
    "ceiling_margin_pH": ("limit_1_pH", 1),
    "start_floor_margin_pH": ("floor_pH", -1),
    "floor_margin_pH": ("floor_pH", -1),
}


def follow_dimensions(side: Side, given: Given) -> Iterator[str]:
    """Hold-up grows with each dimension that adds water, and falls with what displaces it."""
    before = side.solve(given)
    for name, sign in SIGNS.items():
        old, new = number(given, name), move(side, given, name)
        after = side.solve({**given, name: new})
        expected = expect_sign(given, name, sign) * math.copysign(1, new - old)
        for holdup in HOLDUPS:
            rise = number(after, holdup) - number(before, holdup)
            if sign_of(rise) != expected:
                yield (
                    f"{holdup}: {name} from {old} to {new} changes it by {rise}, "
                    f"expected the sign {expected:g}"
                )


def expect_sign(given: Given, name: str, sign: int) -> int:
    """Return the sign; the bore of a pipe without length holds no water."""
    unused = name.endswith("_bore_mm") and given.get(f"{name[:6]}_length_m") == 0
    return 0 if unused else sign


def sign_of(rise: float) -> float:
    """Return the sign of a difference; the rounding of a sum is none."""
    return 0.0 if abs(rise) < 1e-9 else math.copysign(1, rise)


def move(side: Side, given: Given, name: str) -> float:
    """Return another value, far off, with which the machine can still be built."""
    low, high = limits(side.spec, name)
    least, most = find_room(given).get(name, (low, high))
    low, high = max(low, least), min(high, most)
    old = number(given, name)
    far = low if old - low > high - old else high
    return far if name == "vessels_n" else old + 0.9 * (far - old)


def find_room(given: Given) -> dict[str, tuple[float, float]]:
    """Return between what the dimensions may lie that must fit into each other."""
    elements, bore, inside = (
        number(given, key)
        for key in ("elements_per_vessel_n", "vessel_bore_mm", "vessel_length_mm")
    )
    diameter, length = number(given, "element_diameter_mm"), number(given, "element_length_mm")
    inner, outer = number(given, "core_tube_inner_mm"), number(given, "core_tube_outer_mm")
    return {
        "core_tube_inner_mm": (0.0, outer),
        "core_tube_outer_mm": (inner, diameter),
        "element_diameter_mm": (outer, bore),
        "vessel_bore_mm": (diameter, math.inf),
        "element_length_mm": (0.0, inside / elements),
        "vessel_length_mm": (elements * length, math.inf),
        "vessels_n": (1.0, 30.0),
    }


def double_vessels(side: Side, given: Given) -> Iterator[str]:
    """Twice the vessels: twice of what is in them, the same of what is not."""
    vessels, elements = number(given, "vessels_n"), number(given, "elements_per_vessel_n")
    one = side.solve(given)
    two = side.solve({**given, "vessels_n": 2 * vessels})
    expected = {name: 2 * number(one, name) for name in DOUBLED}
    expected |= {name: number(one, name) for name in KEPT}
    more = number(one, "membrane_side_L")
    expected |= {name: number(one, name) + more for name in HOLDUPS}
    further = vessels * elements * number(given, "rinse_further_element_L")
    expected["rinse_by_elements_L"] = number(one, "rinse_by_elements_L") + further
    for name, value in expected.items():
        yield from compare(name, number(two, name), value, f"{vessels} vessels doubled")


def owe_the_rule(side: Side, given: Given) -> Iterator[str]:
    """The rinse owed is never below the rule picked, and never above both rules."""
    values = side.solve(given)
    rules = {
        "holdup": number(given, "rinse_factor_n") * number(values, "holdup_adopted_L"),
        "elements": number(given, "rinse_first_element_L")
        + (number(values, "elements_n") - 1) * number(given, "rinse_further_element_L"),
    }
    picked = rules.get(str(given["rinse_rule"]), max(rules.values()))
    by = f"rule {given['rinse_rule']}"
    yield from compare("rinse_owed_L", number(values, "rinse_owed_L"), picked, by)
    for name, rule in (("rinse_by_holdup_L", "holdup"), ("rinse_by_elements_L", "elements")):
        yield from compare(name, number(values, name), rules[rule], "by its definition")


def dose_each_element(side: Side, given: Given) -> Iterator[str]:
    """The dose is the recipe for each element, raised only to keep the recipe's strength."""
    for times in (1, 2):
        case = {**given, "vessels_n": times * number(given, "vessels_n")}
        values = side.solve(case)
        elements = number(case, "vessels_n") * number(case, "elements_per_vessel_n")
        recipe = elements * number(case, "recipe_cleaner_kg")
        water, held = elements * number(case, "recipe_water_L"), number(values, "holdup_adopted_L")
        on_top = case["recipe_water_means"] == "tank"
        volume = water + held if on_top else max(water, held)
        expected = {
            "cleaner_dose_kg": recipe if on_top else recipe * volume / water,
            "cleaner_strength_gpL": 1000 * recipe / (volume if on_top else water),
        }
        for name, value in expected.items():
            yield from compare(name, number(values, name), value, f"{elements:g} elements")


def mirror_margins(side: Side, given: Given) -> Iterator[str]:
    """A margin moves with its limit, one up, the other down; at one limit they are opposite."""
    before = side.solve(given)
    for name, (limit, sign) in MARGINS.items():
        for shift in (SHIFT_PH, -SHIFT_PH):
            after = side.solve({**given, limit: number(given, limit) + shift})
            expected = number(before, name) + sign * shift
            yield from compare(name, number(after, name), expected, f"{limit} moved by {shift}")
    same = side.solve({**given, "floor_pH": given["limit_1_pH"]})
    name, opposite = "start_floor_margin_pH", -number(same, "ceiling_margin_pH")
    yield from compare(name, number(same, name), opposite, "floor and ceiling the same")


def compare(name: str, found: float, expected: float, why: str) -> Iterator[str]:
    if not math.isclose(found, expected, rel_tol=1e-9, abs_tol=1e-9):
        yield f"{name}: {why}: found {found}, expected {expected}"
