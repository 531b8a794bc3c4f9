import resource
import subprocess
import sys

import pytest

from builder.cli.commands import COMMANDS
from builder.cli.terminal import tell_work
from builder.counts import tell_count

HEAVY = {"formulas", "numpy", "openpyxl", "pandas", "pint", "scipy", "xlsxwriter"}
PROBE = """
import sys
from builder.cli import run
run(sys.argv[1:])
print(*sys.modules, file=sys.stderr)
"""


def load(*words):
    """Return the names of all modules that a command line loads."""
    command = [sys.executable, "-c", PROBE, *words]
    done = subprocess.run(command, capture_output=True, text=True, check=True)
    return set(done.stderr.split())


@pytest.mark.parametrize("words", [[], *([name] for name in COMMANDS if name != "check")])
def test_help_loads_no_library_of_calculation(words):
    loaded = load(*words, "--help")
    assert "typer" in loaded
    assert HEAVY & loaded == set()


def test_help_takes_less_than_4_tenths_of_a_second_of_processor():
    def measure():
        before = resource.getrusage(resource.RUSAGE_CHILDREN)
        subprocess.run([sys.executable, "-m", "builder", "--help"], capture_output=True, check=True)
        after = resource.getrusage(resource.RUSAGE_CHILDREN)
        return after.ru_utime - before.ru_utime + after.ru_stime - before.ru_stime

    assert min(measure() for _ in range(3)) < 0.4


def test_the_list_of_commands_gives_each_in_a_whole_sentence(tell):
    out = tell("--help")[1]
    for name, about in COMMANDS.items():
        assert f"  {name:<8} {about.summary}\n" in out


@pytest.mark.parametrize("name", COMMANDS)
def test_help_of_a_command_ends_with_lines_of_real_use(tell, name):
    code, out, err = tell(name, "--help")
    assert (code, err, out.startswith(f"Usage: rinsebook {name} ")) == (0, "", True)
    lines = out.rstrip().splitlines()
    shown = [line.strip() for line in lines[lines.index("  Examples:") + 1 :]]
    assert shown
    assert all(line.startswith(f"rinsebook {name}") for line in shown)


def test_every_example_is_a_line_that_the_program_takes(tell, monkeypatch):
    for name in COMMANDS:
        place = "builder.spec.load" if name == "check" else f"builder.cli.{name}"
        monkeypatch.setattr(f"{place}.find_specs", stop)
    monkeypatch.setattr("builder.cli.collect.demand_folder", stop)
    monkeypatch.setattr("builder.cli.build.refuse_existing", stop)
    for about in COMMANDS.values():
        for line in about.examples:
            words = line.partition(" > ")[0].split()[1:]
            assert tell(*words)[2] == "here\n", line


def stop(*_):
    """End a command whose line was understood."""
    from builder.problems import UserError

    raise UserError("here", 0)


def test_work_is_told_on_a_terminal_alone_and_wiped_out(capsys, monkeypatch):
    with tell_work("building"):
        pass
    assert capsys.readouterr().err == ""
    monkeypatch.setattr("sys.stderr.isatty", lambda: True)
    with pytest.raises(ValueError, match="no"), tell_work("building"):
        raise ValueError("no")
    assert capsys.readouterr().err == "building …\r          \r"


@pytest.mark.parametrize(
    ("number", "words", "told"),
    [
        (0, "fault", "0 faults"),
        (1, "fault", "1 fault"),
        ([1, 2], "warning", "2 warnings"),
        (2, "text on the machine", "2 texts on the machine"),
        (1, "text on the machine", "1 text on the machine"),
    ],
)
def test_one_thing_has_no_plural(number, words, told):
    assert tell_count(number, words) == told
