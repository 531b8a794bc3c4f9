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
