"""Reads a machine file: who it is for, and what was typed for its inputs."""

from dataclasses import dataclass, field, replace
from pathlib import Path

from builder.calculation import Entries, Value
from builder.exchange.former import read_today
from builder.exchange.given import RefusalError, Typed, convert, show
from builder.problems import EXIT_FILE, Problem, ProblemsError, UserError, suggest
from builder.spec.positions import Positions, parse_toml
from builder.spec.records import Input
from builder.spec.specification import Spec

__all__ = ["Machine", "Typed", "canonical", "read_machine"]

TEXTS, EXAMPLE = ("title", "producer", "site"), "example"
LONGEST_TEXT = 120
LARGEST_FILE = 100_000
MOST_POINTS = 100  # in one line: the parser takes hours over a name of very many parts
SPACES = "\u00a0\u202f"  # no-break spaces, which French texts hold
Refused = list[tuple[tuple[str, ...], RefusalError]]


@dataclass(frozen=True, slots=True)
class Machine:
    """One machine; of what is not given, nothing is known.

    The numbers of an `example` are no machine's own, and its workbook says so on every sheet.
    `entries` are rows typed into grids, such as `log`, in canonical units and codes.
    `cells` holds what else was typed, by defined name without `_typed`: ticks, days, initials,
    free fields, and keys of the units chosen in headings of grids, such as `log_sap_L_unit`.
    """

    title: str = ""
    producer: str = ""
    site: str = ""
    given: dict[str, Typed] = field(default_factory=dict)
    entries: Entries = field(default_factory=dict)
    cells: dict[str, Value] = field(default_factory=dict)
    example: bool = False


def canonical(machine: Machine, spec: Spec) -> dict[str, Value]:
    """Return what was given, in canonical units; what was left blank is not given."""
    values: dict[str, Value] = {}
    for name, typed in machine.given.items():
        quantity = spec.quantities[name]
        if isinstance(quantity, Input) and typed.number is not None:
            values[name] = convert(typed, quantity, spec)
        elif typed.code:
            values[name] = typed.code
    return values


def read_machine(path: Path, spec: Spec) -> Machine:
    """Return the machine of a file; raise ProblemsError with everything that is wrong in it."""
    tables, positions, problems = read_tables(path)
    refused: Refused = []
    texts = read_texts(tables, spec, refused)
    example = read_mark(tables.get(EXAMPLE, False), refused)
    given = read_entries(tables.get("given", {}), spec, refused)
    for keys, refusal in refused:
        name = keys[-1] if keys[-1].isprintable() else show(keys[-1])
        line = positions.line(*keys)
        problems.append(Problem(str(path), line, refusal.code, name, refusal.text, refusal.remedy))
    if problems:
        raise ProblemsError(problems)
    title, producer, site = (texts.get(key, "") for key in ("title", "producer", "site"))
    return Machine(title, producer, site, given, example=example)


def read_tables(path: Path) -> tuple[dict[str, object], Positions, list[Problem]]:
    """Return the parsed file, refusing what is no readable file of a sensible size."""
    name = str(path)
    nothing = Positions("")
    try:
        if not path.is_file():
            what = "is no file" if path.exists() else "does not exist"
            raise UserError(f"{name} {what}. Give the path of a machine file.", EXIT_FILE)
        unfit = judge_form(path, name)
        if unfit:
            return {}, nothing, [unfit]
        tables, positions, problems = parse_toml(path, name)
    except OSError as error:
        reason = error.strerror or str(error)
        message = f"{name} cannot be read: {reason}. Check its name and permissions."
        raise UserError(message, EXIT_FILE) from error
    except (ValueError, RecursionError):
        text = "holds a number of thousands of digits, or brackets inside brackets without end."
        remedy = "Look at examples/ for the form of a machine file."
        return {}, nothing, [Problem(name, 1, "not-toml", path.name, text, remedy)]
    return tables, positions, [quote_line(problem, path) for problem in problems]


