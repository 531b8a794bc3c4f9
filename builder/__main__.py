"""The command `rinsebook`, which is `python -m builder` too."""

import gc
import sys

from builder.problems import EXIT_INTERRUPTED

# A plan or a workbook is a hundred thousand objects with hardly a circle among them.
COLLECTING = (50_000, 2, 2)


def main() -> None:
    """Run the command line of this process; an interrupt is quiet from the first moment on."""
    gc.set_threshold(*COLLECTING)
    try:
        from builder.cli import application  # noqa: PLC0415 it loads for a second

        application.main()
    except KeyboardInterrupt:
        sys.exit(EXIT_INTERRUPTED)


if __name__ == "__main__":
    main()
