"""What README and docs show of commands is what the commands print; `--update-golden` writes it."""

import re
import shlex
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
PAGES = [ROOT / "README.md", *sorted((ROOT / "docs").glob("*.md"))]
SHOWN = re.compile(r"(?<=```console\n)\$ rinsebook (.*)\n((?:(?!```).*\n)*)")
STORY = re.compile(r"```toml\n(title = (?:.*\n)*?)```")
SHOWING = [page for page in PAGES if SHOWN.search(page.read_text(encoding="utf-8"))]


@pytest.mark.parametrize("page", SHOWING, ids=lambda page: page.name)
def test_a_command_that_is_shown_prints_what_is_shown(page, tell, monkeypatch, request):
    monkeypatch.chdir(ROOT)
    text = page.read_text(encoding="utf-8")

    def show(found):
        return f"$ rinsebook {found[1]}\n{tell(*shlex.split(found[1]))[1]}"

    printed = SHOWN.sub(show, text)
    if request.config.getoption("--update-golden"):
        page.write_text(printed, encoding="utf-8")
    assert page.read_text(encoding="utf-8") == printed


def test_the_story_that_is_shown_comes_to_what_it_expects(tell, folder):
    (story,) = STORY.findall((ROOT / "docs" / "replay.md").read_text(encoding="utf-8"))
    (folder / "story.toml").write_text(story, encoding="utf-8")
    assert tell("replay", "story.toml")[:2] == (0, "1 season, 0 differences\n")
