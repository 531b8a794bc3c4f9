"""The command `rinsebook`, which is `python -m builder` too."""

import sys

from builder.problems import EXIT_INTERRUPTED


def main() -> None:
    """Run the command line of this process; an interrupt is quiet from the first moment on."""
    try:
        from builder.cli import application  # noqa: PLC0415 it loads for a second

        application.main()
    except KeyboardInterrupt:
        sys.exit(EXIT_INTERRUPTED)


if __name__ == "__main__":
    main()
