"""Reads the file of a story: what is given, its rows, and what it expects."""

from dataclasses import dataclass, field
from datetime import date, timedelta
from pathlib import Path

from builder.problems import EXIT_FILE, Problem, ProblemsError, UserError, suggest
from builder.spec.positions import Positions, parse_toml
from builder.spec.records import Choice, Input
from builder.spec.specification import Spec
from builder.spec.stories import EVENT, Answer, StoryWords

Row = dict[str, object]
KEYS = ("title", "given", "row", "repeat", "expect")
UNITS, LINES = "units", "in_force"
REPEAT = {"times": 1, "step_days": 0}
RECORD, WITHIN = "record", "within"
PLAIN = (int, float, str, date)
REMEDY = "Correct the story; specs/replay.toml says what its words stand for."


@dataclass(frozen=True, slots=True)
class Story:
    """A story in its own words; `rows` are all rows, repeated ones too."""

    path: str
    title: str
    given: Row = field(default_factory=dict)
    rows: list[Row] = field(default_factory=list)
    expect: Row = field(default_factory=dict)


def read_stories(paths: list[Path], spec: Spec) -> list[Story]:
    """Return the stories of files; raise ProblemsError with all that is wrong in any."""
    readers = [StoryReader(path, spec) for path in paths]
    stories = [reader.read() for reader in readers]
    if problems := [problem for reader in readers for problem in reader.problems]:
        raise ProblemsError(problems)
    return stories


def demand_words(spec: Spec) -> StoryWords:
    """Return what the words of stories stand for; the specs have it."""
    if spec.stories is None:
        raise UserError("specs/replay.toml is missing. Put it back.", EXIT_FILE)
    return spec.stories


