"""Says the reasons to call in the reader's language, with the words of the specs."""

from dataclasses import dataclass

from builder.collection.fleet import Reason
from builder.collection.output import tell_day
from builder.spec.records import Text
from builder.spec.specification import Spec

MOST_NAMES = 3


@dataclass(frozen=True, slots=True)
class Wording:
    """The words of the specs in one language."""

    spec: Spec
    lang: str

    def say(self, key: str, **parts: object) -> str:
        """Return words, with what belongs in their gaps."""
        text: Text = self.spec.words[key]
        return text.pick(self.lang).format(**parts)

    def sign(self, unit: str) -> str:
        """Return the symbol of a unit."""
        return self.spec.units[unit].symbol.pick(self.lang)

    def show(self, number: float, digits: int) -> str:
        """Return a number with the decimal sign of the language."""
        return f"{number:.{digits}f}".replace(".", self.spec.languages[self.lang].decimal)

    def name(self, producer: str, site: str, machine: str) -> str:
        """Return who a machine is, on one line."""
        return ", ".join(filter(None, (producer, site, machine))) or self.say("fleet_unnamed")

    def tell(self, reason: Reason) -> str:
        """Return a reason in words."""
        cause = self.spec.causes[reason.kind]
        digits = cause.digits or 0
        told = cause.label.pick(self.lang).format(
            amount=self.show(reason.amount, digits),
            limit=self.show(reason.limit, digits),
            day=tell_day(reason.day) or self.say("fleet_undated"),
            count=reason.count,
            names=self.list_names(reason.names),
        )
        if cause.digits is not None and reason.count > 1:
            return self.say("fleet_times", reason=told, count=reason.count)
        return told

    def list_names(self, names: tuple[str, ...]) -> str:
        """Return names, those of checks by their labels, and how many more there are."""
        labels = [
            self.spec.quantities[name].label.pick(self.lang)
            if name in self.spec.quantities
            else name
            for name in names
        ]
        shown, more = ", ".join(labels[:MOST_NAMES]), len(labels) - MOST_NAMES
        return self.say("fleet_more", names=shown, count=more) if more > 0 else shown

    def tell_all(self, reasons: list[Reason]) -> str:
        """Return reasons as one text, the strongest first."""
        text = "; ".join(self.tell(reason) for reason in reasons)
        return text[:1].upper() + text[1:]
