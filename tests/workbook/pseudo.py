"""Specs with one more language, made up from the English: a third longer, and in brackets."""

import shutil
import tomllib
from pathlib import Path

import tomli_w

from builder.spec.specification import Spec

CODE, OPEN, SHUT = "xx", "‹", "›"
SAME = "symbol"  # of a unit: the same in many languages
ENTRY = {"name": "pseudo", "locale": "en-CA", "paper": "letter", "decimal": "."}


def speak(words: str) -> str:
    return f"{OPEN}{words} {('éàüô ' * len(words))[: len(words) // 3]}".rstrip() + SHUT


def translate(value: object, languages: set[str], key: str = "") -> object:
    """Return a value of a spec file in which every text has the words of the language too."""
    if isinstance(value, list):
        return [translate(item, languages) for item in value]
    if not isinstance(value, dict):
        return value
    if value.keys() == languages:
        return {**value, CODE: value["en"] if key == SAME else speak(value["en"])}
    return {inner: translate(item, languages, inner) for inner, item in value.items()}


def write_specs(source: Path, folder: Path, spec: Spec) -> Path:
    """Write a copy of the specs that has one more language, and return its folder."""
    shutil.copytree(source, folder)
    for path in folder.rglob("*.toml"):
        tables = translate(tomllib.loads(path.read_text("utf-8")), set(spec.languages))
        if path.name == "languages.toml":
            tables = {**tables, CODE: ENTRY}
        path.write_text(tomli_w.dumps(tables), "utf-8")
    return folder
