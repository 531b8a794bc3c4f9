"""The office program as a calculation engine: started once, it recalculates any number of books."""

import json
import os
import shutil
import subprocess
from pathlib import Path
from typing import Self

from builder.problems import EXIT_FILE, UserError

SYSTEM_PYTHON = "/usr/bin/python3"  # holds the interface of the office program
HOST = Path(__file__).with_name("office_host.py")
PATIENCE_S = 60
MISSING = """the engine office needs LibreOffice and its Python interface.
    Install them, on Debian: sudo apt-get install libreoffice-calc-nogui python3-uno"""


class OfficeProgram:
    """One running program with a profile of its own, in the language and numbers of a locale."""

    def __init__(self, locale: str) -> None:
        """Start the program."""
        path = os.environ.get("PATH", os.defpath)
        self.process = subprocess.Popen(  # noqa: S603 - our own script
            [SYSTEM_PYTHON, str(HOST), locale],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            env={"PATH": path, "HOME": "/tmp", "LANG": "C.UTF-8"},  # noqa: S108
            text=True,
            encoding="utf-8",
        )

    def __enter__(self) -> Self:
        """Return the program."""
        return self

    def __exit__(self, *_: object) -> None:
        """End the program."""
        self.process.communicate(timeout=PATIENCE_S)

    def ask(self, method: str, *arguments: object) -> object:
        """Return what a method of the host answers."""
        if self.process.stdin is None or self.process.stdout is None:
            raise BrokenPipeError
        self.process.stdin.write(json.dumps([method, *arguments]) + "\n")
        self.process.stdin.flush()
        line = self.process.stdout.readline()
        answer = json.loads(line or '{"error": "the office program ended"}')
        if "error" in answer:
            raise RuntimeError(answer["error"])
        return answer["answer"]

    def open(self, path: Path) -> None:
        """Open a file in place of the present one."""
        self.ask("open", str(path))


def demand_office() -> None:
    """Raise UserError where the program or its interface is not there."""
    python = shutil.which(SYSTEM_PYTHON)
    asked = [python or "", "-c", "import uno"]
    there = python and shutil.which("soffice")
    if not there or subprocess.run(asked, capture_output=True, check=False).returncode:  # noqa: S603
        raise UserError(MISSING, EXIT_FILE)
