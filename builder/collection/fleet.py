"""Judges a machine by what its log and its checks say: whom to call first, and why."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field

from builder.calculation import Value
from builder.spec.records import NOTHING, SILENT, STOPS, Cause

Event = dict[str, Value]
DAY, EVENT = "day_d", "event"
STOP, CHECK = "stop", "_ok"


@dataclass(frozen=True, slots=True)
class Reason:
    """One reason to call: its kind, how much is wrong, on which day, how often."""

    kind: str
    amount: float = 0.0
    limit: float = 0.0
    day: float | None = None
    count: int = 1
    names: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Outlook:
    """The reasons to call about a machine, the strongest first, and the numbers to check."""

    reasons: list[Reason]
    figures: dict[str, float | None] = field(default_factory=dict)
    last_day: float | None = None


@dataclass(frozen=True, slots=True)
class Standing:
    """What is known of a machine: its quantities by name, and its events in order of time."""

    values: dict[str, Value]
    events: Sequence[Event]
    reasons: Sequence[Reason] = field(default_factory=tuple)

    def number(self, name: str) -> float | None:
        """Return a quantity of the machine if it is a number."""
        return as_number(self.values.get(name))

    def find_rows(self, cause: Cause) -> list[Event]:
        """Return the events that have a number in the column of a reason."""
        return [
            event
            for event in self.events
            if cause.event in ("", event.get(EVENT))
            and as_number(event.get(cause.column)) is not None
        ]


@dataclass(frozen=True, slots=True)
class Urgency:
    """The reasons of the specs by key, the most urgent first."""

    causes: dict[str, Cause]

    def rank(self, reason: Reason) -> int:
        """Return the place of a reason in the order of urgency, 0 for the most urgent."""
        return list(self.causes).index(reason.kind)

    def weigh(self, reason: Reason) -> float:
        """Return how much is wrong, to compare reasons of one kind: the larger the worse."""
        if self.causes[reason.kind].limits:  # the further below them, the worse
            return -reason.amount
        return reason.amount or float(reason.count)

    def sort(self, reasons: Iterable[Reason]) -> list[Reason]:
        """Return the reasons, the strongest first."""
        return sorted(reasons, key=lambda reason: (self.rank(reason), -self.weigh(reason)))

    def judge(self, standing: Standing) -> Outlook:
        """Return the reasons to call, those of the book itself among them, and the numbers."""
        facts = [cause for cause in self.causes.values() if cause.column]
        reasons = [
            *standing.reasons,
            *(reason for cause in facts if (reason := judge_fact(cause, standing))),
            *self.judge_checks(standing),
            *([] if standing.events else [Reason(SILENT)]),
        ]
        return Outlook(
            reasons=self.sort(reasons or [Reason(NOTHING)]),
            figures={cause.key: find_figure(cause, standing) for cause in facts if cause.heading},
            last_day=find_last_day(standing.events),
        )

    def judge_checks(self, standing: Standing) -> Iterator[Reason]:
        """Yield the reason of checks that say stop and that no other reason tells."""
        told = {name for cause in self.causes.values() for name in (cause.check, *cause.covers)}
        stops = tuple(
            name
            for name, value in standing.values.items()
            if value == STOP and name.endswith(CHECK) and name not in told
        )
        if stops:
            yield Reason(STOPS, count=len(stops), names=stops)


def judge_fact(cause: Cause, standing: Standing) -> Reason | None:
    """Return a reason that rows of the log, a quantity or a check give, with the last amount."""
    rows = standing.find_rows(cause)
    hits = [row for row in (rows[-1:] if cause.last else rows) if is_hit(cause, standing, row)]
    if hits:
        day = as_number(hits[-1].get(DAY))
        return tell(cause, standing, as_number(hits[-1][cause.column]), day, len(hits))
    value = standing.number(cause.instead)
    if not rows and value is not None and is_hit(cause, standing, {cause.column: value}):
        return tell(cause, standing, value)
    value = standing.number(cause.quantity)
    if value is not None and standing.values.get(cause.check) == STOP:
        return tell(cause, standing, value)
    return None


def tell(
    cause: Cause, standing: Standing, value: float | None, day: float | None = None, count: int = 1
) -> Reason:
    """Return a reason with its amount, the limit it is under, its day and how often it stands."""
    amount = abs(value or 0.0) if cause.digits is not None else 0.0
    limit = find_limit(cause, standing, value or 0.0) or 0.0
    return Reason(cause.key, amount, limit, day, count)


def is_hit(cause: Cause, standing: Standing, row: Event) -> bool:
    """Tell whether a row is one that a reason speaks of."""
    value = as_number(row[cause.column])
    if value is None or any(row.get(name) != wanted for name, wanted in cause.when.items()):
        return False
    if cause.limits:
        return find_limit(cause, standing, value) is not None
    above = cause.above is None or value > cause.above
    return above and (cause.below is None or value < cause.below)


def find_limit(cause: Cause, standing: Standing, value: float) -> float | None:
    """Return the first limit of a reason that a value is under."""
    limits = (standing.number(name) for name in cause.limits)
    return next((limit for limit in limits if limit is not None and value < limit), None)


def find_figure(cause: Cause, standing: Standing) -> float | None:
    """Return the number that a reason shows of a machine, of its last row or in its place."""
    rows = standing.find_rows(cause)
    hits = [row for row in rows if is_hit(cause, standing, row)]
    shown = rows[-1:] if cause.last else (hits or (rows if cause.always else []))
    if shown:
        return as_number(shown[-1][cause.column])
    return standing.number(cause.instead)


def find_last_day(events: Sequence[Event]) -> float | None:
    """Return the latest day of the log."""
    days = [day for event in events if (day := as_number(event.get(DAY))) is not None]
    return max(days, default=None)


def as_number(value: Value) -> float | None:
    """Return a number, or None for a text or a blank."""
    return float(value) if isinstance(value, int | float) else None
