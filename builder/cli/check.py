"""`rinsebook check`: the specs alone, every formula worked out."""

import typer

from builder.problems import EXIT_FAULT, ProblemsError


def check() -> None:
    """Check the specs: their rules, and every formula worked out against its reference."""
    from builder.examination import examine, summarise
    from builder.spec.load import find_specs, load_spec

    folder = find_specs()
    try:
        spec = load_spec(folder)
        problems = examine(spec, folder.parent)
    except ProblemsError as error:
        problems = error.problems
    if problems:
        print("\n".join(str(problem) for problem in problems))
        raise typer.Exit(EXIT_FAULT)
    print(summarise(spec))
