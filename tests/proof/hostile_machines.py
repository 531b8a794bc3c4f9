"""Hostile machine files; wrong entries in sane ones stand in tests/exchange/bad."""

from collections.abc import Iterator
from pathlib import Path

from proof.hostile_case import Case, Make

KIND = "machine files"
FILE = "machine.toml"
SOUND = b'title = "One"\n[given]\nvessels_n = 2\nvessel_bore_mm = "8 in"\n'
SYNTAX = r"machine\.toml:\d+ not-toml machine\.toml: .+\n    \S"
NOT_UTF8 = r"machine\.toml:\d+ not-utf8 machine\.toml: byte \d+"
TOO_LARGE = r"too-large machine\.toml: \d+ bytes, more than \d+"
UNKNOWN = r"machine\.toml:\d+ unknown"
TEXTS: dict[str, tuple[bytes, str]] = {
    "one bracket": (b"[", SYNTAX),
    "cut in a key": (SOUND[:17], SYNTAX),
    "cut in a text": (SOUND[:10], SYNTAX),
    "cut in a table": (SOUND[:19], SYNTAX),
    "cut before the end": (SOUND[:-3], SYNTAX),
    "cut in a letter": ('title = "é'.encode()[:-1], NOT_UTF8),
    "binary": (bytes(range(256)) * 40, NOT_UTF8),
    "zeros": (bytes(4096), SYNTAX),
    "zero in a text": (b'title = "a\0b"\n', SYNTAX),
    "UTF-16 with mark": (SOUND.decode().encode("utf-16"), NOT_UTF8),
    "UTF-16 without mark": (SOUND.decode().encode("utf-16-le"), SYNTAX),
    "UTF-32": (SOUND.decode().encode("utf-32"), NOT_UTF8),
    "Latin-1": ('title = "Érablière"\n'.encode("latin-1"), NOT_UTF8),
    "two marks": (b"\xef\xbb\xbf\xef\xbb\xbf" + SOUND, SYNTAX),
    "fifty megabytes": (b"#" * 50_000_000, TOO_LARGE),
    "brackets inside brackets": (b"x = " + b"[" * 90_000, "not-toml machine.toml: holds"),
    "tables inside tables": (b"x = " + b"{a=" * 30_000, "not-toml machine.toml: holds"),
    "a name of many parts": (b".".join([b"a"] * 40_000) + b" = 1\n", "not-toml"),
    "a table of many parts": (b"[" + b".".join([b"a"] * 40_000) + b"]\n", "not-toml"),
    "a bracket and blanks": (b"[" + b" " * 90_000 + b"\n", SYNTAX),
    "many names": (b"[given]\n" + b"".join(b"a%d=1\n" % n for n in range(11_000)), UNKNOWN),
    "many keys": (b"".join(b"a%d=1\n" % n for n in range(11_000)), UNKNOWN),
    "many tables": (b"".join(b"[a%d]\n" % n for n in range(11_000)), UNKNOWN),
    "brackets deeper than can be shown": (
        b"x = " + (b"{a" + b".a" * 90 + b" = [\n") * 100 + b"]}" * 100,
        "unknown-key x: is unknown here; found brackets inside",
    ),
    "brackets of some depth": (b"x = " + b"[" * 200 + b"]" * 200, UNKNOWN),
    "a long name": (b"[given]\n" + b"v" * 90_000 + b" = 1\n", UNKNOWN),
    "a long text": (b'title = "' + b"x" * 90_000 + b'"\n', "too-long title: 90000 characters"),
    "a long number": (b"[given]\nvessels_n = " + b"9" * 90_000 + b"\n", "not-toml"),
    "a number beyond all": (b"[given]\nvessel_bore_mm = 1e999\n", "vessel_bore_mm: .*inf"),
    "signs from right to left": (
        'title = "a\u202eb"\n'.encode(),
        r"control-character title: character U\+202E",
    ),
    "an escape of the terminal": (
        b'title = "\\u001b[2J"\n',
        r"control-character title: character U\+001B",
    ),
    "half a pair": (b'title = "\\ud800"\n', SYNTAX),
    "a formula as number": (b'[given]\nvessels_n = "=1+1"\n', r"machine\.toml:2 \S+ vessels_n"),
    "a command as number": (
        b"[given]\nvessels_n = \"=cmd|'/c calc'!A0\"\n",
        r"machine\.toml:2 \S+ vessels_n",
    ),
    "a path as name": (b'[given]\n"../../x" = 1\n', UNKNOWN),
    "a newline in a name": (b'[given]\n"a\\nb" = 1\n', UNKNOWN),
    "code of a parser": (b'[given]\n"!!python/object/apply:os.system" = ["id"]\n', UNKNOWN),
    "JSON": (b'{"given": {"vessels_n": 2}}', SYNTAX),
    "YAML": (b"given:\n  vessels_n: 2\n", SYNTAX),
    "HTML": (b"<!DOCTYPE html><html></html>", SYNTAX),
    "a workbook": (b"PK\x03\x04\x14\0\0\0\x08\0\xff\xfe", NOT_UTF8),
}
SANE = {
    "empty": b"",
    "a mark alone": b"\xef\xbb\xbf",
    "a mark and line ends of two signs": b"\xef\xbb\xbf" + SOUND.replace(b"\n", b"\r\n"),
    "line ends of another sign": SOUND.replace(b"\n", b"\r"),
}


def list_cases() -> Iterator[Case]:
    """Yield a refusal for each text, and the few files that are sane in spite of their looks."""
    for name, (data, told) in TEXTS.items():
        for command in pick_commands(name):
            yield Case(f"{name}, {command[0]}", KIND, write(data, command), 3, told)
    for name, data in SANE.items():
        yield Case(name, KIND, write(data, ["calc", FILE]), 0, "holdup_adopted_L")
    yield Case("a file that is not there", KIND, lambda _: ["calc", FILE], 4, "does not exist")
    yield Case("a name too long", KIND, lambda _: ["calc", "x" * 5_000], 4, "too long")
    yield Case("a link to itself", KIND, link, 4, r"machine\.toml (is no file|cannot be read|does)")
    yield Case("no name at all", KIND, lambda _: ["calc", ""], 4, "is no file")
    words = write(b"[", ["build", FILE, "--out", "book.xlsx"])
    yield Case("refused over an older book", KIND, keep(words), 4, "exists already")
    words = write(b"[", ["build", FILE, "--out", "book.xlsx", "--force"])
    yield Case("refused over an older book by force", KIND, keep(words), 3, SYNTAX)


def pick_commands(name: str) -> list[list[str]]:
    """Return the commands that a text is given to: all read it by the same function."""
    every = [["calc", FILE], ["explain", "holdup_adopted_L", FILE], ["build", FILE]]
    return every if name in ("binary", "cut in a text", "fifty megabytes") else every[:1]


def write(data: bytes, words: list[str]) -> Make:
    def make(folder: Path) -> list[str]:
        (folder / FILE).write_bytes(data)
        return words

    return make


def keep(make: Make) -> Make:
    """Return the same with an older book that is to stay."""

    def both(folder: Path) -> list[str]:
        (folder / "book.xlsx").write_bytes(b"older")
        return make(folder)

    return both


def link(folder: Path) -> list[str]:
    (folder / FILE).symlink_to(FILE)
    return ["calc", FILE]
