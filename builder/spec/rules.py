"""Checks the specs as a whole, rule by rule; a rule is a generator of findings."""

from collections.abc import Callable, Iterator

from builder.problems import Problem
from builder.spec.french import check_french
from builder.spec.rules_calls import check_calls
from builder.spec.rules_choices import check_codes, check_compared
from builder.spec.rules_entries import (
    check_choices,
    check_limits,
    check_seen,
    check_sources,
    check_units,
    check_verdicts,
)
from builder.spec.rules_former import check_former
from builder.spec.rules_formulas import check_formulas
from builder.spec.rules_graph import check_circles, check_divisions, check_known, check_records
from builder.spec.rules_grids import check_bindings, check_grids
from builder.spec.rules_languages import check_gaps, check_languages, check_lists, check_titles
from builder.spec.rules_names import check_exports, check_names, check_suffixes
from builder.spec.rules_references import check_proofs, check_references
from builder.spec.rules_renaming import check_renaming
from builder.spec.rules_sheets import check_sheets
from builder.spec.rules_stories import check_stories
from builder.spec.rules_units import (
    check_conversions,
    check_factors,
    check_formula_units,
    check_unit_entries,
)
from builder.spec.specification import Spec

Rule = Callable[[Spec], Iterator[Problem]]
ENTRIES: tuple[Rule, ...] = (
    check_names,
    check_suffixes,
    check_exports,
    check_units,
    check_unit_entries,
    check_factors,
    check_conversions,
    check_sources,
    check_seen,
    check_limits,
    check_choices,
    check_codes,
    check_verdicts,
    check_proofs,
    check_formulas,
    check_grids,
    check_records,
    check_sheets,
    check_languages,
    check_gaps,
    check_titles,
    check_lists,
    check_calls,
    check_former,
    check_stories,
    check_renaming,
    check_french,
)
# These follow the names through the formulas, and so need formulas that can be read.
RELATIONS: tuple[Rule, ...] = (
    check_known,
    check_bindings,
    check_circles,
    check_divisions,
    check_compared,
    check_references,
    check_formula_units,
)


def check_spec(spec: Spec) -> list[Problem]:
    """Return everything that is wrong with loaded specs, by file and line."""
    found = {problem for rule in ENTRIES for problem in rule(spec)}
    if not any(problem.code == "not-a-formula" for problem in found):
        found |= {problem for rule in RELATIONS for problem in rule(spec)}
    return sorted(found)
