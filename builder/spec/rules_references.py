"""References: each result, check and constant has its independent twin, with the same inputs."""

import importlib
import inspect
from collections.abc import Iterator

from builder.calculation import Function, find_arguments, find_reference
from builder.formula.graph import Paths
from builder.formula.grids import split_grid_name
from builder.problems import Problem, suggest
from builder.spec.records import (
    DEFINITION,
    OTHER_ROUTE,
    Check,
    Choice,
    Constant,
    Grid,
    Input,
    Quantity,
    Record,
    Result,
)
from builder.spec.rules_texts import find_fault
from builder.spec.specification import Spec

PROOFS = (DEFINITION, OTHER_ROUTE)
METHOD = "method"  # the source of a figure that this project itself chose


def check_references(spec: Spec) -> Iterator[Problem]:
    """Every reference is there; constants are equal, functions take what formulas use."""
    paths = Paths(spec.quantities)
    for quantity in spec.quantities.values():
        if not isinstance(quantity, Result | Check | Constant | Record | Grid):
            continue
        if not quantity.reference and may_lack_reference(quantity):
            continue
        if not quantity.reference:
            text = "names no reference."
            yield fault(quantity, "no-reference", text, "Add reference = module.NAME.")
            continue
        try:
            found = find_reference(quantity.reference)
        except LookupError:
            text = f"reference {quantity.reference!r} is not there.{suggest_path(quantity)}"
            remedy = "Name module.function of builder/reference."
            yield fault(quantity, "no-reference", text, remedy)
            continue
        if isinstance(quantity, Constant):
            yield from compare_constant(quantity, found)
        elif not callable(found):
            text = f"reference {quantity.reference!r} is {found!r}, not a function."
            yield fault(quantity, "no-reference", text, "Name a function of builder/reference.")
        elif isinstance(quantity, Result | Check | Grid):
            yield from compare_parameters(quantity, found, spec, paths)


def check_proofs(spec: Spec) -> Iterator[Problem]:
    """Every reference says whether it takes another route or restates the definition."""
    for quantity in spec.quantities.values():
        if isinstance(quantity, Result | Check | Record | Grid) and quantity.proof not in PROOFS:
            text = f"proof {quantity.proof!r} is neither of {' or '.join(PROOFS)}."
            remedy = "Say how far the reference goes."
            yield find_fault(quantity, "unknown-proof", quantity.name, text, remedy, "proof")


def count_proofs(spec: Spec) -> dict[str, int]:
    """Return how many references take another route, and how many restate the definition."""
    kinds = Result | Check | Record | Grid
    judged = [q for q in spec.quantities.values() if isinstance(q, kinds)]
    return {proof: sum(bool(q.reference) and q.proof == proof for q in judged) for proof in PROOFS}


def may_lack_reference(quantity: Quantity) -> bool:
    """Excuse records, steps towards a referenced result, and constants that are our choice."""
    chosen = quantity.source is not None and quantity.source.id == METHOD
    return isinstance(quantity, Record | Grid) or (isinstance(quantity, Constant) and chosen)


def fault(quantity: Quantity, code: str, text: str, remedy: str) -> Problem:
    """Return a finding at the line of the reference."""
    return find_fault(quantity, code, quantity.name, text, remedy, "reference")


def suggest_path(quantity: Result | Check | Constant | Record | Grid) -> str:
    """Return the nearest name in the same module of references."""
    module, _, name = quantity.reference.partition(".")
    try:
        known = vars(importlib.import_module(f"builder.reference.{module}"))
    except ImportError:
        return ""
    near = suggest(name, [key for key in known if not key.startswith("_")])
    return near.replace("mean ", f"mean {module}.")


def compare_constant(constant: Constant, found: Function | float) -> Iterator[Problem]:
    """Demand that the figure is the same in both places."""
    if callable(found) or found != constant.value:
        twin = "a function" if callable(found) else repr(found)
        text = f"value {constant.value!r} differs from {constant.reference} = {twin}."
        remedy = "Look it up in its source and correct the wrong one; where the figure moves, both."
        yield fault(constant, "reference-differs", text, remedy)


def compare_parameters(
    quantity: Result | Check | Grid, function: Function, spec: Spec, paths: Paths
) -> Iterator[Problem]:
    """Demand that the parameters determine the formula, and that it uses them all."""
    signature = inspect.signature(function).parameters
    arguments = find_arguments(quantity, function)
    renamed = quantity.arguments if isinstance(quantity, Result) else {}
    for name in renamed.keys() - signature.keys():
        text = f"arguments names {name}, which {quantity.reference} does not take."
        near = suggest(name, signature)
        yield fault(quantity, "unknown-parameter", text + near, "Name a parameter.")
    places = {p: find_owner(name, spec) for p, name in arguments.items()}
    for name in (name for p, name in arguments.items() if places[p] not in spec.quantities):
        text = f"{quantity.reference} takes {name}, which is no quantity."
        remedy = "Rename the parameter, or map it under arguments."
        near = suggest(name, spec.quantities)
        yield fault(quantity, "unknown-parameter", text + near, remedy)
    known = {place for place in places.values() if place in spec.quantities}
    optional = {places[p] for p, found in signature.items() if found.default is not found.empty}
    yield from compare_reach(quantity, known, optional, paths)


def compare_reach(
    quantity: Result | Check | Grid, known: set[str], optional: set[str], paths: Paths
) -> Iterator[Problem]:
    """Demand that the walk from a formula meets what its reference takes, and nothing typed."""
    met, missed = paths.find_cut(quantity, known)
    # A reference may take a grid, and of what stands behind it columns that have none.
    grids = {name for name in met if isinstance(paths.quantities[name], Grid)}
    met |= paths.find_cut(quantity, known - grids)[0] if grids else set()
    remedy = "Make formula and reference use the same quantities."
    if idle := known - met - optional:
        text = f"{quantity.reference} takes {join(idle)}, on which the formula does not depend."
        yield fault(quantity, "parameters-differ", text, remedy)
    if lacking := {n for n in missed if isinstance(paths.quantities[n], Input | Choice)}:
        text = f"the formula depends on {join(lacking)}, which {quantity.reference} does not take."
        yield fault(quantity, "parameters-differ", text, remedy)


def find_owner(name: str, spec: Spec) -> str:
    """Return the grid where a name points into one, else the name."""
    part = split_grid_name(name, spec.quantities)
    return part.grid.name if part else name


def join(names: set[str]) -> str:
    """Return names in order, with commas."""
    return ", ".join(sorted(names))
