import json
import re
from dataclasses import replace

import pytest

from builder.exchange.demo import find_demo, read_demo
from builder.explanation import Explainer
from builder.explanation_text import write_explanation
from builder.formula.tokens import find_names
from builder.spec.records import Grid


def list_used_names(spec):
    """Return every name that stands in a formula of the specs, once."""
    found: dict[str, None] = {}
    for quantity in spec.quantities.values():
        formulas = [getattr(quantity, "formula", ""), getattr(quantity, "close", "")]
        if isinstance(quantity, Grid):
            formulas += [*quantity.first.values(), *quantity.rest.values()]
        for formula in filter(None, formulas):
            found |= dict.fromkeys(name.text for name in find_names(formula))
    return list(found)


@pytest.fixture
def machine_file(tmp_path):
    path = tmp_path / "machine.toml"
    path.write_text('[given]\nvessels_n = 3\nvessel_bore_mm = "8 in"\nvessel_length_mm = 1180\n')
    return path


@pytest.fixture(scope="module", params=["en", "fr"])
def explainer(request, spec):
    return Explainer(spec, read_demo(spec), request.param)


@pytest.fixture(scope="module")
def english(spec):
    return Explainer(spec, read_demo(spec), "en")


def squeeze(text):
    """Return lines with one blank at most in a row."""
    return [" ".join(line.split()) for line in text.splitlines()]


def test_result_is_shown_with_names_numbers_precedents_and_reference(tell, machine_file):
    code, out, err = tell("explain", "vessels_water_L", machine_file)
    lines = squeeze(out)
    assert (code, err) == (0, "")
    assert lines[0] == "vessels_water_L: Vessels, empty"
    assert "formula vessels_n*PI()/4*vessel_bore_mm^2*vessel_length_mm/mm3_per_L" in lines
    assert "in numbers 3*PI()/4*203.2^2*1180/1000000" in lines
    assert "uses vessel_bore_mm = 203.2 mm: Vessel, inside diameter" in lines
    assert "reference builder.reference.holdup.vessels_water_L" in lines
    assert any(line.startswith("reference Return the water ") for line in lines)
    assert "proof the definition once more" in lines


def test_french_explanation_has_french_labels_and_words(tell, machine_file):
    lines = squeeze(tell("explain", "vessels_water_L", machine_file, "--lang", "fr")[1])
    assert lines[0] == "vessels_water_L: Tubes de pression, vides"
    assert "nature résultat" in lines
    assert "utilise vessel_bore_mm = 203.2 mm: Tube de pression, diamètre intérieur" in lines


def test_another_route_is_told_as_the_proof(spec):
    quantity = replace(spec.quantities["elements_n"], proof="other route")
    other = replace(spec, quantities={**spec.quantities, "elements_n": quantity})
    text = write_explanation(
        Explainer(other, read_demo(other), "en").explain("elements_n"), spec, "en"
    )
    assert "proof another route" in squeeze(text)


def test_json_holds_label_limits_source_and_value(tell):
    told = json.loads(tell("explain", "vessel_bore_mm", "--lang", "fr", "--json")[1])
    assert (told["kind"], told["unit"], told["value"]) == ("input", "mm", 206)
    assert told["limits"] == [40, 500]
    assert told["label"] == "Tube de pression, diamètre intérieur"
    assert told["source"]["seen"] == "yours"


def test_blank_precedent_stands_as_empty_text_in_the_formula(english):
    assert 'OR(""="",""="")' in english.explain("composition_n").working.numbers


def test_negative_number_is_bracketed(tell, tmp_path):
    path = tmp_path / "m.toml"
    demo = find_demo().read_text(encoding="utf-8")
    demo = demo.replace("element_diameter_mm = 199", "element_diameter_mm = 207")
    path.write_text(demo.replace("element_length_mm = 1010", "element_length_mm = 1180"))
    told = json.loads(tell("explain", "element_part_L", path, "--json")[1])
    assert told["numbers"].startswith("(-")


def test_choice_lists_its_options(english, spec):
    text = write_explanation(english.explain("rinse_rule"), spec, "en")
    assert "options elements: by elements" in squeeze(text)


def test_choice_stands_as_its_code_in_the_formula(english):
    assert 'IF("circulating"="tank",' in english.explain("wash_solution_L").working.numbers


