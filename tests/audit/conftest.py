"""Audits files that a test has changed."""

from collections.abc import Callable
from pathlib import Path

import pytest

from audit.small import build_small, small_spec
from builder.audit.findings import Report
from builder.audit.report import audit_file

Audit = Callable[[bytes], Report]


@pytest.fixture
def audit(tmp_path: Path) -> Audit:
    """Return a function that audits the bytes of a small workbook."""

    def run(data: bytes, *, deep: bool = False) -> Report:
        path = tmp_path / "back.xlsx"
        path.write_bytes(data)
        return audit_file(path, small_spec(), build_small, deep)

    return run


@pytest.fixture
def fresh() -> bytes:
    """Return the small workbook as it was built."""
    return build_small("en", "metric")
