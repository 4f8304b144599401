"""Which cases of an evidence run in the quick suite; the others run with ``-m long``."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from typing import Any

import pytest


def first_of(cases: Iterable[Any], quick: Collection[Any], mark: pytest.MarkDecorator = pytest.mark.long) -> list[Any]:
    """The cases as parameters: those of ``quick`` as they are, the others marked.

    Raises:
        AssertionError: a quick case is no case.
    """
    listed = list(cases)
    assert all(each in listed for each in quick), quick
    return [each if each in quick else pytest.param(each, marks=mark) for each in listed]
