"""The method that a home file asks for: its form in the file, and what is kept of it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, Any

from pydantic import ValidatorFunctionWrapHandler, WrapValidator

from dwellcalc.placed import Text

from .refusal import single_text
from .shapes import Shape, SingleText


@dataclass(frozen=True)
class Asked:
    """The method that a home's sheet is asked for by: its name or section as written, and why, where that is said."""

    name: str
    reason: str = ""


class MethodShape(Shape):
    """The method by which the sheet is asked for, and why."""

    section: SingleText
    reason: SingleText | None = None


def _method(node: Any, handler: ValidatorFunctionWrapHandler) -> Any:
    if isinstance(node, Text):  # a text alone names it
        return MethodShape.model_construct(section=single_text(node), reason=None)
    return handler(node)


METHOD_SAID = Annotated[MethodShape, WrapValidator(_method)] | None


def asked_of(model: Any) -> Asked | None:
    """What the model of a home file asks for, or nothing."""
    said = model.method
    return None if said is None else Asked(said.section, str(said.reason or ""))
