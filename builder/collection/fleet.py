"""Judges a machine by what its log and its checks say: whom to call first, and why."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from builder.calculation import Value

Event = dict[str, Value]
# From the most urgent: what touches sap already made or soon to be made, then the membrane, then
# what is only not known.
CALLS = (
    "rinse",
    "floor",
    "ceiling",
    "sugar",
    "flow",
    "altered",
    "unreadable",
    "edition",
    "contest",
    "stops",
)
NOTES = ("unfinished", "silent", "nothing")
URGENCY = (*CALLS, *NOTES)
TOLD = {"rinses_ok", "washes_ok", "sugar_ok", "flow_ok", "end_floor_ok"}
STOP = "stop"
UNFINISHED = 4.0  # rank of a row of the log with something missing


@dataclass(frozen=True, slots=True)
class Reason:
    """One reason to call: its kind, how much is wrong, on which day, how often."""

    kind: str
    amount: float = 0.0
    limit: float = 0.0
    day: float | None = None
    count: int = 1
    names: tuple[str, ...] = ()

    @property
    def rank(self) -> int:
        """Its place in the order of urgency, 0 for the most urgent."""
        return URGENCY.index(self.kind)

    @property
    def weight(self) -> float:
        """How much is wrong, to compare reasons of one kind: the larger the worse."""
        if self.kind == "flow":
            return -self.amount
        return self.amount or float(self.count)


@dataclass(frozen=True, slots=True)
class Outlook:
    """The reasons to call about a machine, the strongest first, and the numbers to check."""

    reasons: list[Reason]
    short_L: float | None = None
    floor_margin_pH: float | None = None
    flow_pct: float | None = None
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


def judge(standing: Standing) -> Outlook:
    """Return the reasons to call, those of the book itself among them, and the numbers behind."""
    washes = [event for event in standing.events if event.get("event") == "alkaline"]
    short = [event for event in standing.events if (as_number(event.get("short_L")) or 0) > 0]
    low = find_below(washes, "low_margin_pH")
    flows = [
        event for event in standing.events if as_number(event.get("corrected_pct")) is not None
    ]
    reasons = [
        *standing.reasons,
        *judge_rinses(short),
        *judge_washes(standing, low, find_below(washes, "top_margin_pH")),
        *judge_sugar(standing),
        *judge_flow(standing, flows),
        *judge_checks(standing),
        *judge_entries(standing),
    ]
    margins = low or [
        event for event in washes if as_number(event.get("low_margin_pH")) is not None
    ]
    return Outlook(
        reasons=sort_reasons(reasons or [Reason("nothing")]),
        short_L=as_number(short[-1]["short_L"]) if short else None,
        floor_margin_pH=as_number(margins[-1]["low_margin_pH"]) if margins else None,
        flow_pct=as_number(flows[-1]["corrected_pct"]) if flows else standing.number("flow_pct"),
        last_day=find_last_day(standing.events),
    )


def sort_reasons(reasons: list[Reason]) -> list[Reason]:
    """Return the reasons, the strongest first."""
    return sorted(reasons, key=lambda reason: (reason.rank, -reason.weight))


def find_below(events: list[Event], name: str) -> list[Event]:
    """Return the events whose margin is negative."""
    return [event for event in events if (as_number(event.get(name)) or 0) < 0]


def find_last_day(events: Sequence[Event]) -> float | None:
    """Return the latest day of the log."""
    days = [day for event in events if (day := as_number(event.get("day_d"))) is not None]
    return max(days, default=None)


def judge_rinses(short: list[Event]) -> list[Reason]:
    """Return the reason of rinses that were less than owed, with the last one's litres."""
    return [tell_last("rinse", short, "short_L")] if short else []


def judge_washes(standing: Standing, low: list[Event], high: list[Event]) -> list[Reason]:
    """Return the reasons of washes that ended under the floor or began above the ceiling."""
    reasons = [tell_last("floor", low, "low_margin_pH")] if low else []
    margin = standing.number("end_floor_margin_pH")
    if not low and standing.values.get("end_floor_ok") == STOP and margin is not None:
        reasons.append(Reason("floor", -margin))
    return [*reasons, tell_last("ceiling", high, "top_margin_pH")] if high else reasons


def tell_last(kind: str, events: list[Event], name: str) -> Reason:
    """Return a reason that tells the last of some events and how many there were."""
    last = events[-1]
    amount = abs(as_number(last[name]) or 0)
    return Reason(kind, amount, day=as_number(last.get("day_d")), count=len(events))


def judge_sugar(standing: Standing) -> list[Reason]:
    """Return the reason of sugar in the last permeate read, by the log or by the checks."""
    read = [e for e in standing.events if as_number(e.get("permeate_brix")) is not None]
    if read and read[-1].get("watch_n") == 1:
        return [tell_last("sugar", read[-1:], "permeate_brix")]
    seen = standing.number("sugar_brix")
    if standing.values.get("sugar_ok") == STOP and seen is not None:
        return [Reason("sugar", seen)]
    return []


def judge_flow(standing: Standing, flows: list[Event]) -> list[Reason]:
    """Return the reason of a last flow under the limit for a wash, or else under that for sap."""
    flow, day = standing.number("flow_pct"), None
    if flows:
        flow, day = as_number(flows[-1]["corrected_pct"]), as_number(flows[-1].get("day_d"))
    limits = [standing.number(name) for name in ("flow_stop_pct", "flow_wash_pct")]
    for limit in limits:
        if flow is not None and limit is not None and flow < limit:
            return [Reason("flow", flow, limit=limit, day=day)]
    return []


def judge_checks(standing: Standing) -> list[Reason]:
    """Return the reason of checks that say stop and that no other reason tells."""
    names = [name for name, value in standing.values.items() if value == STOP]
    stops = tuple(name for name in names if name.endswith("_ok") and name not in TOLD)
    return [Reason("stops", count=len(stops), names=stops)] if stops else []


def judge_entries(standing: Standing) -> list[Reason]:
    """Return that entries lack something, or that there are none: silence is not good news."""
    open_rows = [event for event in standing.events if event.get("rank_n") == UNFINISHED]
    if open_rows:
        return [Reason("unfinished", count=len(open_rows))]
    return [] if standing.events else [Reason("silent")]


def as_number(value: Value) -> float | None:
    """Return a number, or None for a text or a blank."""
    return float(value) if isinstance(value, int | float) else None
