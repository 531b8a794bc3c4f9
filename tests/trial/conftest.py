"""One short workbook for all tests that play a season."""

import pytest

from trial.seasons import Book


@pytest.fixture(scope="session")
def book():
    return Book()
