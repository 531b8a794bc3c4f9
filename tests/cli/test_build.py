import json
from pathlib import Path

import pytest
from audit.small import build_small
from audit.strict import make_strict

from builder.exchange.demo import read_demo
from builder.exchange.machine import Machine, Typed
from builder.production import build_workbook

OLD = build_small("fr", "metric", {"B5": 11.4, "B6": "elements"})
MACHINE = '[given]\nvessels_n = 1\nreader_units = "us"\n'


def test_without_machine_file_the_demo_machine_goes_to_rinsebook_xlsx(tell, folder, stub, spec):
    assert tell("build") == (0, "rinsebook.xlsx\n", "")
    assert (folder / "rinsebook.xlsx").read_bytes() == b"a workbook"
    assert stub == [(read_demo(spec), "en", "metric")]


def test_machine_file_gives_the_name_and_its_reader_units(tell, folder, stub):
    (folder / "sugar.house.toml").write_text(MACHINE)
    assert tell("build", folder / "sugar.house.toml") == (0, "sugar.house.xlsx\n", "")
    ((machine, _, units),) = stub
    assert (machine.given["vessels_n"], units) == (Typed(1, "", "n"), "us")


def test_options_reach_the_production(tell, folder, stub):
    (folder / "m.toml").write_text(MACHINE)
    options = ["--out", "b.XLSX", "--lang", "fr", "--units", "imperial"]
    assert tell("build", "m.toml", *options) == (0, "b.XLSX\n", "")
    assert stub[0][1:] == ("fr", "imperial")


@pytest.mark.usefixtures("folder")
def test_a_language_that_is_not_declared_is_refused_with_those_that_are(tell, stub):
    for command in (["build"], ["collect", ".", "--out", "fleet.csv"]):
        code, _, err = tell(*command, "--lang", "frr")
        assert (code, stub) == (2, [])
        assert "'frr' is not one of en, fr. Did you mean fr?" in " ".join(err.split())


@pytest.mark.usefixtures("folder")
def test_paper_is_that_of_the_language_unless_asked_for(tell, monkeypatch):
    specs = []
    monkeypatch.setattr(
        "builder.production.build_workbook", lambda spec, *_: specs.append(spec) or b""
    )
    tell("build", "--lang", "fr", "--force")
    tell("build", "--lang", "fr", "--paper", "a4", "--force")
    assert [spec.languages["fr"].paper for spec in specs] == ["letter", "a4"]


def test_existing_file_is_kept_and_force_overwrites_it(tell, folder, stub):
    (folder / "rinsebook.xlsx").write_bytes(b"older")
    code, out, err = tell("build")
    assert (code, out, stub) == (4, "", [])
    assert err.startswith("rinsebook.xlsx exists already.")
    assert (folder / "rinsebook.xlsx").read_bytes() == b"older"
    assert tell("build", "--force")[0] == 0
    assert (folder / "rinsebook.xlsx").read_bytes() == b"a workbook"


@pytest.mark.usefixtures("folder", "stub")
def test_missing_folder_cannot_be_written(tell):
    code, out, err = tell("build", "--out", "no/book.xlsx")
    assert (code, out) == (4, "")
    assert "no does not exist. Make it, or choose another --out." in err


@pytest.mark.parametrize(
    "wrong",
    [
        ["--out", "book.ods"],
        ["--lang", "de"],
        ["--units", "si"],
        ["--colour"],
        ["one.toml", "two.toml"],
    ],
)
def test_wrong_use_ends_with_2_and_writes_nothing(tell, folder, stub, wrong):
    code, out, err = tell("build", *wrong)
    assert (code, out, stub, list(folder.iterdir())) == (2, "", [], [])
    assert "Error: " in err


def test_failing_production_leaves_no_file(tell, folder, monkeypatch):
    def fail(*_):
        raise RuntimeError("no engine\nfound")

    monkeypatch.setattr("builder.production.build_workbook", fail)
    code, out, err = tell("build")
    assert (code, out, list(folder.iterdir())) == (1, "", [])
    assert err.startswith("This is a defect of the program: RuntimeError(")
    assert err.count("\n") == 1
    assert "--debug shows more" in err


@pytest.mark.usefixtures("folder")
def test_nothing_is_carried_or_collected_from_a_workbook_of_the_strict_form(tell, spec):
    Path("in").mkdir()
    machine = Machine("RO 1", given={"vessels_n": Typed(3, "", "n")})
    Path("in/old.xlsx").write_bytes(make_strict(build_workbook(spec, machine, "en", "metric")))
    code, out, err = tell("build", "--from", "in/old.xlsx", "--out", "new.xlsx")
    assert (code, out, Path("new.xlsx").exists()) == (4, "", False)
    assert "save it as .xlsx of the" in err
    assert tell("collect", "in", "--jobs", "1", "--out", "fleet.json")[0] == 1
    (row,) = json.loads(Path("fleet.json").read_text(encoding="utf-8"))["findings"]
    assert (row["file"], row["severity"]) == ("in/old.xlsx", "fault")
    assert "save it as .xlsx of the" in row["text"]


@pytest.fixture
def older(folder):
    path = folder / "old.xlsx"
    path.write_bytes(OLD)
    return path


def test_renewal_writes_beside_the_older_workbook_and_tells_on_stderr(tell, older, stub):
    code, out, err = tell("build", "--from", "old.xlsx")
    assert (code, out) == (0, "old-renewed.xlsx\n")
    assert err.startswith("older workbook: edition ")
    assert "\ncarried: 1 input, 1 choice, " in err
    assert "\ndropped: Pipe run!B3 pipe_length_m_typed: 10: this edition has no " in err
    assert older.with_name("old-renewed.xlsx").read_bytes() == b"a workbook"
    assert older.read_bytes() == OLD
    assert stub[-1][1:] == ("fr", "metric")


@pytest.mark.usefixtures("older")
def test_language_and_units_of_the_command_overrule_the_older_workbook(tell, stub):
    tell("build", "--from", "old.xlsx", "--lang", "en", "--units", "imperial")
    machine, lang, units = stub[-1]
    assert (lang, units, set(machine.given)) == ("en", "imperial", {"end_pH", "rinse_rule"})


def test_older_workbook_is_overwritten_only_by_force(tell, older, stub):
    words = ["build", "--from", "old.xlsx", "--out", "old.xlsx"]
    code, _, err = tell(*words)
    assert (code, older.read_bytes(), stub) == (4, OLD, [])
    assert "old.xlsx exists already" in err
    assert tell(*words, "--force")[0] == 0
    assert older.read_bytes() == b"a workbook"


@pytest.mark.usefixtures("older")
def test_machine_file_and_older_workbook_exclude_each_other(tell, folder, stub):
    (folder / "m.toml").write_text("")
    code, _, err = tell("build", "m.toml", "--from", "old.xlsx")
    assert (code, stub) == (2, [])
    assert "not two of them" in err
