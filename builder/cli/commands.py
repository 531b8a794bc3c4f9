"""The commands and what `--help` says of each, so that a list of them loads none of them."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Command:
    """One sentence on what a command does, and lines of real use."""

    summary: str
    examples: tuple[str, ...]


COMMANDS = {
    "build": Command(
        "Write one workbook and print its path.",
        (
            "rinsebook build",
            "rinsebook build examples/two_vessels.toml --lang fr --units us --out book.xlsx",
            "rinsebook build --from returned.xlsx --out next_season.xlsx",
        ),
    ),
    "calc": Command(
        "Print the answers for one machine, without any workbook.",
        (
            "rinsebook calc examples/two_vessels.toml",
            "rinsebook calc examples/two_vessels.toml --lang fr --units us --all",
            "rinsebook calc examples/two_vessels.toml --json > answers.json",
        ),
    ),
    "audit": Command(
        "Check a workbook, wherever it comes from.",
        ("rinsebook audit returned.xlsx", "rinsebook audit returned.xlsx --deep --json"),
    ),
    "check": Command(
        "Check the specs, and every formula against its reference.", ("rinsebook check",)
    ),
    "explain": Command(
        "Explain one quantity, or any name that stands in a formula.",
        (
            "rinsebook explain rinse_owed_L",
            "rinsebook explain start_next_pH examples/two_vessels.toml",
            "rinsebook explain log_sap_L_list --lang fr",
        ),
    ),
    "roster": Command(
        "Write one workbook for each row of a table, and a manifest.",
        (
            "rinsebook roster examples/dealer/roster.csv --out books",
            "rinsebook roster examples/dealer/roster.csv --out books --mail --jobs 2",
        ),
    ),
    "replay": Command(
        "Play stories of seasons, and tell where they differ.",
        (
            "rinsebook replay tests/stories/01_enough_in_the_same_row.toml",
            "rinsebook replay tests/stories/*.toml --engine ironcalc --rows short",
            "rinsebook replay season.toml --engine office --lang fr --book season.xlsx",
        ),
    ),
    "collect": Command(
        "Audit workbooks that came back, and write one table of all.",
        (
            "rinsebook collect books --out fleet.xlsx",
            "rinsebook collect books late.xlsx --out fleet.csv --force",
        ),
    ),
}
EXAMPLES = (
    "rinsebook build examples/two_vessels.toml --out book.xlsx",
    "rinsebook calc examples/two_vessels.toml",
    "rinsebook audit returned.xlsx",
)


def write_examples(lines: tuple[str, ...]) -> str:
    r"""Return lines of real use for the end of a help text; \b keeps them from being refilled."""
    return "\b\n" + "\n".join(["Examples:", *(f"  {line}" for line in lines)])
