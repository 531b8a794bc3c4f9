"""The command that plays stories: what it prints, what it ends with, what it writes."""

import io
import json
import warnings
from pathlib import Path

import openpyxl
import pytest

STORY = Path(__file__).parents[1] / "stories" / "04_sap_on_an_unrinsed_machine.toml"
ENGINES = ["reference", "ironcalc"]
KEYS = {
    *("story", "engine", "why", "verdict", "column", "still_L", "still_to_rinse_L"),
    *("first_to_fix", "record", "next_wash", "next_wash_from"),
}


@pytest.mark.parametrize("engine", ENGINES)
def test_json_has_the_shape_of_the_contract(tell, engine):
    code, out, err = tell("replay", STORY, "--engine", engine, "--rows", "short", "--json")
    told = json.loads(out)
    assert (code, err, set(told)) == (0, "1 season, 0 differences\n", KEYS)
    assert (told["story"], told["engine"]) == (str(STORY), engine)
    assert (told["still_L"], told["first_to_fix"]) == ([3000, 3000, 0, 0], 2)
    (line,) = told["record"]
    assert set(line) == {"kind", "owed_L", "done_L", "cleared", "state", "line"}
    assert (line["cleared"], line["state"]) == ("2026-03-07", "sap first")


def test_json_of_several_stories_is_a_list(tell):
    _, out, _ = tell("replay", STORY, STORY, "--engine", "ironcalc", "--rows", "short", "--json")
    assert [told["first_to_fix"] for told in json.loads(out)] == [2, 2]


@pytest.mark.parametrize("engine", ENGINES)
def test_a_broken_expectation_is_told_and_ends_with_1(tell, folder, engine):
    broken = folder / "broken.toml"
    text = STORY.read_text(encoding="utf-8")
    broken.write_text(text.replace("still_L = [3000,", "still_L = [3001,"), encoding="utf-8")
    code, out, _ = tell("replay", broken, STORY, "--engine", engine, "--rows", "short")
    assert code == 1
    assert out.splitlines() == [
        f"{broken}: row 1 still_L: expected 3001, found 3000",
        "2 seasons, 1 difference",
    ]


def test_a_story_with_a_mistake_ends_with_3_and_its_line(tell, folder):
    (folder / "wrong.toml").write_text('title = "A season"\n[given]\nstat = 1\n')
    code, out, err = tell("replay", "wrong.toml")
    assert (code, out) == (3, "")
    assert err.startswith("wrong.toml:3 bad-story stat: is unknown here. Did you mean start?")


def test_a_story_that_is_not_there_ends_with_4(tell, folder):
    assert tell("replay", folder / "nowhere.toml")[0] == 4


@pytest.mark.usefixtures("folder")
def test_the_filled_book_holds_what_the_story_types(tell):
    book = ("--book", "season.xlsx", "--engine", "ironcalc", "--rows", "short", "--lang", "fr")
    assert tell("replay", STORY, *book)[0] == 0
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # a limit that is no day
        found = openpyxl.load_workbook(io.BytesIO(Path("season.xlsx").read_bytes()), data_only=True)
    ((sheet, area),) = found.defined_names["log_verdict_list"].destinations
    shown = [cell.value for (cell,) in found[sheet][area.replace("$", "")][:5]]
    assert shown[:4] == ["correct", "arrêt", "correct", "correct"]
    assert not shown[4]
    assert tell("replay", STORY, *book)[0] == 4
    assert tell("replay", STORY, STORY, *book)[0] == 2
