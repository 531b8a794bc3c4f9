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
        return self.spec.words[key].pick(self.lang)

    def list_lines(self) -> Iterator[tuple[str, str]]:
        """Yield every line as what it tells and the text, which may be empty."""
        about = self.about
        yield self.word("explain_kind"), self.word(f"explain_kind_{about.kind}")
        for place in about.places:
            yield self.word("explain_place"), place
        yield self.word("explain_cell"), about.cell
        for grid, name in about.bound.items():
            yield self.word("explain_bound"), f"{name} ({grid})"
        yield self.word("explain_grids"), ", ".join(about.grids)
        yield from self.list_working()
        for text in (*list(about.source.values())[:-1], self.describe_seen()):
            yield self.word("explain_source"), text
        for text in (about.reference, about.summary):
            yield self.word("explain_reference"), text
        if about.reference and about.proof:
            yield self.word("explain_proof"), self.word(f"explain_{about.proof.replace(' ', '_')}")

    def list_working(self) -> Iterator[tuple[str, str]]:
        """Yield value, limits, options, formulas, numbers, and what is used."""
        about, working = self.about, self.about.working
        if about.kind not in UNVALUED:
            value = write_value(working.value, about.unit)
            yield self.word("explain_value"), f"{value}{self.note_row()}"
        if about.limits:
            low, high = (f"{limit:.10g}" for limit in about.limits)
            yield self.word("explain_limits"), f"{low} … {high} {about.unit}".rstrip(" n")
        for code, words in about.options.items():
            yield self.word("explain_options"), f"{code}: {words}"
        for rows, formula in working.formulas.items():
            which = f"  ({self.word('explain_' + rows)})" if rows else ""
            yield self.word("explain_formula"), f"{formula}{which}"
        yield self.word("explain_numbers"), working.numbers
        yield self.word("explain_close"), about.close
        yield (
            self.word("explain_level"),
            about.level and self.spec.words[about.level].pick(self.lang),
        )
        used = self.word("explain_columns" if about.kind == "grid" else "explain_uses")
        if about.kind == "grid":
            yield used, self.note_row().strip(" ()")
        for precedent in working.uses:
            yield used, write_precedent(precedent)

    def note_row(self) -> str:
        """Return which row of which machine a value belongs to, in brackets."""
        working = self.about.working
        if not working.row:
            return ""
        case = f", {self.word(f'explain_{working.case}')}" if working.case else ""
        return f"  ({self.word('explain_row').format(working.row)}{case})"

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
