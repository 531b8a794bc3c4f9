from collections.abc import Callable
from pathlib import Path

import pytest

from builder.spec.specification import Spec
from exchange.collected import Shelf


@pytest.fixture
def shelf(tmp_path: Path, spec: Spec) -> Shelf:
    """Return an empty folder for books that came back."""
    return Shelf(tmp_path / "in", spec)


@pytest.fixture
def write(shelf: Shelf, tmp_path: Path) -> Callable[..., Path]:
    """Return a function that writes the fleet workbook of the shelf."""
    return lambda lang="en": shelf.write(tmp_path / "fleet.xlsx", lang)
