"""Builds the workbooks once a session, and starts each engine once."""

from collections.abc import Callable, Iterator
from functools import cache
from pathlib import Path

import pytest

from builder.exchange.demo import read_demo
from builder.exchange.machine import Machine
from builder.production import build_workbook, shorten
from builder.spec.load import find_specs, load_spec
from builder.spec.specification import Spec
from workbook.engines import FormulasByForm, Ironcalc, Office
from workbook.files import File, read_file
from workbook.pseudo import write_specs

LONGEST, ROWS_KEPT = 16, 6

Books = Callable[[str], File]


@pytest.fixture(scope="session")
def short_spec(spec: Spec) -> Spec:
    return shorten(spec, LONGEST, ROWS_KEPT)


@pytest.fixture(scope="session")
def books(spec: Spec, tmp_path_factory: pytest.TempPathFactory) -> Books:
    return keep_books(spec, tmp_path_factory.mktemp("books"))


@pytest.fixture(scope="session")
def demo_books(spec: Spec, tmp_path_factory: pytest.TempPathFactory) -> Books:
    return keep_books(spec, tmp_path_factory.mktemp("demo_books"), read_demo(spec))


@pytest.fixture(scope="session")
def short_books(short_spec: Spec, tmp_path_factory: pytest.TempPathFactory) -> Books:
    return keep_books(short_spec, tmp_path_factory.mktemp("short"))


@pytest.fixture(scope="session")
def pseudo_spec(spec: Spec, tmp_path_factory: pytest.TempPathFactory) -> Spec:
    """Return the specs with a made-up language beside the others."""
    folder = tmp_path_factory.mktemp("pseudo") / "specs"
    return load_spec(write_specs(find_specs(), folder, spec))


@pytest.fixture(scope="session")
def pseudo_books(pseudo_spec: Spec, tmp_path_factory: pytest.TempPathFactory) -> Books:
    return keep_books(pseudo_spec, tmp_path_factory.mktemp("pseudo_books"))


@pytest.fixture(scope="session")
def short_pseudo_books(pseudo_spec: Spec, tmp_path_factory: pytest.TempPathFactory) -> Books:
    """Return a function that gives the workbook of those specs with long grids cut."""
    return keep_books(shorten(pseudo_spec), tmp_path_factory.mktemp("short_pseudo"))


@pytest.fixture(scope="session")
def shortest_book(spec: Spec, tmp_path_factory: pytest.TempPathFactory) -> File:
    """Return the workbook with two rows in each grid."""
    return keep_books(shorten(spec, 2, 2), tmp_path_factory.mktemp("shortest"))("en")


def keep_books(spec: Spec, folder: Path, machine: Machine | None = None) -> Books:
    """Return a function that builds a workbook of a machine once in each language."""

    @cache
    def build(lang: str) -> File:
        path = folder / f"book_{lang}.xlsx"
        path.write_bytes(build_workbook(spec, machine or Machine(), lang, "metric"))
        return read_file(path)

    return build


@pytest.fixture(scope="session")
def fast(short_books: Books) -> Ironcalc:
    return Ironcalc(short_books("en"))


@pytest.fixture(scope="session")
def slow(short_books: Books) -> Callable[[str], FormulasByForm]:
    """Return a function that gives the slower engine with the short workbook in a language."""
    return cache(lambda lang: FormulasByForm(short_books(lang)))


@pytest.fixture(scope="session")
def office() -> Iterator[Office]:
    with Office() as program:
        yield program
