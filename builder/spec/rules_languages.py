"""Rules of the languages: what is said of each, and what its words must have in common."""

import re
from collections.abc import Iterator

from builder.problems import Problem, suggest
from builder.spec.french import LINT
from builder.spec.pages import Sheet
from builder.spec.records import PAPERS, Choice, Place, Quantity, Record, Result, Text
from builder.spec.rules_texts import find_fault
from builder.spec.specification import Spec

KNOWN = {"paper": PAPERS, "decimal": (".", ","), "lint": ("", LINT)}
GAP = re.compile(r"\{\w*\}|&[APN]")
FORBIDDEN = re.compile(r"[\[\]:*?/\\']")
WILD = re.compile(r"[*?~]")  # looked up, these stand for other letters
TITLE_MAX = 31  # letters of a sheet's title, in every spreadsheet program


def check_languages(spec: Spec) -> Iterator[Problem]:
    """Demand of paper, decimal sign and lint what the program knows."""
    for code, language in spec.languages.items():
        for key, known in KNOWN.items():
            found = getattr(language, key)
            if found not in known:
                text = f"{key} {found!r} is unknown.{suggest(found, known)}"
                remedy = f"Write one of {', '.join(map(repr, known))}."
                yield find_fault(language, "bad-language", code, text, remedy, key)


def check_gaps(spec: Spec) -> Iterator[Problem]:
    """Demand that words have the same gaps to be filled in every language."""
    for key, text in spec.words.items():
        wanted = set(GAP.findall(text.pick(spec.main_language)))
        for lang, words in text.words.items():
            found = set(GAP.findall(words))
            if found != wanted:
                told = f"gaps {sorted(found)} are not those of the others, {sorted(wanted)}."
                place = spec.word_places.get(key, Place("specs/words.toml", 1))
                remedy = "Keep {…} and &A, &P, &N as they are: the program fills them in."
                line = place.at(lang)
                yield Problem(place.file, line, "other-gaps", key, f"{lang}: {told}", remedy)


def check_titles(spec: Spec) -> Iterator[Problem]:
    """Demand of each language titles that a sheet can bear, each of one sheet alone."""
    for lang in spec.languages:
        seen: dict[str, Sheet] = {}
        for sheet in spec.sheets:
            title = sheet.title.pick(lang)
            twin = seen.setdefault(title.casefold(), sheet)
            wrong = ""
            if len(title) > TITLE_MAX:
                wrong = f"has {len(title)} letters, more than {TITLE_MAX}."
            elif sign := FORBIDDEN.search(title):
                wrong = f"holds {sign[0]!r}, which no title of a sheet may."
            elif twin is not sheet:
                wrong = f"is that of sheet {twin.key} too."
            if wrong:
                text = f"title {title!r} {wrong}"
                remedy = "Choose another title."
                yield find_fault(sheet, "bad-title", sheet.key, text, remedy, "title", lang)


def check_lists(spec: Spec) -> Iterator[Problem]:
    """Demand of each language words of a drop-down that are found, and found once."""
    for quantity in spec.quantities.values():
        if isinstance(quantity, Choice | Record | Result):
            for lang in spec.languages:
                yield from judge_list(quantity, quantity.options, lang)


def judge_list(quantity: Quantity, options: dict[str, Text], lang: str) -> Iterator[Problem]:
    """Yield what is wrong with the words of a drop-down in one language."""
    seen: dict[str, str] = {}
    for code, text in options.items():
        words = text.pick(lang)
        twin = seen.setdefault(words.casefold(), code)
        wrong = f"are those of {twin} too." if twin != code else ""
        if sign := WILD.search(words):
            wrong = f"hold {sign[0]!r}, which stands for other letters where words are looked up."
        if wrong:
            told = f"words {words!r} {wrong}"
            keys = ("options", code, lang)
            yield find_fault(quantity, "bad-words", quantity.name, told, "Change them.", *keys)
