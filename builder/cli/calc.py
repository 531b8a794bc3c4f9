"""`rinsebook calc`: results without any workbook."""

import sys

from builder import __version__
from builder.cli.options import Json, MachineFile, print_json
from builder.exchange.machine import read_machine
from builder.exchange.results import list_results, work_out, write_table
from builder.spec.load import find_specs, load_spec


def calc(machine_file: MachineFile, *, as_json: Json = False) -> None:
    """Print the results without any workbook."""
    spec = load_spec(find_specs())
    calculation = work_out(read_machine(machine_file, spec), spec)
    if as_json:
        results = list_results(calculation, spec)
        print_json({"version": __version__, "results": results, "notes": calculation.notes})
        return
    print(write_table(calculation, spec))
    print("\n".join(calculation.notes), file=sys.stderr)
