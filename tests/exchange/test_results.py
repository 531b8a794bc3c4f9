from builder.exchange.demo import read_demo
from builder.exchange.machine import Machine, Typed
from builder.exchange.results import list_checks, list_missing, list_results, work_out
from builder.spec.records import Check, Choice, Input, Result


def test_what_is_usual_or_missing_of_a_machine_is_noted(spec):
    notes = work_out(Machine(), spec).notes
    inputs = [n for n, q in spec.quantities.items() if isinstance(q, Input | Choice)]
    assert [note.split()[0] for note in notes[: len(inputs)]] == inputs
    assert "feed_spacer_mm is not given: usual is 0.79 mm." in notes
    assert "vessels_n is not given." in notes
    assert "rinse_rule is not given: usual is larger." in notes
    assert "end_pH is not given." in notes


def test_given_input_needs_no_note(spec):
    machine = Machine(given={"vessels_n": Typed(1, "", "n")})
    assert not [note for note in work_out(machine, spec).notes if note.startswith("vessels_n ")]


def test_blank_result_names_the_missing_input_behind_it(spec):
    notes = work_out(read_demo(spec), spec).notes
    assert "floor_margin_pH is blank: end_pH is not given. end_temp_degC is not given." in notes


def test_blank_result_repeats_why_its_reference_refuses(spec):
    zero = {f"cleaner_{part}_pct" for part in ("naoh", "carbonate", "silicate", "edta")}
    given = {**read_demo(spec).given, **{name: Typed(0, "", "pct") for name in zero}}
    machine = Machine(given=given)
    notes = work_out(machine, spec).notes
    (told,) = [note for note in notes if note.startswith("wash_start_pH is blank")]
    assert told == "wash_start_pH is blank: a wash of 0.0 eq/L is water."


def test_every_blank_result_has_a_reason(spec):
    calculation = work_out(read_demo(spec), spec)
    blank = {name for name, value in list_results(calculation, spec).items() if value is None}
    told = {note.split()[0]: note for note in calculation.notes if " is blank: " in note}
    assert told.keys() == blank
    assert all(len(note.partition(": ")[2]) > 0 for note in told.values())


def test_results_are_the_results_of_the_specs(spec):
    names = [name for name, q in spec.quantities.items() if isinstance(q, Result)]
    assert list(list_results(work_out(read_demo(spec), spec), spec)) == names


def test_checks_are_told_in_the_four_words_of_the_interface(spec):
    checks = list_checks(work_out(read_demo(spec), spec), spec)
    assert list(checks) == [n for n, q in spec.quantities.items() if isinstance(q, Check)]
    assert set(checks.values()) <= {"ok", "look", "stop", "missing"}
    assert (checks["annulus_ok"], checks["end_floor_ok"]) == ("ok", "missing")


def test_only_inputs_behind_the_names_asked_for_are_missing(spec):
    found = work_out(read_demo(spec), spec)
    assert list_missing(["topup_cleaner_kg", "floor_margin_pH"], found, spec) == [
        "end_pH",
        "end_temp_degC",
    ]
    assert list_missing(["holdup_adopted_L"], found, spec) == []
