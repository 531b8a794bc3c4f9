"""A suggestion is near what was written, or there is none."""

import pytest

from builder.problems import suggest

FUNCTIONS = ["DAY", "ISTEXT", "MAX", "MIN", "NA", "STDEV"]
NAMES = ["aim_L", "drain_next_L", "fill_L", "level_L", "next_L", "tank_L", "tank_short_L"]


@pytest.mark.parametrize(
    ("word", "known", "near"),
    [
        ("fil_L", NAMES, "fill_L"),
        ("nxt_L", NAMES, "next_L"),
        ("tank_shrt_L", NAMES, "tank_short_L"),
        ("TANK_l", NAMES, "tank_L"),
        ("wahs", ["run", "wash"], "wash"),
        ("tow", ["one", "two"], "two"),
        ("inptu", ["input", "choice"], "input"),
        ("STDEVP", FUNCTIONS, "STDEV"),
        ("inch", ["mm", "in", "ft"], "in"),
        ("limit", ["limits", "label"], "limits"),
    ],
)
def test_slip_of_the_pen_is_told_what_was_meant(word: str, known: list[str], near: str) -> None:
    assert suggest(word, known) == f" Did you mean {near}?"


@pytest.mark.parametrize(
    ("word", "known"),
    [
        ("N", FUNCTIONS),
        ("TODAY", FUNCTIONS),
        ("TEXT", FUNCTIONS),
        ("leak_L", NAMES),
        ("trial_L", NAMES),
        ("tank_fill_L", NAMES),
        ("degK", ["degC", "degF"]),
        ("pipe_9_bore_mm", ["pipe_1_bore_mm", "pipe_2_bore_mm"]),
        ("anything", []),
    ],
)
def test_what_is_not_near_is_not_suggested(word: str, known: list[str]) -> None:
    assert suggest(word, known) == ""
