"""Options of the whole test run."""

from __future__ import annotations

import gc

import pytest
from commands import file, run
from loaded_once import own_rules_loaded_once

__all__ = ["file", "own_rules_loaded_once", "run"]  # fixtures of every test

# Rules and sheets are trees of many small objects that live as long as the run, and going through them is a quarter of its time.
gc.set_threshold(50_000, 50, 100)


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption(
        "--rewrite-expected",
        action="store_true",
        help="write the texts that the package gives now into tests/bad, so that the difference is read in review",
    )


@pytest.fixture(scope="session")
def rewrite_expected(request: pytest.FixtureRequest) -> bool:
    return bool(request.config.getoption("--rewrite-expected"))
