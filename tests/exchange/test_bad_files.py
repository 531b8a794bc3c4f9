"""Each faulty machine file beside the exact words that its author reads."""

import re
from pathlib import Path

import pytest

from builder.cli import run

BAD = Path(__file__).parent / "bad"
FILES = sorted(path.name for path in BAD.glob("*.toml"))
FINDING = re.compile(
    r"^(?P<file>[^:]+):(?P<line>\d+) (?P<code>[a-z0-9-]+) (?P<name>.+?): (?P<text>.+)$"
)


@pytest.mark.parametrize("name", FILES)
def test_bad_file_is_told_in_these_words_and_writes_nothing(name, tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(BAD)
    code = run(["build", name, "--out", str(tmp_path / "book.xlsx")])
    told = capsys.readouterr()
    assert told.err == (BAD / name).with_suffix(".txt").read_text(encoding="utf-8")
    assert (code, told.out, list(tmp_path.iterdir())) == (3, "", [])


@pytest.mark.parametrize("name", FILES)
def test_every_finding_has_place_code_name_text_and_remedy(name):
    lines = (BAD / name).with_suffix(".txt").read_text(encoding="utf-8").splitlines()
    findings, remedies = lines[::2], lines[1::2]
    assert all(FINDING.match(line) for line in findings)
    assert len(remedies) == len(findings)
    assert all(line.startswith("    ") and line.endswith((".", '".', ";")) for line in remedies)


def test_an_older_workbook_of_the_same_name_survives_a_bad_file(tmp_path, capsys):
    out = tmp_path / "book.xlsx"
    out.write_bytes(b"older")
    assert run(["build", str(BAD / "array.toml"), "--out", str(out), "--force"]) == 3
    assert "wrong-type" in capsys.readouterr().err
    assert [path.read_bytes() for path in tmp_path.iterdir()] == [b"older"]


def test_calc_and_explain_refuse_bad_files_in_the_same_words(monkeypatch, capsys):
    monkeypatch.chdir(BAD)
    expected = (BAD / "many.txt").read_text(encoding="utf-8")
    assert run(["calc", "many.toml"]) == 3
    assert capsys.readouterr().err == expected
    assert run(["explain", "holdup_adopted_L", "many.toml"]) == 3
    assert capsys.readouterr().err == expected


def test_the_corpus_covers_thirty_kinds_of_mistake():
    assert len(FILES) >= 30
    assert {path.stem for path in BAD.glob("*.txt")} == {Path(name).stem for name in FILES}


def test_large_file_is_refused_unread(tmp_path, capsys):
    path = tmp_path / "large.toml"
    path.write_bytes(b"#" * 100_001)
    assert run(["calc", str(path)]) == 3
    assert (
        f"{path}:1 too-large large.toml: 100001 bytes, more than 100000." in capsys.readouterr().err
    )


@pytest.mark.parametrize("line", ["a" + ".a" * 40_000 + " = 1", "[a" + ".a" * 40_000 + "]"])
def test_a_name_of_many_parts_never_reaches_the_parser(line, tmp_path, capsys):
    path = tmp_path / "deep.toml"
    path.write_text(f'title = "One"\n{line}\n', encoding="utf-8")
    assert run(["calc", str(path)]) == 3
    told = f"{path}:2 not-toml deep.toml: 40000 points in one line, more than 100."
    assert told in capsys.readouterr().err


def test_brackets_deeper_than_can_be_shown_are_told_without_them(tmp_path, capsys):
    path = tmp_path / "deep.toml"
    level = "{a" + ".a" * 90 + " = [\n"
    path.write_text("x = " + level * 100 + "]}" * 100, encoding="utf-8")
    assert run(["calc", str(path)]) == 3
    assert "unknown-key x: is unknown here; found brackets inside" in capsys.readouterr().err


def test_a_bracket_and_many_blanks_take_no_time(tmp_path, capsys):
    path = tmp_path / "blanks.toml"
    path.write_text("[" + " " * 90_000, encoding="utf-8")
    assert run(["calc", str(path)]) == 3
    assert "blanks.toml:1 not-toml" in capsys.readouterr().err
