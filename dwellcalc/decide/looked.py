"""Whether a condition that is met was looked at, or is met only because what it asks about is not given."""

from __future__ import annotations

from collections.abc import Callable

from dwellcalc.language.nodes import Asked, Joined, Negation, ReadObject, Tree

Holds = Callable[[Tree], bool]


def not_given(met: Tree, holds: Holds) -> list[ReadObject]:
    """The fields for lack of which alone a condition is met; nothing where something was looked at.

    Args:
        met: a condition that is met, such as `not known(rating) or load <= rating`.
        holds: whether a part of it is met.
    """
    if isinstance(met, Negation) and isinstance(met.inner, Asked):
        return [met.inner.read] if isinstance(met.inner.read, ReadObject) else []
    if not isinstance(met, Joined):
        return []
    found = [not_given(part, holds) for part in met.parts if met.word != "or" or holds(part)]
    return [field for fields in found for field in fields] if all(found) else []
