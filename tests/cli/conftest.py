import pytest

from builder.cli import run


@pytest.fixture
def tell(capsys):
    """Return a function that runs one command and returns code, stdout and stderr."""

    def call(*arguments):
        code = run([str(word) for word in arguments])
        told = capsys.readouterr()
        return code, told.out, told.err

    return call


@pytest.fixture
def folder(tmp_path, monkeypatch):
    """Make an empty folder the current one."""
    monkeypatch.chdir(tmp_path)
    return tmp_path


@pytest.fixture
def stub(monkeypatch):
    """Replace the production of workbooks; the list tells what was asked for."""
    asked = []

    def build_workbook(_spec, machine, lang, units):
        asked.append((machine, lang, units))
        return b"a workbook"

    def build_design(_spec, lang, units):
        return build_workbook(_spec, None, lang, units)

    monkeypatch.setattr("builder.production.build_workbook", build_workbook)
    monkeypatch.setattr("builder.production.build_design", build_design)
    return asked
