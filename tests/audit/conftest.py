"""Audits files that a test has changed, and builds the real workbook once a session."""

from collections.abc import Callable
from pathlib import Path

import pytest

from audit.small import build_small, small_spec
from builder.audit.findings import Report
from builder.audit.report import audit_file
from builder.exchange.demo import read_demo
from builder.production import build_workbook
from builder.spec.specification import Spec

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
def audit_real(spec: Spec, built, tmp_path: Path) -> Audit:
    """Return a function that audits the bytes of a workbook of the real specs."""

    def run(data: bytes) -> Report:
        path = tmp_path / "back.xlsx"
        path.write_bytes(data)
        return audit_file(path, spec, lambda lang, units: built[lang, units], deep=False)

    return run


@pytest.fixture
def fresh() -> bytes:
    return build_small("en", "metric")


@pytest.fixture(scope="session")
def built(spec: Spec) -> dict[tuple[str, str], bytes]:
    """Return the demo workbook by language and units."""
    pairs = (("en", "metric"), ("fr", "us"))
    return {pair: build_workbook(spec, read_demo(spec), *pair) for pair in pairs}
