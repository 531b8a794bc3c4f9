"""French as Québec writes it: spacing, signs, units, and words that mean something else."""

import re
from collections.abc import Iterator
from dataclasses import dataclass, fields, is_dataclass, replace

from builder.problems import Problem
from builder.spec.records import Place, Text
from builder.spec.specification import Spec

LINT = "french"
REMEDY = "Correct the French words."
QUOTED = re.compile("«[^»]*»")


@dataclass(frozen=True, slots=True)
class Habit:
    """A pattern that French words must not show, and why."""

    pattern: re.Pattern[str]
    why: str


def make_habits(*pairs: tuple[str, str]) -> tuple[Habit, ...]:
    """Compile patterns; capitals do not matter unless a pattern says so."""
    return tuple(Habit(re.compile(pattern, re.IGNORECASE), why) for pattern, why in pairs)


SIGNS = make_habits(
    ("(?<!\u00a0):(?=\\s|$)", "a colon has a no-break space before it"),
    ("(?<=[^\u00a0(])%", "the sign % has a no-break space before it"),
    ("(?<=[^\u00a0])»", "» has a no-break space before it"),
    ("«(?!\u00a0)", "« has a no-break space after it"),
    (r"\s[;!?]", "; ! and ? have no space before them"),
    ("'", "the apostrophe is ’"),
    ('"', "quotation marks are « »"),
    (r"(?<![A-Za-z0-9.,])\d+\.\d", "the decimal sign is a comma"),
)
GALLONS = make_habits(
    ("\\bgal\\b(?![ \u00a0](?:US|imp\\.))", "a gallon is gal US or gal imp."),
    (
        "\\bgallons?\\b(?![ \u00a0](?:américains?|impérial|impériaux))",
        "a gallon is américain or impérial",
    ),
)
UNITS = make_habits(
    (r"\bpsi\b", "write lb/po² or kPa"),
    (r"\bin\b", "write po"),
    (r"\bft\b", "write pi"),
    (r"\bNTU\b", "write uTN"),
    (r"\bTDS\b", "write matières dissoutes totales"),
    (r"\bN/A\b", "write s. o."),
    (r"#", "write nº"),
    (r"\bi\.e\.", "write c.-à-d."),
    (r"\bex\.\s?:", "write p. ex."),
    (r"(?-i:°f)", "a degree Fahrenheit is °F"),
    ("\\d[ \u00a0]par[ \u00a0]\\d", "sizes are joined by × or sur"),
)
WORDS = make_habits(
    (r"\bperméats?\b", "write filtrat"),
    (r"\brétentats?\b", "write concentré"),
    (r"\bpréservatifs?\b", "write agent de conservation"),
    (r"\bcalibr\w*", "write étalonner"),
    (r"\bévidences?\b", "write preuve"),
    (r"\bdrain(?:er|ez|e|é|ée|ées|és)\b", "write vidanger"),
    (r"\bop[éè]r(?:er|ez|e|ent)\b", "write faire fonctionner"),
    (r"\btests?\b", "write essai or vérification"),
    (r"\borganiques?\b", "write biologique"),
    (r"\bassomptions?\b", "write hypothèse"),
    (r"\bprimer\b", "write amorcer"),
    (r"\b(?:sceaux?|seals?)\b", "write joint"),
    (r"\b(?:gauges?|jauges? de pression)\b", "write manomètre"),
    (r"\bdosage de \d", "write dose de"),
    (r"\btaux de récupération\b", "write pourcentage de séparation"),
    (r"\beau d[’']appoint\b", "write eau de préparation"),
    (r"\bsaumure\b", "write concentré, joint à lèvre"),
    (r"\bvaisseaux?\b", "write tube de pression"),
    (r"\beau pure\b", "write filtrat"),
    (r"\beau douce\b", "write eau adoucie"),
    (r"\bmoules?\b", "write moisissure"),
    (r"\bgivre\b", "write gel"),
    (r"\bpintes?\b", "give litres"),
    (r"\bbillions?\b", "write milliard for 10⁹"),
    (r"\béventuellement\b", "write plus tard or au besoin"),
    (r"\bcontrôler\b", "write vérifier, régler or commander"),
    (r"\bconsistante?s?\b", "write constant or cohérent"),
    (r"\badéquate?s?\b", "write suffisant"),
    (r"\bdéfinitivement\b", "write certainement"),
    (r"\bperform(?:er|ez|e|ances?|ants?|antes?)\b", "write rendement"),
    (r"\bà date\b", "write à ce jour"),
    (r"\bcompléter un formulaire\b", "write remplir un formulaire"),
    (r"\bitems?\b", "write éléments"),
    (r"\block-?out\b", "write cadenassage"),
    (r"\bfiches? signalétiques?\b", "write fiche de données de sécurité"),
    (r"\bavertissement\b", "the label's word is Attention"),
    (r"\bconformes?\b", "write bon"),
    (r"\bsavon acide\b", "write produit de lavage acide"),
    (r"\bérable franche\b", "write érable franc"),
    (r"\ben-tête longue\b", "write long en-tête"),
)


