"""`rinsebook explain`: one quantity, from its formula to its source."""

from typing import Annotated

import typer

from builder.cli.options import Json, MaybeMachineFile, pick_machine, print_json
from builder.explanation import explain as explain_quantity
from builder.explanation import write_explanation
from builder.spec.load import find_specs, load_spec


def explain(
    name: Annotated[str, typer.Argument(metavar="NAME", help="Name of a quantity.")],
    machine_file: MaybeMachineFile = None,
    *,
    as_json: Json = False,
) -> None:
    """Explain one quantity and its formula."""
    spec = load_spec(find_specs())
    about = explain_quantity(name, pick_machine(machine_file, spec), spec)
    if as_json:
        print_json(about.to_json())
    else:
        print(write_explanation(about))