def judge_form(path: Path, name: str) -> Problem | None:
    """Return why a file is not even given to the parser, or nothing."""
    size = path.stat().st_size
    if size > LARGEST_FILE:
        text = f"{size} bytes, more than {LARGEST_FILE}."
        remedy = "A machine file is a page of text: check that this is the right file."
        return Problem(name, 1, "too-large", path.name, text, remedy)
    for number, line in enumerate(path.read_bytes().splitlines(), start=1):
        points = line.count(b".")
        if points > MOST_POINTS and not line.lstrip().startswith(b"#"):
            text = f"{points} points in one line, more than {MOST_POINTS}."
            remedy = "Write one `name = value` a line; a name of an input has no points."
            return Problem(name, number, "not-toml", path.name, text, remedy)
    return None


def quote_line(problem: Problem, path: Path) -> Problem:
    """Return a syntax problem with the words of its line, and the remedy for what stands twice."""
    if problem.code != "not-toml":
        return problem
    lines = path.read_text(encoding="utf-8-sig").split("\n")
    line = lines[problem.line - 1] if problem.line <= len(lines) else ""
    twice = problem.text.startswith("Cannot")
    remedy = "A name or a table may stand only once: remove one." if twice else problem.remedy
    text = f"{problem.text} The line reads: {show(line.strip())}"
    return replace(problem, text=text, remedy=remedy)


def read_texts(tables: dict[str, object], spec: Spec, refused: Refused) -> dict[str, str]:
    """Return title, producer and site; refuse unknown keys beside them."""
    texts: dict[str, str] = {}
    for key, value in tables.items():
        try:
            if key in TEXTS:
                texts[key] = read_label(value)
            elif key not in ("given", EXAMPLE):
                raise refuse_key(key, value, spec)
        except RefusalError as refusal:
            refused.append(((key,), refusal))
    return texts


def read_mark(value: object, refused: Refused) -> bool:
    """Return whether the file is an example; refuse what is neither true nor false."""
    if isinstance(value, bool):
        return value
    text = f"expected true or false, found {show(value)}."
    refused.append(((EXAMPLE,), RefusalError("wrong-type", text, "Write example = true.")))
    return False


def read_label(value: object) -> str:
    """Return a text for the workbook's head; refuse what cannot be printed on one line."""
    if not isinstance(value, str):
        remedy = "Write a text in quotes."
        raise RefusalError("wrong-type", f"expected a text, found {show(value)}.", remedy)
    if len(value) > LONGEST_TEXT:
        text = f"{len(value)} characters, more than {LONGEST_TEXT}: {show(value)}"
        raise RefusalError("too-long", text, "Shorten it; it stands in the head of each page.")
    for sign in value:
        if not sign.isprintable() and sign not in SPACES:
            text = f"character U+{ord(sign):04X} in {show(value)} cannot be printed."
            raise RefusalError("control-character", text, "Remove it; one line of plain text.")
    return value.strip()


def refuse_key(key: str, value: object, spec: Spec) -> RefusalError:
    """Return why a key cannot stand at the top of the file."""
    known = (*TEXTS, EXAMPLE, "given")
    if key in spec.quantities:
        text = f"stands outside [given]; found {show(value)}."
        return RefusalError("misplaced", text, "Put a line [given] above all values of inputs.")
    text = f"is unknown here; found {show(value)}.{suggest(key, known)}"
    return RefusalError("unknown-key", text, f"Known are {', '.join(known)}.")


def read_entries(given: object, spec: Spec, refused: Refused) -> dict[str, Typed]:
    """Return what was typed for each input of [given]."""
    if not isinstance(given, dict):
        text = f"expected a table, found {show(given)}."
        refusal = RefusalError("not-a-table", text, "Write [given] on a line of its own.")
        refused.append((("given",), refusal))
        return {}
    entries: dict[str, Typed] = {}
    for name, value in given.items():
        try:
            entries.update(read_today(name, value, given, spec))
        except RefusalError as refusal:
            refused.append((("given", name), refusal))
    return entries
