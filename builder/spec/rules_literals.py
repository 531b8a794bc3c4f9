"""Names of the specs that stand as texts in the Python of this package: each is still there.

A text without a space is searched for words that end as names do: in a unit, `_ok` or `_list`.
The reference is left out: its parameters are names already, and another rule follows them.
"""

import ast
import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from builder.formula.grids import LIST, ROW_NUMBER, WORDS
from builder.problems import Problem, suggest
from builder.spec.records import Choice, Record
from builder.spec.rules_names import list_exports
from builder.spec.specification import Spec

PACKAGE = Path(__file__).resolve().parent.parent
# Names that no unit ends, and that would pass for any other word.
UNITLESS = ("event", "log", "reader_units")
# Names that the workbook and the tables of collected books give to what is no quantity.
OWN = (
    ROW_NUMBER,
    "checks_look_n",
    "checks_missing_n",
    "checks_n",
    "checks_none_n",
    "checks_planned_n",
    "checks_stop_n",
    "example_n",
    "inputs_bad_n",
    "selftest_agree_n",
    "selftest_n",
    "run_hours_h",
)
ENDS = ("ok", "typed", "typed_unit", *(part.lstrip("_") for part in (LIST, *WORDS)))
SAYING = ("word", "say")
ASKED = re.compile(rf"\.(?:{'|'.join(SAYING)})\(\s*\"(\w+)\"")
COMPARED = re.compile(r"\"\)\s*(?:==|!=)")  # what a call with a text gives, compared


@dataclass(frozen=True, slots=True)
class Script:
    """One file of Python and the nodes of its tree."""

    file: str
    nodes: list[ast.AST]

    def fault(self, node: ast.expr, name: str, text: str) -> Problem:
        """Return a finding at the line of a text."""
        remedy = "Write the name that the specs have now."
        return Problem(self.file, node.lineno, "unknown-literal", name, text, remedy)


def check_literals(spec: Spec, package: Path = PACKAGE) -> Iterator[Problem]:
    """Every name of the specs that stands as a text in a package is one of the specs."""
    shape = compile_shape(spec)
    known = {*spec.quantities, *spec.words, *OWN}
    for quantity in spec.quantities.values():
        lists = WORDS if isinstance(quantity, Choice) else ()
        known |= {*list_exports(quantity), *(quantity.name + end for end in lists)}
    for path in sorted(package.rglob("*.py")):
        if "reference" in path.relative_to(package).parts:
            continue
        file = f"{package.name}/{path.relative_to(package).as_posix()}"
        text = path.read_text(encoding="utf-8")
        if not is_suspect(text, shape, known, spec):  # parsing takes its time
            continue
        script = Script(file, list(ast.walk(ast.parse(text))))
        for node in list_texts(script.nodes):
            for name in find_literals(str(node.value), shape):
                if name not in known:
                    text = f"{name} is no name of the specs.{suggest(name, known)}"
                    yield script.fault(node, name, text)
        yield from check_calls(script, spec)


def is_suspect(text: str, shape: re.Pattern[str], known: set[str], spec: Spec) -> bool:
    """Tell whether the raw text of a file has a name or key that is none, or compares a code."""
    names = {*shape.findall(text), *(name for name in UNITLESS if f'"{name}"' in text)}
    keys = (key for key in ASKED.findall(text) if not is_key(key, spec))
    return bool(names - known) or any(keys) or COMPARED.search(text) is not None


def is_key(key: str, spec: Spec) -> bool:
    """Tell whether a text is a key of the words, or the beginning of one."""
    return key in spec.words or any(word.startswith(f"{key}_") for word in spec.words)


def compile_shape(spec: Spec) -> re.Pattern[str]:
    """Return what a name looks like that ends in a unit, or as checks and parts of grids do."""
    ends = "|".join(re.escape(end) for end in (*(u.suffix for u in spec.units.values()), *ENDS))
    return re.compile(rf"(?<!\w)[a-z][a-z0-9]*(?:_[A-Za-z0-9]+)*_(?:{ends})(?!\w)")


def list_texts(nodes: list[ast.AST]) -> Iterator[ast.Constant]:
    """Yield the texts of a file that are no docstrings."""
    notes = {node.value for node in nodes if isinstance(node, ast.Expr)}
    for node in nodes:
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and node not in notes:
            yield node


def find_literals(text: str, shape: re.Pattern[str]) -> list[str]:
    """Return the names in a text; one with spaces is prose or the language of a database."""
    return [text] if text in UNITLESS else [] if " " in text else shape.findall(text)


def check_calls(script: Script, spec: Spec) -> Iterator[Problem]:
    """Judge the keys of words that are asked for, and the codes that choices are compared with."""
    for node in script.nodes:
        match node:
            case ast.Call(ast.Attribute(attr=attr), [ast.Constant(str(key)), *_]) if attr in SAYING:
                if not is_key(key, spec):
                    text = f"{key} is no key of the words.{suggest(key, spec.words)}"
                    yield script.fault(node, key, text)
            case ast.Compare(ast.Call(args=[ast.Constant(str(name))]), _, [ast.Constant(code)]):
                found = spec.quantities.get(name)
                options = found.options if isinstance(found, Choice | Record) else {}
                if options and code not in options:
                    text = f"{name} has no option {code!r}.{suggest(str(code), options)}"
                    yield script.fault(node, name, text)
