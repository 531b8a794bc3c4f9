"""The whole command: which commands there are, and how errors reach a user."""

import io
import os
import sys
import traceback
from importlib import import_module
from typing import Annotated

import typer

from builder import __version__
from builder.cli.commands import COMMANDS, EXAMPLES, write_examples
from builder.cli.options import DEBUG
from builder.problems import EXIT_FAULT, EXIT_FILE, EXIT_FINE, EXIT_INTERRUPTED, UserError

HELP = f"""Workbooks that answer how to wash and rinse a maple sap concentrator, and prove their
own formulas. {DEBUG}, anywhere in the line, shows the traceback of an error."""
# The words of a line that a shell wants completed.
COMPLETED = ("COMP_WORDS", "_TYPER_COMPLETE_ARGS")


def main() -> None:
    """Run the command line of this process."""
    if isinstance(sys.stdout, io.TextIOWrapper):
        sys.stdout.reconfigure(errors="replace")
    code = run(sys.argv[1:])
    try:
        sys.stdout.flush()
    except OSError as error:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        code = code or EXIT_FILE
        if not isinstance(error, BrokenPipeError):
            print(describe(error)[0], file=sys.stderr)
    sys.exit(code)


def run(arguments: list[str]) -> int:
    """Run one command and return its exit code; whatever fails is told in plain words."""
    try:
        words = [word for word in arguments if word != DEBUG]
        open_app(words)(words, prog_name="rinsebook")
    except SystemExit as end:
        return end.code if isinstance(end.code, int) else EXIT_FINE
    except KeyboardInterrupt:
        return EXIT_INTERRUPTED
    except Exception as error:
        if DEBUG in arguments:
            traceback.print_exc()
        message, code = describe(error)
        print(message, file=sys.stderr)
        return code
    return EXIT_FINE


def open_app(words: list[str]) -> typer.Typer:
    """Return the application; only a command whose name stands in the line is loaded."""
    app = typer.Typer(
        help=HELP,
        epilog=write_examples(EXAMPLES),
        no_args_is_help=True,
        rich_markup_mode=None,
        pretty_exceptions_enable=False,
    )
    app.callback()(common)
    asked = {*words, *" ".join(os.environ.get(key, "") for key in COMPLETED).split()}
    for name, about in COMMANDS.items():
        function = getattr(import_module(f"builder.cli.{name}"), name) if name in asked else common
        app.command(name, help=about.summary, epilog=write_examples(about.examples))(function)
    return app


def describe(error: Exception) -> tuple[str, int]:
    """Return the message for the user and the exit code."""
    if isinstance(error, UserError):
        return str(error), error.exit_code
    if isinstance(error, OSError):
        return f"cannot read or write: {error}.", EXIT_FILE
    text = " ".join(repr(error).split())
    return f"This is a defect of the program: {text}. {DEBUG} shows more.", EXIT_FAULT


def print_version(*, wanted: bool) -> None:
    """Print name and version, and stop."""
    if wanted:
        print(f"rinsebook {__version__}")
        raise typer.Exit


def common(
    *,
    version: Annotated[
        bool,
        typer.Option("--version", callback=print_version, is_eager=True, help="Print the version."),
    ] = False,
) -> None:
    """Take the options that stand before a command."""
