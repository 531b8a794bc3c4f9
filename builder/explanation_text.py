"""Writes an explanation as lines of text in the reader's language."""

from collections.abc import Iterator

from builder.exchange.results import write_value
from builder.explanation_record import Explanation, Precedent
from builder.spec.specification import Spec

UNVALUED = ("grid", "bound", "row", "words", "codes")


def write_explanation(about: Explanation, spec: Spec, lang: str) -> str:
    """Return the explanation as lines of text, those without content left out."""
    told = [(key, text) for key, text in Writer(about, spec, lang).list_lines() if text]
    wide = max(len(key) for key, _ in told) + 2
    return "\n".join([f"{about.name}: {about.label}", *(f"  {k:<{wide}}{t}" for k, t in told)])


class Writer:
    """Writes one explanation in one language."""

    def __init__(self, about: Explanation, spec: Spec, lang: str) -> None:
        """Keep the explanation and the words."""
        self.about, self.spec, self.lang = about, spec, lang

    def word(self, key: str) -> str:
        """Return one of the words that explain."""
        return self.spec.words[f"explain_{key}"].pick(self.lang)

    def list_lines(self) -> Iterator[tuple[str, str]]:
        """Yield every line as what it tells and the text, which may be empty."""
        about = self.about
        yield self.word("kind"), self.word(f"kind_{about.kind}")
        for place in about.places:
            yield self.word("place"), place
        yield self.word("cell"), about.cell
        for grid, name in about.bound.items():
            yield self.word("bound"), f"{name} ({grid})"
        yield self.word("grids"), ", ".join(about.grids)
        yield from self.list_working()
        for text in (*list(about.source.values())[:-1], self.describe_seen()):
            yield self.word("source"), text
        for text in (about.reference, about.summary):
            yield self.word("reference"), text
        if about.reference and about.proof:
            yield self.word("proof"), self.word(about.proof.replace(" ", "_"))

    def list_working(self) -> Iterator[tuple[str, str]]:
        """Yield value, limits, options, formulas, numbers, and what is used."""
        about, working = self.about, self.about.working
        if about.kind not in UNVALUED:
            value = write_value(working.value, about.unit)
            yield self.word("value"), f"{value}{self.note_row()}"
        if about.limits:
            low, high = (f"{limit:.10g}" for limit in about.limits)
            yield self.word("limits"), f"{low} … {high} {about.unit}".rstrip(" n")
        for code, words in about.options.items():
            yield self.word("options"), f"{code}: {words}"
        for rows, formula in working.formulas.items():
            yield self.word("formula"), f"{formula}{rows and f'  ({self.word(rows)})'}"
        yield self.word("numbers"), working.numbers
        yield self.word("close"), about.close
        yield self.word("level"), about.level and self.spec.words[about.level].pick(self.lang)
        used = self.word("columns" if about.kind == "grid" else "uses")
        if about.kind == "grid":
            yield used, self.note_row().strip(" ()")
        for precedent in working.uses:
            yield used, write_precedent(precedent)

    def note_row(self) -> str:
        """Return which row of which machine a value belongs to, in brackets."""
        working = self.about.working
        if not working.row:
            return ""
        case = f", {self.word(working.case)}" if working.case else ""
        return f"  ({self.word('row').format(working.row)}{case})"

    def describe_seen(self) -> str:
        """Return how the source was seen, in the reader's words."""
        seen = self.about.source.get("seen", "")
        kind, _, date = seen.partition(" ")
        if kind == "read":
            return f"{self.spec.words['seen_read'].pick(self.lang)} {date}"
        return self.spec.words[f"seen_{seen}"].pick(self.lang) if seen else ""


def write_precedent(precedent: Precedent) -> str:
    """Return one line about a name that a formula uses."""
    value = "" if precedent.value is None else f" = {write_value(precedent.value, precedent.unit)}"
    return f"{precedent.name}{value}: {precedent.label}"
