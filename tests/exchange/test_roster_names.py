import re

import pytest

from builder.roster.names import Names, make_slug

SAFE = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")


@pytest.mark.parametrize(
    ("text", "slug"),
    [
        ("Érablière de l’Œil-de-bœuf", "erabliere-de-l-oeil-de-boeuf"),
        ("../../x", "x"),
        ("C:\\x", "c-x"),
        ("/etc/passwd", "etc-passwd"),
        ("=cmd|'/c calc'!A0", "cmd-c-calc-a0"),
        ("CON", "con-book"),
        ("com1", "com1-book"),
        ("con.xlsx", "con-book"),
        ("Book 7.XLSX", "book-7"),
        ("\u202egnp.exe", "gnp-exe"),
        ("a\0b\nc", "a-b-c"),
        ("", "book"),
        ("..", "book"),
        ("蜜", "book"),
        ("ﬁn ²", "fin-2"),
    ],
)
def test_any_text_becomes_a_plain_name(text, slug):
    assert make_slug(text) == slug


@pytest.mark.parametrize("text", ["x" * 500, "ab-" * 200, "é" * 61, " . " * 99, "." * 70 + "a"])
def test_a_long_text_becomes_a_name_of_sixty_characters_at_most(text):
    slug = make_slug(text)
    assert len(slug) <= 60
    assert SAFE.fullmatch(slug)


def test_a_name_that_comes_again_is_numbered_and_never_meets_another():
    names = Names()
    asked = ["a", "a-2", "a", "a", "b", "a-2"]
    assert [names.claim(slug) for slug in asked] == ["a", "a-2", "a-3", "a-4", "b", "a-2-2"]


def test_numbered_names_stay_within_sixty_characters():
    names = Names()
    given = [names.claim("x" * 60) for _ in range(12)]
    assert len(set(given)) == 12
    assert max(map(len, given)) == 60
