"""Finds the books that are copies or older states of one machine: only the newest counts."""

from builder.collection.book import Noted
from builder.collection.fleet import Event, Reason
from builder.collection.fleet_words import Wording
from builder.collection.store import State, Store
from builder.spec.records import CONTEST, REWRITTEN

DUPLICATE, OLDER = "duplicate", "older"


def set_aside_older(store: Store, wording: Wording) -> None:
    """Set aside all but the newest book of each machine, and say so in the findings."""
    for identity in store.list_shared():
        newest, *others = store.list_states(identity)
        first = {newest.content: newest}
        for state in others:
            if twin := first.get(state.content):
                store.set_aside(state, DUPLICATE)
                text = wording.say("fleet_same", file=twin.file)
                store.add_finding(state, Noted("info", "", "", text))
            else:
                first[state.content] = state
                set_aside_state(store, state, newest, wording)


def set_aside_state(store: Store, state: State, newest: State, wording: Wording) -> None:
    """Set aside an older state, with a warning where the newest does not hold all its entries."""
    store.set_aside(state, OLDER)
    text = wording.say("fleet_older", file=newest.file)
    store.add_finding(state, Noted("info", "", "", text))
    tell_rewritten(store, state, newest, wording)
    older, newer = store.read_typed(state), store.read_typed(newest)
    if not holds(newer, older) and not holds(older, newer):
        text = wording.say("fleet_contradicts", file=newest.file)
        store.add_finding(state, Noted("warning", "", "", text))
        store.add_reason(newest.book, Reason(CONTEST, names=(state.file,)))


def tell_rewritten(store: Store, state: State, newest: State, wording: Wording) -> None:
    """Warn of each line in force that the newest book no longer has as it was."""
    for number, line in enumerate(state.lines, start=1):
        now = newest.lines[number - 1] if number <= len(newest.lines) else {}
        if line and line != now:
            text = wording.say("fleet_rewritten", line=number, file=newest.file)
            store.add_finding(state, Noted("warning", "", "", text))
            store.add_reason(newest.book, Reason(REWRITTEN, names=(state.file,)))


def holds(newer: list[Event], older: list[Event]) -> bool:
    """Tell whether each entry of a log stands in another one, there with more cells, it may be."""
    return all(any(entry.items() <= other.items() for other in newer) for entry in older)
