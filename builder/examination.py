"""Everything that `rinsebook check` demands of the specs, cheapest first."""

from pathlib import Path

from builder import __version__
from builder.problems import Problem
from builder.spec.rules import check_spec
from builder.spec.rules_editions import check_changes, check_edition
from builder.spec.rules_literals import check_literals
from builder.spec.rules_references import count_proofs
from builder.spec.rules_units import count_opt_outs
from builder.spec.specification import Spec
from builder.trial.trial import try_formulas


def examine(spec: Spec, root: Path) -> list[Problem]:
    """Return all that is wrong; formulas are worked out where no rule is broken, editions last.

    `root` holds docs/changes.md in a checkout; an installed package has none.
    """
    problems = [*check_spec(spec), *check_literals(spec)] or try_formulas(spec)
    changes = root / "docs" / "changes.md"
    told = check_changes(spec, changes) if changes.is_file() else ()
    return problems or sorted([*check_edition(spec, __version__), *told])


def summarise(spec: Spec) -> str:
    """Return what was looked at, the share that opts out of units, and how references prove."""
    counts = {
        "quantities": spec.quantities,
        "sheets": spec.sheets,
        "units": spec.units,
        "sources": spec.sources,
    }
    out, judged = count_opt_outs(spec)
    proofs = ", ".join(f"{proof}: {n}" for proof, n in count_proofs(spec).items())
    return "\n".join(
        [
            ", ".join(f"{len(found)} {name}" for name, found in counts.items()) + ": no finding",
            f"opt out of the unit check: {out} of {judged} formulas, {out / judged:.1%}",
            f"references by {proofs}",
        ]
    )
