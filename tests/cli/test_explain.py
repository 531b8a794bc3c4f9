import json

import pytest


@pytest.fixture
def machine_file(tmp_path):
    path = tmp_path / "machine.toml"
    path.write_text('[given]\nvessels_n = 3\nvessel_bore_mm = "8 in"\n')
    return path


def test_result_is_shown_with_names_numbers_precedents_and_reference(tell, machine_file):
    code, out, err = tell("explain", "vessels_water_L", machine_file)
    lines = [" ".join(line.split()) for line in out.splitlines()]
    assert (code, err) == (0, "")
    assert lines[0] == "vessels_water_L: Vessels, empty / Tubes de pression, vides"
    assert "formula vessels_n*PI()/4*vessel_bore_mm^2*vessel_length_mm/mm3_per_L" in lines
    assert "in numbers 3*PI()/4*203.2^2*1180/1000000" in lines
    assert "uses vessel_bore_mm = 203.2 mm: Vessel, inside diameter" in lines
    assert "reference builder.reference.holdup.vessels_water_L" in lines
    assert "reference Return the water in the empty vessels." in lines


def test_json_holds_labels_limits_source_and_value(tell):
    told = json.loads(tell("explain", "vessel_bore_mm", "--json")[1])
    assert (told["kind"], told["unit"], told["value"]) == ("input", "mm", 206)
    assert told["limits"] == [40, 500]
    assert told["label"]["fr"] == "Tube de pression, diamètre intérieur"
    assert told["source"]["seen"] == "yours"


def test_blank_precedent_stands_as_empty_text_in_the_formula(tell):
    told = json.loads(tell("explain", "end_reading_degC", "--json")[1])
    assert told["numbers"] == 'IF(""="",38,"")'


def test_negative_number_is_bracketed(tell, tmp_path):
    path = tmp_path / "m.toml"
    path.write_text("[given]\nelement_diameter_mm = 207\nelement_length_mm = 1180\n")
    told = json.loads(tell("explain", "membrane_side_L", path, "--json")[1])
    assert told["numbers"].startswith("(-0.76")


def test_choice_lists_its_options(tell):
    code, out, _ = tell("explain", "rinse_rule")
    assert code == 0
    assert "elements: by elements / par éléments" in out


def test_choice_stands_as_its_code_in_the_formula(tell):
    told = json.loads(tell("explain", "wash_solution_L", "--json")[1])
    assert 'IF("circulating"="tank",' in told["numbers"]


@pytest.mark.parametrize(
    ("name", "kind"),
    [
        ("mm3_per_L", "constant"),
        ("tank_ok", "check"),
        ("start", "grid"),
        ("gamma_n", "record"),
        ("wash_start_pH", "result"),
    ],
)
def test_every_kind_is_explained(tell, name, kind):
    code, out, err = tell("explain", name, "--json")
    assert (code, err, json.loads(out)["kind"]) == (0, "", kind)


def test_text_leaves_out_what_a_kind_does_not_have(tell):
    constant = tell("explain", "mm3_per_L")[1]
    assert "formula" not in constant
    assert "limits" not in constant
    assert "value        1000000 mm3/L" in constant


def test_unknown_name_is_wrong_use_with_the_nearest_name(tell):
    code, out, err = tell("explain", "holdup_adopted_l")
    assert (code, out) == (2, "")
    assert err == "no quantity is called 'holdup_adopted_l'. Did you mean holdup_adopted_L?\n"
