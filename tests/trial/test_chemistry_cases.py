"""Check cases of the wash's chemistry, typed into the workbook: it shows what they say."""

import pytest
from reference.chemistry_cases import DOUBT, OWN, PAIR, WARMING, WATER

from builder.exchange.demo import read_demo
from builder.exchange.machine import canonical
from builder.spec.load import find_specs, load_spec
from builder.trial.bench import Bench
from builder.trial.cases import Case

PH, EQ, PRINTED = 1.5e-6, 1.5e-7, 6e-7  # the last digit printed is half of the third
STRIP, STRIP_FLOOR = 0.01, 0.025
PLAIN = {  # one thin element, so that any hold-up of the cases can be typed as other water
    "vessels_n": 1.0,
    "elements_per_vessel_n": 1.0,
    "vessel_bore_mm": 66.0,
    "vessel_length_mm": 1100.0,
    "element_diameter_mm": 61.0,
    "element_area_m2": 2.6,
    "core_tube_outer_mm": 21.0,
    "core_tube_inner_mm": 19.0,
    "filter_housings_L": 0.0,
    "pumps_L": 0.0,
}


@pytest.fixture(scope="module")
def book():
    spec = load_spec(find_specs())
    bench = Bench(spec, spec.main_language)
    demo = canonical(read_demo(spec), spec)

    def show(**given):
        shown = bench.type(Case("check case", {**demo, **PLAIN, **given}))
        return lambda name: shown[bench.names[name][0]]

    return show


def cleaner(case, volume_L=1000.0):
    salts = ("naoh", "carbonate", "silicate", "edta")
    return {
        "recipe_water_L": volume_L,
        "recipe_cleaner_kg": case["strength"] * volume_L / 1000.0,
        **{f"cleaner_{salt}_pct": case[salt] for salt in salts},
    }


def ceiling(pH, temp_degC, means="at_wash"):
    return {
        "limit_1_temp_degC": temp_degC,
        "limit_1_pH": pH,
        "limit_2_temp_degC": None,
        "limit_2_pH": None,
        "limit_means": means,
    }


def circuit(show, fill_L, holdup_L):
    bare_L = show(other_holdup_L=0.0)("holdup_adopted_L")
    return {"recipe_water_L": fill_L + holdup_L, "other_holdup_L": holdup_L - bare_L}


@pytest.mark.parametrize("case", PAIR)
def test_the_sodium_pair_of_edta_is_in_the_start(book, case):
    shown = book(**cleaner(case), wash_temp_degC=case["temp"])
    assert shown("wash_start_pH") == pytest.approx(case["pH"], abs=PH)
    assert shown("wash_start_pH") == pytest.approx(case["phreeqc"], abs=0.03)


@pytest.fixture(params=OWN, ids=range(len(OWN)), scope="module")
def own(request, book):
    case = request.param
    return case, book(
        **cleaner(case),
        **ceiling(case["ceiling_pH"], case["wash_temp"]),
        fresh_pH=case["own_pH"],
        fresh_temp_degC=case["own_temp"],
        wash_temp_degC=case["wash_temp"],
        floor_pH=case["floor_pH"],
        end_pH=case["end_pH"],
        end_temp_degC=case["end_temp"],
    )


@pytest.mark.parametrize(
    ("name", "said", "within"),
    [
        ("alkali_eqpL", "alkali", EQ + PRINTED),
        ("floor_alkali_eqpL", "floor_alkali", EQ + PRINTED),
        ("end_alkali_eqpL", "end_alkali", EQ + PRINTED),
        ("free_alkali_eqpL", "free", EQ + PRINTED),
        ("wash_start_pH", "start", PH),
        ("end_at_wash_pH", "end_at_wash", PH),
        ("acting_naoh_pct", "acting_naoh", 1e-4),
        ("label_share_pct", "share", 1e-4),
        ("alkali_reserve_pct", "reserve", 1e-3),
        ("alkali_used_pct", "used", 1e-3),
        ("topup_share_frac", "topup", 2e-6),
        ("ceiling_strength_n", "ceiling_strength", 2e-6),
    ],
)
def test_own_reading_corrects_the_caustic(own, name, said, within):
    case, shown = own
    assert shown(name) == pytest.approx(case[said], abs=within)


