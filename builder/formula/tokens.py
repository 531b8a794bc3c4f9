"""Splits a formula of the specs into tokens."""

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import lru_cache

from openpyxl.formula import Tokenizer
from openpyxl.formula.tokenizer import Token

PRIOR = "PRIOR("
BLANK_TEST = re.compile(r'([A-Za-z][A-Za-z0-9_]*)(=|<>)""')


@dataclass(frozen=True, slots=True)
class Name:
    """A name in a formula; `prior` where PRIOR() asks for the row above."""

    text: str
    prior: bool


@lru_cache(maxsize=4096)
def split(formula: str) -> tuple[Token, ...]:
    """Return the tokens of a formula that has no leading equals sign."""
    return tuple(Tokenizer(f"={formula}").items)


def is_name(token: Token) -> bool:
    """Tell whether a token names a quantity."""
    return bool(token.type == Token.OPERAND and token.subtype == Token.RANGE)


@lru_cache(maxsize=4096)
def list_parts(formula: str) -> tuple[str | Name, ...]:
    """Return a formula's names and what stands between; PRIOR(x) is a name as a whole."""
    parts: list[str | Name] = []
    prior = False
    for token in split(formula):
        if token.type == Token.FUNC and token.value == PRIOR:
            prior = True
        elif token.type == Token.FUNC and prior:
            prior = False
        else:
            parts.append(Name(token.value, prior) if is_name(token) else token.value)
    return tuple(parts)


def find_names(formula: str) -> list[Name]:
    """Return every name of a formula once, in order of appearance."""
    return list(dict.fromkeys(part for part in list_parts(formula) if isinstance(part, Name)))


def find_functions(formula: str) -> Iterator[str]:
    """Yield the functions of a formula."""
    for token in split(formula):
        if token.type == Token.FUNC and token.subtype == Token.OPEN:
            yield token.value.rstrip("(")


def find_blank_tests(formula: str) -> set[str]:
    """Return the names that the formula itself tests for a blank."""
    return {name for name, _ in BLANK_TEST.findall(formula)}


def replace_names(formula: str, change: Callable[[Name], str]) -> str:
    """Return the formula with each name changed; PRIOR(x) is changed as a whole."""
    parts = list_parts(formula)
    return "".join(part if isinstance(part, str) else change(part) for part in parts)
