"""`rinsebook explain`: one name, from its formula to its source."""

from typing import Annotated

import typer

from builder.cli.options import (
    Json,
    Lang,
    MaybeMachineFile,
    pick_language,
    pick_machine,
    print_json,
)
from builder.spec.load import find_specs, load_spec


def explain(
    name: Annotated[
        str, typer.Argument(metavar="NAME", help="Name of a quantity, or any name in a formula.")
    ],
    machine_file: MaybeMachineFile = None,
    *,
    lang: Lang = None,
    as_json: Json = False,
) -> None:
    """Explain one quantity, or any name that stands in a formula."""
    from builder.explanation import Explainer
    from builder.explanation_text import write_explanation

    spec = load_spec(find_specs())
    lang = pick_language(lang, spec)
    about = Explainer(spec, pick_machine(machine_file, spec), lang).explain(name)
    if as_json:
        print_json(about.to_json())
    else:
        print(write_explanation(about, spec, lang))
