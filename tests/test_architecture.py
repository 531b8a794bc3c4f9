"""The shape that DEVELOPERS.md promises: who imports whom, sizes, and nothing foreign."""

import ast
import re
import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent
MODULES = sorted((ROOT / "builder").rglob("*.py"))
FORBIDDEN = {
    "reference": {
        "builder.spec",
        "builder.formula",
        "builder.plan",
        "builder.write",
        "builder.audit",
    },
    "audit": {"builder.plan", "builder.write", "builder.production"},
    "write": {"builder.spec", "builder.formula", "builder.reference", "builder.audit"},
    "plan": {"builder.write", "builder.audit", "builder.reference"},
    "formula": {"builder.plan", "builder.write", "builder.audit", "builder.reference"},
}
TOP = {
    "README.md",
    "DEVELOPERS.md",
    "pyproject.toml",
    "builder",
    "specs",
    "tests",
    "examples",
    "docs",
}


def list_imports(path: Path) -> set[str]:
    found = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom) and node.module:
            found.add(node.module)
        elif isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
    return found


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(ROOT)))
def test_each_module_imports_only_what_its_folder_may(path: Path) -> None:
    folder = path.relative_to(ROOT / "builder").parts[0]
    wrong = {
        name
        for name in list_imports(path)
        for banned in FORBIDDEN.get(folder, set())
        if name == banned or name.startswith(f"{banned}.")
    }
    assert wrong == set()


def count_code(tree: ast.Module) -> tuple[int, dict[str, int]]:
    """Return the lines of a module and of its functions, without docstrings and blank lines."""
    spans = {}
    for node in ast.walk(tree):
        if isinstance(node, ast.Module | ast.ClassDef | ast.FunctionDef) and ast.get_docstring(
            node
        ):
            spans[node] = range(node.body[0].lineno, node.body[0].end_lineno + 1)
    told = {line for span in spans.values() for line in span}
    lines = {n.lineno for n in ast.walk(tree) if hasattr(n, "lineno")}
    lines |= {n.end_lineno for n in ast.walk(tree) if hasattr(n, "end_lineno")}
    sizes = {
        node.name: sum(line not in told for line in range(node.body[0].lineno, node.end_lineno + 1))
        for node in ast.walk(tree)
        if isinstance(node, ast.FunctionDef)
    }
    return len(lines - told), sizes


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(ROOT)))
def test_no_module_outgrows_250_lines_of_code_and_no_function_25(path: Path) -> None:
    size, functions = count_code(ast.parse(path.read_text(encoding="utf-8")))
    long = {name: lines for name, lines in functions.items() if lines > 25}
    assert (size <= 250, long) == (True, {})


def test_the_top_level_holds_nothing_else() -> None:
    files = subprocess.run(
        ["git", "ls-files"], cwd=ROOT, capture_output=True, text=True, check=True
    ).stdout.split()
    assert {name.split("/")[0] for name in files if not name.startswith(".")} == TOP


def test_ci_calls_exactly_the_second_command_of_the_readme() -> None:
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    command = re.search(r"<!-- tests -->\n\n```sh\n(.*)\n```", readme)
    assert command is not None
    script = (ROOT / ".ci" / "run").read_text(encoding="utf-8")
    assert "README.md" in script
    assert command[1] == "bash tests/run"


def test_every_command_of_the_readme_is_one_of_the_program() -> None:
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    used = set(re.findall(r"\.venv/bin/rinsebook (\w+)", readme))
    assert used <= {path.stem for path in (ROOT / "builder" / "cli").glob("*.py")}
