"""Names that stand as texts in Python are those of the specs."""

from dataclasses import replace
from pathlib import Path

import pytest

from builder.spec.load import find_specs, load_spec
from builder.spec.rules_literals import check_literals

SPEC = load_spec(find_specs())
SOUND = '''"""A docstring may speak of lost_L."""
row.get("left_L")
row.get("event") == "alkaline"
text = f"IF(checks_look_n>0,{name}_factor_n,row_left_L_list)"
context.word("row")
'''


def write_package(folder: Path, text: str) -> Path:
    package = folder / "package"
    (package / "reference").mkdir(parents=True)
    (package / "reference" / "topic.py").write_text('NAME = "lost_L"\n', encoding="utf-8")
    (package / "page.py").write_text(text, encoding="utf-8")
    return package


def test_this_package_names_only_what_the_specs_have() -> None:
    assert [str(problem) for problem in check_literals(SPEC)] == []


def test_sound_names_pass(tmp_path: Path) -> None:
    assert list(check_literals(SPEC, write_package(tmp_path, SOUND))) == []


@pytest.mark.parametrize(
    ("line", "name", "text"),
    [
        ('row.get("lft_L")', "lft_L", "no name of the specs. Did you mean left_L?"),
        ('text = "a,suger_ok)"', "suger_ok", "no name of the specs. Did you mean sugar_ok?"),
        ('f"{x}=log_sap_m_list+"', "log_sap_m_list", "no name of the specs."),
        ('row.get("event") == "alcaline"', "event", "no option 'alcaline'. Did you mean alkaline?"),
        ('context.word("rows")', "rows", "no key of the words."),
        ('wording.say("fleet_titel")', "fleet_titel", "words. Did you mean fleet_title?"),
    ],
)
def test_text_that_is_no_name_is_told_at_its_line(
    tmp_path: Path, line: str, name: str, text: str
) -> None:
    (found,) = check_literals(SPEC, write_package(tmp_path, f"{SOUND}{line}\n"))
    assert (found.file, found.line, found.name) == ("package/page.py", 6, name)
    assert text in found.text


@pytest.mark.parametrize(
    ("name", "file"),
    [
        ("event", "builder/collection/fleet.py"),
        ("log", "builder/collection/tables.py"),
        ("reader_units", "builder/plan/inputs.py"),
        ("day_d", "builder/collection/fleet.py"),
    ],
)
def test_renamed_quantity_is_told_where_python_uses_it(name: str, file: str) -> None:
    left = {key: quantity for key, quantity in SPEC.quantities.items() if key != name}
    found = list(check_literals(replace(SPEC, quantities=left)))
    assert (file, name) in {(problem.file, problem.name) for problem in found}
