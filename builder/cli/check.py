"""`rinsebook check`: the specs alone, every formula worked out."""

import typer

from builder.problems import EXIT_FAULT, ProblemsError
from builder.spec.load import find_specs, load_spec
from builder.spec.rules import check_spec
from builder.spec.rules_literals import check_literals
from builder.spec.rules_references import count_proofs
from builder.spec.rules_units import count_opt_outs
from builder.trial.trial import try_formulas


def check() -> None:
    """Check the specs: their rules, and every formula worked out against its reference."""
    try:
        spec = load_spec(find_specs())
        problems = [*check_spec(spec), *check_literals(spec)] or try_formulas(spec)
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
