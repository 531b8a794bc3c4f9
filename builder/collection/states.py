"""Finds the books that are copies or older states of one machine: only the newest counts."""

from builder.collection.book import Noted
from builder.collection.fleet import Event, Reason
from builder.collection.store import State, Store

DUPLICATE, OLDER = "duplicate", "older"


def set_aside_older(store: Store) -> None:
    """Set aside all but the newest book of each machine, and say so in the findings."""
    for identity in store.list_shared():
        newest, *others = store.list_states(identity)
        first = {newest.content: newest}
        for state in others:
            if twin := first.get(state.content):
                store.set_aside(state, DUPLICATE)
                text = f"same content as {twin.file}"
                store.add_finding(state, Noted("info", "", "", text))
            else:
                first[state.content] = state
                set_aside_state(store, state, newest)


def set_aside_state(store: Store, state: State, newest: State) -> None:
    """Set aside an older state, with a warning where the newest does not hold all its entries."""
    store.set_aside(state, OLDER)
    text = f"older state of the same machine, newest is {newest.file}"
    store.add_finding(state, Noted("info", "", "", text))
    older, newer = store.read_typed(state), store.read_typed(newest)
    if not holds(newer, older) and not holds(older, newer):
        text = (
            f"the log contradicts that of {newest.file}: neither holds all entries of the other; "
            "only the entries of that file count. Ask which of them are right"
        )
        store.add_finding(state, Noted("warning", "", "", text))
        store.add_reason(newest.book, Reason("contest", names=(state.file,)))


def holds(newer: list[Event], older: list[Event]) -> bool:
    """Tell whether each entry of a log stands in another one, there with more cells, it may be."""
    return all(any(entry.items() <= other.items() for other in newer) for entry in older)