@pytest.mark.parametrize("temp", [10, 20, 25])
@pytest.mark.parametrize("state", ["start", "floor", "ceiling"])
def test_the_strip_agrees_with_the_solver(own, state, temp):
    case, shown = own
    within = STRIP_FLOOR if state == "floor" else STRIP
    assert shown(f"{state}_at_{temp}_pH") == pytest.approx(case[f"{state}_{temp}"], abs=within)


@pytest.mark.parametrize("case", WATER)
def test_make_up_water_costs_what_takes_caustic(book, case):
    fill_L = case["fill_share"] * case["volume"]
    shown = book(
        **cleaner(case)
        | circuit(book, fill_L, case["volume"] - fill_L)
        | {"recipe_cleaner_kg": case["strength"] * case["volume"] / 1000.0},
        wash_temp_degC=case["wash_temp"],
        hardness_mgpLCaCO3=case["hardness"],
        alkalinity_mgpLCaCO3=case["alkalinity"],
        magnesium_share_frac=case["magnesium"],
    )
    assert shown("carbonate_charge_n") == pytest.approx(case["carbonate_charge"], abs=1e-6)
    assert shown("water_alkali_cost_eqpL") == pytest.approx(case["cost"], abs=PRINTED)
    assert shown("water_cleaner_kg") == pytest.approx(1.12 * case["extra_kg"], rel=1e-5)
    assert shown("scale_g") == pytest.approx(case["scale"], abs=1e-9)


@pytest.mark.parametrize("case", WARMING)
def test_warming_and_portions(book, case):
    given = {
        **circuit(book, case["fill"], case["holdup"]),
        "tank_temp_degC": case["tank"],
        "machine_temp_degC": case["machine"],
        "wash_temp_degC": case["wash_temp"],
        "heater_kW": case["heater"],
        "pump_kW": case["pump"],
        "loss_WpK": case["loss"],
        "room_temp_degC": case["room"],
        "wash_temp_max_degC": 60.0,
    }
    low_pH, high_pH = 11.0, 14.0
    for _ in range(30):
        middle_pH = (low_pH + high_pH) / 2
        shown = book(**given, **ceiling(middle_pH, 60.0))
        reached = shown("ceiling_strength_n")
        enough = reached is None or reached > case["ceiling_strength"]
        low_pH, high_pH = (low_pH, middle_pH) if enough else (middle_pH, high_pH)
    assert shown("ceiling_strength_n") == pytest.approx(case["ceiling_strength"], abs=1e-6)
    for name, said in [
        ("mixed_temp_degC", "mixed"),
        ("tank_needed_degC", "needed"),
        ("heat_kWh", "heat"),
        ("warming_min", "minutes"),
        ("heat_end_degC", "end"),
        ("first_strength_n", "first_strength"),
        ("portions_n", "portions"),
        ("peak_strength_n", "peak"),
    ]:
        assert shown(name) == pytest.approx(case[said], rel=1e-6), name


@pytest.mark.parametrize("case", DOUBT)
def test_uncertainty_of_the_start(book, case):
    label = cleaner(case)
    for salt, half in {"naoh": 2, "silicate": 2}.items():  # the others change the pH by nothing
        label[f"cleaner_{salt}_pct"] = case[salt] - half
        label[f"cleaner_{salt}_to_pct"] = case[salt] + half
    label["wash_temp_degC"] = case["wash_temp"]
    shown = book(**label)
    assert shown("wash_start_pH") == pytest.approx(case["start"], abs=PH)
    assert shown("capacity_eqpL") == pytest.approx(case["capacity"], abs=1e-6)
    assert shown("temp_effect_pK") == pytest.approx(case["slope"], abs=5e-4)
    # The case has 2.3 % for the volume, this book its own share; the parts add in squares.
    moved = case["strength_effect"] ** 2 * (0.023**2 - (shown("volume_u_pct") / 100) ** 2)
    assert (shown("label_u_pH") ** 2 + moved) ** 0.5 == pytest.approx(case["label_u"], abs=5e-4)


