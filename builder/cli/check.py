"""`rinsebook check`: the specs alone, every formula worked out."""

from pathlib import Path

import typer

from builder import __version__
from builder.problems import EXIT_FAULT, Problem, ProblemsError
from builder.spec.load import find_specs, load_spec
from builder.spec.rules import check_spec
from builder.spec.rules_editions import check_changes, check_edition
from builder.spec.rules_literals import check_literals
from builder.spec.rules_references import count_proofs
from builder.spec.rules_units import count_opt_outs
from builder.spec.specification import Spec
from builder.trial.trial import try_formulas


def check() -> None:
    """Check the specs: their rules, and every formula worked out against its reference."""
    try:
        folder = find_specs()
        spec = load_spec(folder)
        problems = [*check_spec(spec), *check_literals(spec)] or try_formulas(spec)
        problems = [*problems, *check_editions(spec, folder.parent)]
    except ProblemsError as error:
        problems = error.problems
    if problems:
        print("\n".join(str(problem) for problem in sorted(problems)))
        raise typer.Exit(EXIT_FAULT)
    counts = {
        "quantities": spec.quantities,
        "sheets": spec.sheets,
        "units": spec.units,
        "sources": spec.sources,
    }
    print(", ".join(f"{len(found)} {name}" for name, found in counts.items()) + ": no finding")
    out, judged = count_opt_outs(spec)
    print(f"opt out of the unit check: {out} of {judged} formulas, {out / judged:.1%}")
    print("references by " + ", ".join(f"{proof}: {n}" for proof, n in count_proofs(spec).items()))


def check_editions(spec: Spec, root: Path) -> list[Problem]:
    """Return what the list of editions lacks, and in a checkout the list of changes too."""
    changes = root / "docs" / "changes.md"
    told = check_changes(spec, changes) if changes.is_file() else ()
    return [*check_edition(spec, __version__), *told]
