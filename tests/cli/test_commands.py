import json
import subprocess
import sys

import pytest

from builder import __version__
from builder.__main__ import main
from builder.exchange.demo import find_demo
from builder.problems import Problem, ProblemsError
from builder.spec.records import Result


@pytest.fixture
def machine_file(tmp_path):
    path = tmp_path / "machine.toml"
    demo = find_demo().read_text(encoding="utf-8").replace("vessels_n = 2", "vessels_n = 1")
    path.write_text(demo.replace("vessel_bore_mm = 206", 'vessel_bore_mm = "8 in"'))
    return path


def test_version_names_the_program(tell):
    assert tell("--version") == (0, f"rinsebook {__version__}\n", "")


@pytest.mark.parametrize("wrong", [[], ["bild"], ["--colour"], ["calc"], ["explain"], ["audit"]])
def test_wrong_use_ends_with_2(tell, wrong):
    assert tell(*wrong)[0] == 2


def test_calc_json_has_the_shape_of_the_contract(tell, machine_file, spec):
    code, out, err = tell("calc", machine_file, "--json")
    told = json.loads(out)
    assert (code, err, list(told)) == (0, "", ["version", "results", "checks", "rests_on", "notes"])
    results = [name for name, q in spec.quantities.items() if isinstance(q, Result)]
    assert (told["version"], list(told["results"])) == (__version__, results)
    # one vessel of 203.2 mm by 1180 mm: pi/4 * 203.2**2 * 1180 / 1e6
    assert told["results"]["vessels_water_L"] == pytest.approx(38.26655, abs=5e-6)
    assert told["results"]["topup_cleaner_kg"] is None
    assert "membrane_thickness_mm is not given: usual is 0.14 mm." in told["notes"]
    assert "membrane_thickness_mm" in told["rests_on"]["usual"]


def test_calc_prints_answers_first_and_what_is_missing_in_one_line(tell, machine_file):
    code, out, err = tell("calc", machine_file)
    first = "Fix this first, by the season log"
    assert (code, out.splitlines()[0], err.count("\n")) == (0, first, 1)
    assert err.startswith("Not filled in, and needed for more answers: ")
    assert "(end_pH)" in err
    assert "annulus_ok" not in out


def test_calc_prints_the_rest_and_the_notes_where_they_are_asked_for(tell, machine_file):
    _, out, _ = tell("calc", machine_file, "--lang", "fr")
    code, longer, err = tell("calc", machine_file, "--lang", "fr", "--all", "--notes")
    assert code == 0
    assert longer.split()[:2] == out.split()[:2] == ["À", "corriger"]
    assert any(line.endswith("correct  annulus_ok") for line in map(squeeze, longer.splitlines()))
    assert "end_pH is not given.\n" in err


def squeeze(line):
    """Return a line with two blanks at most in a row."""
    return "  ".join(part.strip() for part in line.split("  ") if part.strip())


def test_calc_shows_the_units_that_are_asked_for(tell, machine_file):
    assert " US gal " in tell("calc", machine_file, "--units", "us")[1]
    assert " US gal " not in tell("calc", machine_file, "--units", "metric")[1]
    machine_file.write_text('[given]\nknown_holdup_L = "14 gal_us"\n')
    assert " US gal " in tell("calc", machine_file)[1]  # the one value with a unit


def test_check_prints_findings_and_ends_with_1(tell, monkeypatch):
    finding = Problem("specs/x.toml", 7, "unit", "a_L", "says mm.", "Say L.")
    monkeypatch.setattr("builder.examination.examine", lambda *_: [finding])
    expected = "specs/x.toml:7 unit a_L: says mm.\n    Say L.\n"
    assert tell("check") == (1, expected, "")


def test_check_of_clean_specs_counts_them_and_their_references(tell, monkeypatch, spec):
    monkeypatch.setattr("builder.examination.examine", lambda *_: [])
    code, out, err = tell("check")
    assert (code, err, out.count("\n")) == (0, "", 3)
    assert out.startswith(f"{len(spec.quantities)} quantities, ")


def test_specs_that_do_not_load_are_findings_of_check_and_invalid_elsewhere(tell, monkeypatch):
    def fail(_):
        raise ProblemsError([Problem("specs/x.toml", 7, "not-toml", "x", "broken.", "Mend it.")])

    monkeypatch.setattr("builder.spec.load.load_spec", fail)
    monkeypatch.setattr("builder.cli.explain.load_spec", fail)
    expected = "specs/x.toml:7 not-toml x: broken.\n    Mend it.\n"
    assert tell("check") == (1, expected, "")
    assert tell("explain", "holdup_adopted_L") == (3, "", expected)


class Report:
    """Stands for what an audit found."""

    def __init__(self, faults, warnings):
        self.faults, self.warnings = faults, warnings

    def to_json(self):
        return {"faults": self.faults, "warnings": self.warnings}


@pytest.mark.parametrize(("faults", "code"), [([], 0), (["A!B5: changed"], 1)])
def test_audit_ends_with_1_where_there_are_faults(tell, monkeypatch, faults, code):
    report = Report(faults, ["A!C1: blank"])
    monkeypatch.setattr("builder.audit.report.audit_file", lambda *_: report)
    told = tell("audit", "book.xlsx")
    lines = [*(f"fault: {fault}" for fault in faults), "warning: A!C1: blank"]
    assert told[0] == code
    assert told[1].splitlines() == [
        *lines,
        f"book.xlsx: {'1 fault' if code else '0 faults'}, 1 warning",
    ]
    assert tell("audit", "book.xlsx", "--json")[:1] == (code,)


def test_audit_hands_over_file_depth_and_a_way_to_rebuild(tell, monkeypatch, stub):
    asked = []

    def audit_file(path, _spec, build, deep):
        asked.append((str(path), build("fr", "us"), deep))
        return Report([], [])

    monkeypatch.setattr("builder.audit.report.audit_file", audit_file)
    code, out, _ = tell("audit", "book.xlsx", "--deep", "--json")
    assert (code, json.loads(out)) == (0, {"faults": [], "warnings": []})
    assert asked == [("book.xlsx", b"a workbook", True)]
    assert stub[0][1:] == ("fr", "us")


def test_interruption_ends_with_130(tell, monkeypatch):
    def interrupt(*_):
        raise KeyboardInterrupt

    monkeypatch.setattr("builder.examination.examine", interrupt)
    code, out, err = tell("check")
    assert (code, out) == (130, "")
    assert "Traceback" not in err


def test_an_interruption_before_or_after_the_command_ends_with_130(monkeypatch):
    def interrupt():
        raise KeyboardInterrupt

    monkeypatch.setattr("builder.cli.application.main", interrupt)
    with pytest.raises(SystemExit) as end:
        main()
    assert end.value.code == 130


@pytest.mark.usefixtures("folder")
@pytest.mark.parametrize("place", [("--debug", "calc", "no.toml"), ("calc", "no.toml", "--debug")])
def test_debug_shows_the_traceback_wherever_it_stands(tell, place):
    code, _, err = tell(*place)
    assert code == 4
    assert err.startswith("Traceback (most recent call last):")
    assert err.endswith("no.toml does not exist. Give the path of a machine file.\n")


def test_program_runs_as_a_module_and_survives_a_closed_pipe(machine_file):
    command = [sys.executable, "-m", "builder", "calc", str(machine_file), "--json"]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE) as process:
        process.stdout.close()
        told = process.stderr.read().decode()
    assert "Traceback" not in told
    assert "Exception ignored" not in told
    assert process.returncode in {1, 4}