@pytest.mark.parametrize("case", DOUBT)
def test_own_reading_makes_it_surer_whatever_the_dose(book, case):
    shown = book(
        **cleaner(case),
        wash_temp_degC=case["wash_temp"],
        fresh_pH=12.4,
        fresh_temp_degC=case["own_temp"],
        dose_u_pct=20.0,
    )
    assert shown("wash_start_u_pH") == pytest.approx(case["own_u"], abs=1e-3)


@pytest.mark.parametrize(
    ("temp", "means", "limit", "compared", "verdict", "temp_verdict"),
    [
        (38, "at_wash", 11.6, 11.780457, "stop", "ok"),
        (38, "at_25", 11.6, 12.181091, "stop", "ok"),
        (38, "unknown", 11.6, 12.181091, "stop", "ok"),
        (35, "at_wash", 12.0, 11.868221, "look", "ok"),
        (20, "unknown", 12.6, 12.35, "ok", "ok"),
        (44, "at_wash", 11.6, 11.612868, "stop", "stop"),
        (46, "unknown", None, None, "stop", "stop"),
    ],
)
def test_ceiling_by_temperature(book, temp, means, limit, compared, verdict, temp_verdict):
    shown = book(
        **cleaner({"naoh": 4, "carbonate": 12, "silicate": 5, "edta": 7, "strength": 16.38}),
        limit_1_temp_degC=25.0,
        limit_1_pH=12.6,
        limit_2_temp_degC=35.0,
        limit_2_pH=12.0,
        limit_3_temp_degC=45.0,
        limit_3_pH=11.6,
        wash_temp_max_degC=45.0,
        limit_means=means,
        wash_temp_degC=float(temp),
        fresh_pH=12.35,
        fresh_temp_degC=20.0,
    )
    words = {"ok": "ok", "look": "check this", "stop": "stop"}
    assert shown("ceiling_pH") == limit
    assert (shown("ceiling_ok"), shown("temp_ok")) == (words[verdict], words[temp_verdict])
    if limit is None:
        assert shown("ceiling_margin_pH") is None
    else:
        within = PH if means == "at_wash" or temp == 20 else STRIP
        assert shown("ceiling_start_pH") == pytest.approx(compared, abs=within)
        assert shown("ceiling_margin_pH") == pytest.approx(limit - compared, abs=within)


def test_a_reading_without_its_temperature_is_not_judged(book):
    shown = book(end_pH=11.3, fresh_pH=12.3)
    assert shown("floor_margin_pH") is None
    assert (shown("end_reading_ok"), shown("fresh_reading_ok")) == ("check this", "check this")
    assert shown("composition_n") == 2.0


def test_a_reading_at_wash_temperature_has_the_plain_margin(book):
    shown = book(end_pH=11.33, end_temp_degC=38.0, floor_pH=11.1)
    assert shown("floor_margin_pH") == pytest.approx(0.23, abs=1e-12)


def test_without_label_and_reading_no_pH_is_shown_but_dose_and_rinse(book):
    blank = {f"cleaner_{salt}_pct": None for salt in ("naoh", "carbonate", "silicate", "edta")}
    shown = book(**blank)
    assert shown("wash_start_pH") is None
    assert shown("ceiling_margin_pH") is None
    assert shown("cleaner_dose_kg") > 0
    assert shown("rinse_owed_L") > 0
    measured = book(**blank, fresh_pH=12.35, fresh_temp_degC=20.0)
    assert measured("composition_n") == 3.0
    assert measured("wash_start_pH") == pytest.approx(11.78, abs=0.05)
    assert measured("label_share_pct") is None
