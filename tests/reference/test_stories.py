"""Seasons worked by hand, against the references."""

from pathlib import Path

import pytest

from . import stories

FOLDER = Path(__file__).resolve().parents[1] / "stories"
PATHS = sorted(FOLDER.glob("*.toml"))


def assert_near(told: object, expected: object, within: float, name: str) -> None:
    if isinstance(expected, list):
        assert len(told) == len(expected), name
        for n, (one, other) in enumerate(zip(told, expected, strict=True), start=1):
            assert_near(one, other, within, f"{name} {n}")
    elif isinstance(expected, dict):
        for key, value in expected.items():
            assert_near(told[key], value, within, f"{name} {key}")
    elif isinstance(expected, int | float) and not isinstance(expected, bool):
        assert told == pytest.approx(expected, rel=1e-9, abs=max(within, 1e-9)), name
    else:
        assert told == expected, name


@pytest.mark.parametrize("path", PATHS, ids=lambda path: path.stem)
def test_a_story_ends_as_its_hand_worked_comment_says(path: Path) -> None:
    story = stories.read(path)
    expect = story["expect"]
    told = stories.tell(stories.play(story), expect, len(stories.list_rows(story)))
    for name, value in expect.items():
        if name != "within":
            within = expect.get("within", 0.0) if name.startswith("next_wash") else 0.0
            assert_near(told[name], value, within, name)
