"""What typed cells accept, with a prompt, and an error text for whoever types something else."""

from builder.plan.cells import Validation
from builder.plan.context import Context

TITLE_LENGTH, TEXT_LENGTH = 32, 255  # what the file format takes
CUT = "…"


def accept_number(title: str, prompt: str, context: Context) -> Validation:
    """Return the rule of a number: a text such as 12 mm is refused with a reason."""
    return make_rule("decimal", title, prompt or context.word("input_hint"), "number", context)


def accept_date(title: str, prompt: str, context: Context) -> Validation:
    """Return the rule of a day, which is a number to every program."""
    return make_rule("decimal", title, prompt or context.word("date_hint"), "date", context)


def accept_choice(title: str, prompt: str, source: str, context: Context) -> Validation:
    """Return the rule of a word out of a named list; the state beside it judges any other."""
    hint = prompt or context.word("choice_hint")
    return make_rule("list", title, hint, "choice", context, source)


def accept_text(title: str, prompt: str, context: Context) -> Validation:
    """Return the rule of free words, of a length that can be read back."""
    return make_rule("length", title, prompt or context.word("text_hint"), "text", context)


def make_rule(
    kind: str, title: str, prompt: str, error: str, context: Context, source: str = ""
) -> Validation:
    """Return a rule with words that fit."""
    words = context.word(f"error_{error}")
    return Validation(
        shorten(title, TITLE_LENGTH), shorten(prompt, TEXT_LENGTH), words, source, kind
    )


def shorten(words: str, length: int) -> str:
    """Return words as they are, or the whole ones that fit and a sign that some are missing."""
    if len(words) <= length:
        return words
    kept = words[: length - len(CUT)]
    return (kept.rpartition(" ")[0] or kept).rstrip(" ,:;(") + CUT
