"""The command line: one module a command; each reads arguments and calls one function."""

from builder.cli.application import main, run

__all__ = ["main", "run"]
