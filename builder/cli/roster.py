"""`rinsebook roster`: one workbook for each row of a table."""

import os
import sys
from collections import Counter
from contextlib import closing
from pathlib import Path
from typing import Annotated

import typer

from builder.cli.options import Force
from builder.problems import EXIT_PARTIAL
from builder.spec.load import find_specs, load_spec


def roster(
    roster_file: Annotated[
        Path, typer.Argument(metavar="ROSTER", help="Table of machines, .csv or .xlsx.")
    ],
    *,
    out: Annotated[Path, typer.Option("--out", metavar="DIR", help="Folder to write into.")],
    mail: Annotated[
        bool, typer.Option("--mail", help="Write a message beside each workbook; none is sent.")
    ] = False,
    jobs: Annotated[
        int | None, typer.Option("--jobs", min=1, help="Processes; as many as cores if left out.")
    ] = None,
    force: Force = False,
) -> None:
    """Write one workbook for each row of a table, and a manifest."""
    from tqdm import tqdm

    from builder.production import Edition
    from builder.roster.manifest import MANIFEST
    from builder.roster.roster import Roster
    from builder.roster.run import Plan, run_roster
    from builder.roster.workshop import BUILT, FINE, KEPT, Workshop

    spec = load_spec(find_specs())
    table = Roster(roster_file, spec)
    plan = Plan(out, mail, min(jobs or os.cpu_count() or 1, table.count), force)
    counts: Counter[str] = Counter()
    # The bar stays away where nobody looks: disable=None asks whether this is a terminal.
    bar = tqdm(total=table.count, unit="row", disable=None, file=sys.stderr, leave=False)
    with bar, closing(run_roster(table, plan, Workshop(spec, Edition))) as deliveries:
        for delivery in deliveries:
            counts[delivery.record.status] += 1
            for problem in delivery.problems:
                tqdm.write(str(problem), file=sys.stderr)
            bar.update()
    failed = sum(counts[status] for status in counts if status not in FINE)
    told = f"{counts[BUILT]} built, {counts[KEPT]} kept, {failed} failed"
    print(f"{roster_file}: {told}; {out / MANIFEST}")
    raise typer.Exit(EXIT_PARTIAL if failed else 0)