def lint_french(words: str) -> Iterator[tuple[str, str]]:
    """Yield each bad spot of French words with its neighbours, and why it is bad."""
    unquoted = QUOTED.sub(lambda found: "…" * len(found[0]), words)
    yield from find_spots(words, (*SIGNS, *GALLONS, *UNITS))
    yield from find_spots(unquoted, WORDS)


def find_spots(words: str, habits: tuple[Habit, ...]) -> Iterator[tuple[str, str]]:
    """Yield where the habits show."""
    for habit in habits:
        for found in habit.pattern.finditer(words):
            start, end = max(0, found.start() - 12), found.end() + 12
            yield words[start:end].strip(" "), habit.why


def check_french(spec: Spec) -> Iterator[Problem]:
    """Judge the words of each language whose `lint` asks for it; of units only the gallons."""
    for lang in [code for code, language in spec.languages.items() if language.lint == LINT]:
        for name, place, keys, text in list_texts(spec):
            for spot, why in lint_french(text.pick(lang)):
                yield fault(name, place, (*keys, lang), spot, why)
        for unit in spec.units.values():
            for spot, why in find_spots(unit.symbol.pick(lang), GALLONS):
                yield fault(unit.key, unit.place, ("symbol", lang), spot, why)


def fault(name: str, place: Place, keys: tuple[str, ...], spot: str, why: str) -> Problem:
    """Return the finding about one spot."""
    where = ".".join(keys)
    line = place.at(*keys)
    return Problem(
        place.file, line, "french", name, f"{where}: {spot!r}: {why.rstrip('.')}.", REMEDY
    )


def list_texts(spec: Spec) -> Iterator[tuple[str, Place, tuple[str, ...], Text]]:
    """Yield all words of the specs but the symbols of units, with place and keys."""
    named: list[tuple[str, Place, object]] = [
        *((quantity.name, quantity.place, quantity) for quantity in spec.quantities.values()),
        *((source.id, source.place, source) for source in spec.sources.values()),
        *((edition.version, edition.place, edition) for edition in spec.editions),
        *((cause.key, cause.place, cause) for cause in spec.causes.values()),
    ]
    for name, place, entry in named:
        for keys, text in find_texts(entry, ()):
            yield name, place, keys, text
    for sheet in spec.sheets:
        for keys, text in find_texts(replace(sheet, blocks=[]), ()):
            yield sheet.key, sheet.place, keys, text
        for number, block in enumerate(sheet.blocks, start=1):
            for keys, text in find_texts(block, ()):
                yield f"{sheet.key} block {number}", block.place, keys, text
    for key, text in spec.words.items():
        yield key, spec.word_places.get(key, Place("specs/words.toml", 1)), (), text


def find_texts(value: object, keys: tuple[str, ...]) -> Iterator[tuple[tuple[str, ...], Text]]:
    """Yield the words inside a value, with the keys that lead to them."""
    if isinstance(value, Text):
        yield keys, value
    elif isinstance(value, list):
        for item in value:
            yield from find_texts(item, keys)
    elif isinstance(value, dict):
        for key, item in value.items():
            yield from find_texts(item, (*keys, str(key)))
    elif is_dataclass(value) and not isinstance(value, Place):
        for field in fields(value):
            yield from find_texts(getattr(value, field.name), (*keys, field.name))
