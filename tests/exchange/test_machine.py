import pytest

from builder.exchange.given import suggest_unit
from builder.exchange.machine import Machine, Typed, canonical, read_machine
from builder.problems import ProblemsError
from builder.spec.records import Choice, Input


def read(tmp_path, text, spec):
    path = tmp_path / "machine.toml"
    path.write_text(text, encoding="utf-8")
    return read_machine(path, spec)


def test_empty_file_is_the_demo_machine(tmp_path, spec):
    assert read(tmp_path, "", spec) == Machine()


def test_texts_are_kept_with_accents_and_no_break_spaces(tmp_path, spec):
    text = 'title = " Évaporateur\u00a0no 2 "\nproducer = "A"\nsite = ""\n'
    machine = read(tmp_path, text, spec)
    assert (machine.title, machine.producer, machine.site) == ("Évaporateur\u00a0no 2", "A", "")


@pytest.mark.parametrize(("text", "marked"), [("true", True), ("false", False)])
def test_a_file_may_say_that_it_is_an_example(tmp_path, spec, text, marked):
    assert read(tmp_path, f"example = {text}\n", spec).example is marked


@pytest.mark.parametrize("text", ['"yes"', "1", "[true]"])
def test_a_mark_that_is_neither_true_nor_false_is_refused_at_its_line(tmp_path, spec, text):
    with pytest.raises(ProblemsError, match=r"machine.toml:2 wrong-type example: expected true"):
        read(tmp_path, f'title = "A"\nexample = {text}\n', spec)


def test_title_may_have_120_characters(tmp_path, spec):
    assert len(read(tmp_path, f'title = "{"x" * 120}"', spec).title) == 120


def test_text_keeps_the_typed_unit_and_number_is_canonical(tmp_path, spec):
    machine = read(tmp_path, '[given]\nvessel_bore_mm = "8.1 in"\npumps_L = 3\n', spec)
    assert machine.given == {"vessel_bore_mm": Typed(8.1, "", "in"), "pumps_L": Typed(3, "", "L")}


def test_choice_keeps_its_code(tmp_path, spec):
    machine = read(tmp_path, '[given]\nrinse_rule = "elements"\n', spec)
    assert machine.given == {"rinse_rule": Typed(None, "elements", "")}
    assert canonical(machine, spec) == {"rinse_rule": "elements"}


def test_a_ceiling_of_the_first_edition_is_one_pair_up_to_its_wash_temperature(tmp_path, spec):
    text = '[given]\nceiling_pH = 11.7\nwash_temp_degC = "104 degF"\n'
    values = canonical(read(tmp_path, text, spec), spec)
    assert (values["limit_1_pH"], values["limit_1_temp_degC"]) == (11.7, 40.0)
    assert (values["heater_over_gap_degC"], values["limit_means"]) == (0.0, "at_wash")
    assert "ceiling_pH" not in values


def test_what_a_file_says_of_its_limits_goes_before_what_a_ceiling_meant(tmp_path, spec):
    text = '[given]\nlimit_means = "at_25"\nlimit_1_temp_degC = 45\nceiling_pH = 11.7\n'
    values = canonical(read(tmp_path, text, spec), spec)
    assert (values["limit_1_temp_degC"], values["limit_means"]) == (45.0, "at_25")


def test_a_ceiling_out_of_limits_is_refused_at_its_line(tmp_path, spec):
    with pytest.raises(ProblemsError, match=r"machine.toml:2 outside-limits ceiling_pH: 15"):
        read(tmp_path, "[given]\nceiling_pH = 15\n", spec)


@pytest.mark.parametrize(
    ("name", "text", "expected"),
    [
        ("vessel_bore_mm", "8 in", 203.2),  # 1 in = 25.4 mm exactly
        ("recipe_water_L", "13 gal_us", 49.210353192),  # 231 cubic inches
        ("recipe_water_L", "10 gal_imp", 45.4609),
        ("recipe_cleaner_kg", "2.5 lb", 1.133980925),
        ("recipe_cleaner_kg", "40 oz", 1.133980925),
        ("element_area_m2", "400 ft2", 37.161216),
        ("wash_temp_degC", "104 degF", 40),
        ("wash_temp_degC", "50 degF", 10),
        ("rated_flow_Lph", "600 gal_us/h", 2271.2470704),
        ("rinse_flow_Lpmin", "3 m3/h", 50),
        ("feed_spacer_porosity_frac", "88 pct", 0.88),
        ("first_rinse_hours_h", "90 min", 1.5),
        ("pipe_1_length_m", "10 ft", 3.048),
        ("vessel_bore_mm", "+2.06e2\u00a0 mm", 206),
    ],
)
def test_units_lead_to_the_exact_canonical_value(tmp_path, spec, name, text, expected):
    machine = read(tmp_path, f'[given]\n{name} = "{text}"\n', spec)
    assert canonical(machine, spec)[name] == pytest.approx(expected, rel=1e-14)


@pytest.mark.parametrize(
    ("name", "text", "limit"),
    [
        ("wash_temp_degC", "140 degF", 60),
        ("permeate_carrier_porosity_frac", "95 pct", 0.95),
        ("rinse_flow_Lpmin", "120 m3/h", 2000),
        ("cleaner_pack_kg", "50000 mg", 0.05),
    ],
)
def test_rounding_of_a_conversion_carries_no_value_over_its_limit(
    tmp_path, spec, name, text, limit
):
    machine = read(tmp_path, f'[given]\n{name} = "{text}"\n', spec)
    assert canonical(machine, spec)[name] == limit


def test_both_limits_of_every_input_are_accepted(tmp_path, spec):
    inputs = [q for q in spec.quantities.values() if isinstance(q, Input)]
    for limit in ("min", "max"):
        given = {q.name: getattr(q.limits, limit) for q in inputs}
        text = "[given]\n" + "".join(f"{name} = {number}\n" for name, number in given.items())
        assert canonical(read(tmp_path, text, spec), spec) == given


def test_every_option_of_every_choice_is_accepted(tmp_path, spec):
    for choice in (q for q in spec.quantities.values() if isinstance(q, Choice)):
        for code in choice.options:
            machine = read(tmp_path, f'[given]\n{choice.name} = "{code}"\n', spec)
            assert machine.given[choice.name].code == code


def test_whole_number_may_be_written_with_a_point(tmp_path, spec):
    assert read(tmp_path, "[given]\nvessels_n = 2.0\n", spec).given["vessels_n"].number == 2


@pytest.mark.parametrize("word", ["gal", "gallon"])
def test_a_bare_gallon_is_never_guessed(spec, word):
    recipe = spec.quantities["recipe_water_L"]
    told = suggest_unit(word, recipe, spec)
    assert told == " It may be gal_us or gal_imp."


@pytest.mark.parametrize(
    ("word", "unit"), [("US gal", "gal_us"), ("gal imp.", "gal_imp"), ("litre", ""), ("l", "L")]
)
def test_symbols_lead_to_the_unit_key(spec, word, unit):
    told = suggest_unit(word, spec.quantities["recipe_water_L"], spec)
    assert told == (f" Did you mean {unit}?" if unit else "")


def test_a_machine_of_which_nothing_is_known_gives_nothing(spec):
    assert canonical(Machine(), spec) == {}