@pytest.mark.parametrize(
    ("name", "kind"),
    [
        ("mm3_per_L", "constant"),
        ("tank_ok", "check"),
        ("start", "grid"),
        ("gamma_n", "record"),
        ("wash_start_pH", "result"),
        ("start_next_pH", "last"),
        ("log_sap_L_list", "list"),
        ("log_sap_L_factor_n", "factor"),
        ("log_sap_L_offset_n", "offset"),
        ("log_event_words", "words"),
        ("rinse_rule_words", "words"),
        ("rinse_rule_codes", "codes"),
        ("vessel_bore_mm_typed", "typed"),
        ("vessel_bore_mm_typed_unit", "typed_unit"),
        ("at_lkw_n", "bound"),
        ("aim_degC", "bound"),
        ("row_n", "row"),
        ("master_state", "cell"),
        ("word_ok_txt", "cell"),
    ],
)
def test_every_kind_is_explained(english, name, kind):
    assert english.explain(name).kind == kind


def test_every_name_in_a_formula_is_explained_in_both_languages(explainer, spec):
    names = list_used_names(spec)
    assert {"start_next_pH", "at_lkw_n", "row_n", "aim_pH"} <= set(names)
    for name in names:
        head, kind, *_ = write_explanation(explainer.explain(name), spec, explainer.lang).split(
            "\n"
        )
        assert head.startswith(f"{name}: ")
        assert kind


def test_every_name_of_the_workbook_is_explained(explainer):
    for name in explainer.solution.book.names:
        assert explainer.explain(name).label


def test_a_name_made_by_a_mechanism_says_where_in_the_specs_it_comes_from(english, spec):
    for name in list_used_names(spec):
        about = english.explain(name)
        assert about.places or about.cell or name == "row_n", name


def test_a_column_is_followed_to_its_last_row_with_the_numbers_of_the_machine(english):
    about = english.explain("start_next_pH")
    names = [use.name for use in about.working.uses]
    assert names == ["trial_pH", "clip_pH", "alkali_eqpL", "need_eqpL", "slope_eqpL"]
    assert about.working.row == english.spec.quantities["start"].rows
    assert about.working.value == pytest.approx(english.values["wash_start_pH"], abs=1e-6)
    assert about.working.numbers.startswith(f"{about.working.value:.10g}+MAX(-1,MIN(1,LOG10(")


def test_a_first_row_with_another_formula_is_shown_beside_the_others(english):
    about = english.explain("start_trial_pH").working
    assert list(about.formulas) == ["first", "others"]
    assert about.formulas["others"] == "PRIOR(next_pH)"
    assert about.numbers == f"{about.uses[0].value:.10g}"


def test_a_bound_name_says_what_it_stands_for_in_each_grid(english):
    bound = english.explain("at_lkw_n").bound
    assert (bound["start"], bound["high"], bound["final"]) == (
        "atwash_lkw_n",
        "attop_lkw_n",
        "atread_lkw_n",
    )


def test_a_blank_log_is_explained_with_the_worked_case(english, spec):
    about = english.explain("row_left_L_list")
    assert (about.working.case, about.working.row > 1) == ("worked", True)
    assert "PRIOR" not in about.working.numbers
    text = write_explanation(about, spec, "en")
    assert "worked case: this machine has none" in text


def test_a_list_is_where_the_whole_workbook_has_it(english, spec):
    rows = spec.quantities["log"].rows
    area = english.explain("log_sap_L_list").cell
    first, last = map(int, re.findall(r"[A-Z]([0-9]+)", area.partition("!")[2]))
    assert last - first == rows - 1


def test_text_leaves_out_what_a_kind_does_not_have(tell):
    constant = squeeze(tell("explain", "mm3_per_L")[1])
    assert not [line for line in constant if line.startswith(("formula", "limits"))]
    assert "value 1000000 mm3/L" in constant


def test_unknown_name_is_wrong_use_with_the_nearest_name(tell):
    code, out, err = tell("explain", "holdup_adopted_l")
    assert (code, out) == (2, "")
    assert err == "no quantity is called 'holdup_adopted_l'. Did you mean holdup_adopted_L?\n"
