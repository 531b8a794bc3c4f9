"""Numbers of things in the sentences of messages."""

from collections.abc import Sized


def tell_count(things: Sized | int, words: str) -> str:
    """Return `1 fault`, `2 faults`, `0 texts on the machine`: the first word takes the plural."""
    number = things if isinstance(things, int) else len(things)
    noun, space, rest = words.partition(" ")
    return f"{number} {noun}{'s' if number != 1 else ''}{space}{rest}"
