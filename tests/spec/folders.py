"""Folders of specs for tests: a small clean one, and the same with files laid over it."""

import shutil
from pathlib import Path

from builder.problems import ProblemsError
from builder.spec.load import load_spec
from builder.spec.rules import check_spec

HERE = Path(__file__).parent
BASE = HERE / "base"
BAD = HERE / "bad"


def lay_over(case: Path, folder: Path) -> Path:
    """Copy the clean specs into a folder, and the files of a case over them."""
    shutil.copytree(BASE, folder)
    shutil.copytree(case, folder, dirs_exist_ok=True, ignore=shutil.ignore_patterns("expected.txt"))
    return folder


def find_faults(folder: Path) -> str:
    """Return all findings about a folder of specs, as the command prints them."""
    try:
        problems = check_spec(load_spec(folder))
    except ProblemsError as error:
        problems = error.problems
    return "".join(f"{problem}\n" for problem in problems)