class StoryReader:
    """One file and what is wrong with it."""

    def __init__(self, path: Path, spec: Spec) -> None:
        """Keep the path; nothing is read yet."""
        self.path, self.spec, self.words = path, spec, demand_words(spec)
        self.problems: list[Problem] = []
        self.positions = Positions("")

    def read(self) -> Story:
        """Return the story, after noting all that is wrong in it."""
        tables = self.parse()
        self.check_keys(tables, KEYS)
        given = self.read_table(tables.get("given", {}), "given")
        self.check_given(given)
        rows = [self.read_row(row, n) for n, row in enumerate(self.read_list(tables, "row"))]
        rows = self.repeat(rows, self.read_table(tables.get("repeat", {}), "repeat"))
        expect = self.read_table(tables.get("expect", {}), "expect")
        self.check_expected(expect, len(rows))
        title = tables.get("title", "")
        if not isinstance(title, str):
            self.report(f"expected a text, found {title!r}.", "title")
        return Story(str(self.path), str(title), given, rows, expect)

    def parse(self) -> Row:
        """Return the tables of the file."""
        try:
            tables, self.positions, found = parse_toml(self.path, str(self.path))
        except OSError as error:
            message = f"{self.path} cannot be read: {error.strerror}. Give the path of a story."
            raise UserError(message, EXIT_FILE) from error
        self.problems += found
        return tables

    def report(self, text: str, *keys: str) -> None:
        """Note what is wrong at the line of a key."""
        line, name = self.positions.line(*keys), keys[-1] if keys else self.path.name
        self.problems.append(Problem(str(self.path), line, "bad-story", name, text, REMEDY))

    def check_keys(self, table: Row, known: object, *keys: str) -> None:
        """Note each key that is none of the known ones."""
        names = [str(name) for name in known] if hasattr(known, "__iter__") else []
        for key in table:
            if key not in names:
                self.report(f"is unknown here.{suggest(key, names)}", *keys, key)

    def read_table(self, value: object, *keys: str) -> Row:
        """Return a table; note anything else."""
        if isinstance(value, dict):
            return value
        self.report(f"expected a table, found {value!r}.", *keys)
        return {}

    def read_list(self, table: Row, *keys: str) -> list[Row]:
        """Return the tables of a list; note anything else."""
        value = table.get(keys[-1], [])
        if isinstance(value, list):
            return [self.read_table(item, *keys, str(n)) for n, item in enumerate(value)]
        self.report(f"expected [[{keys[-1]}]], found {value!r}.", *keys)
        return []

    def check_given(self, given: Row) -> None:
        """Note facts that nothing stands for."""
        typed = [n for n, q in self.spec.quantities.items() if isinstance(q, Input | Choice)]
        self.check_keys(given, [*self.words.given, UNITS, LINES, *typed], "given")
        self.check_units(given, "given")
        for key, value in given.items():
            if key in (UNITS, LINES):
                continue
            self.check_plain(value, "given", key)
            target = self.words.given.get(key)
            if target and target.words and value not in target.words:
                near = suggest(str(value), target.words)
                self.report(f"{value!r} is none of {', '.join(target.words)}.{near}", "given", key)
        for number, line in enumerate(self.read_list(given, "given", LINES)):
            keys = ("given", LINES, str(number))
            self.check_keys(line, [*self.words.lines.columns, UNITS], *keys)
            self.check_units(line, *keys)
            for key in line.keys() - {UNITS}:
                self.check_plain(line[key], *keys, key)

    def check_units(self, table: Row, *keys: str) -> None:
        """Note units that no line can have."""
        units = self.read_table(table.get(UNITS, {}), *keys, UNITS)
        self.check_keys(units, self.words.units, *keys, UNITS)
        for key, unit in units.items():
            measure = self.words.units.get(key)
            options = (
                getattr(self.spec.quantities.get(measure.column), "options", {}) if measure else {}
            )
            if measure and unit not in options:
                self.report(f"{unit!r} is none of {', '.join(options)}.", *keys, UNITS, key)

    def check_plain(self, value: object, *keys: str) -> None:
        """Note what cannot stand in a cell."""
        if not isinstance(value, PLAIN) or isinstance(value, bool):
            self.report(f"expected a number, a text or a date, found {value!r}.", *keys)

    def read_row(self, row: Row, number: int) -> Row:
        """Return a row, with the sound values of its event for what it does not say."""
        self.check_keys(row, self.words.rows.columns, "row", str(number))
        for key, value in row.items():
            self.check_plain(value, "row", str(number), key)
        event = self.words.events.get(str(row.get(EVENT)))
        return {**(event.sound if event else {}), **row}

    def repeat(self, rows: list[Row], repeat: Row) -> list[Row]:
        """Return the rows as many times as the story says, each time some days later."""
        self.check_keys(repeat, REPEAT, "repeat")
        numbers: list[int] = []
        for key, usual in REPEAT.items():
            value = repeat.get(key, usual)
            if type(value) is int and value >= 0:
                numbers.append(value)
            else:
                self.report(f"expected a whole number, found {value!r}.", "repeat", key)
        if len(numbers) < len(REPEAT):
            return rows
        times, days = numbers
        return [move(row, n * days) for n in range(times) for row in rows]

    def check_expected(self, expect: Row, rows: int) -> None:
        """Note expectations that are no answers, or that have not one item a row."""
        answers = {**self.words.told, **self.words.asked}
        self.check_keys(expect, [*answers, RECORD, WITHIN], "expect")
        for key in expect.keys() & answers.keys():
            self.check_answer(answers[key], expect[key], rows, "expect", key)
        for number, line in enumerate(self.read_list(expect, "expect", RECORD)):
            keys = ("expect", RECORD, str(number))
            self.check_keys(line, self.words.record, *keys)
            for key in line.keys() & self.words.record.keys():
                self.check_word(self.words.record[key], line[key], *keys, key)
        if WITHIN in expect and not isinstance(expect[WITHIN], int | float):
            self.report(f"expected a number, found {expect[WITHIN]!r}.", "expect", WITHIN)

    def check_answer(self, answer: Answer, value: object, rows: int, *keys: str) -> None:
        """Note an expectation of another shape than its answer, or in unknown words."""
        if not answer.by_row:
            self.check_word(answer, value, *keys)
        elif not isinstance(value, list):
            self.report(f"expected a list, found {value!r}.", *keys)
        elif len(value) != rows:
            self.report(f"has {len(value)} items for {rows} rows.", *keys)
        else:
            for item in value:
                self.check_word(answer, item, *keys)

    def check_word(self, answer: Answer, value: object, *keys: str) -> None:
        """Note a word that an answer never gives."""
        words = [*answer.words, *answer.codes.values()]
        if words and value not in ("", *words):
            near = suggest(str(value), words)
            self.report(f"{value!r} is no answer of specs/replay.toml.{near}", *keys)


def move(row: Row, days: int) -> Row:
    """Return a row some days later."""
    later = timedelta(days=days)
    return {key: value + later if isinstance(value, date) else value for key, value in row.items()}
