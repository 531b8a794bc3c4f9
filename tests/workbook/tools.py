"""Programs of the system that some tests need; where one is missing they fail and say so."""

import shutil
import subprocess
from collections.abc import Iterator

from builder.replay.office import SYSTEM_PYTHON

OFFICE = ("soffice", "uno")
TOOLS = {
    "soffice": ("LibreOffice (soffice)", "libreoffice-calc-nogui"),
    "uno": (f"The module uno of {SYSTEM_PYTHON}", "python3-uno"),
    "pdftotext": ("pdftotext", "poppler-utils"),
}


class MissingToolError(Exception):
    """A test or an engine needs a program that is not there."""


def is_there(tool: str) -> bool:
    """Tell whether a program is on the path, or a module in the system's Python."""
    if tool != "uno":
        return shutil.which(tool) is not None
    python = shutil.which(SYSTEM_PYTHON)
    if python is None:
        return False
    return (
        subprocess.run([python, "-c", "import uno"], capture_output=True, check=False).returncode
        == 0
    )


def list_missing(*tools: str) -> Iterator[str]:
    """Yield a sentence for each of these programs that is missing."""
    for tool in tools:
        if not is_there(tool):
            title, package = TOOLS[tool]
            yield f"{title} is missing; install it with: sudo apt-get install {package}"


def require(*tools: str) -> None:
    """Raise MissingToolError where one of these programs is missing."""
    missing = list(list_missing(*tools))
    if missing:
        raise MissingToolError("; ".join(missing))
