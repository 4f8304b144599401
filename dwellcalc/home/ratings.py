"""A rating as it is written on a nameplate, by the forms that the glossary gives."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from dwellcalc.facts import Between
from dwellcalc.glossary import Glossary
from dwellcalc.placed import Text
from dwellcalc.units import NUMBER, Kind, Units, UnknownUnit

from . import messages
from .quantities import SPREAD, decimal_comma, ranged, spelled, unknown_unit
from .refusal import Refusal
from .two_voltages import TWO_VOLTAGES

SETTING = "setting"
TYPICAL = "typical"
_FIELD = re.compile(r"\{(\w+)\}")
_FIELD_OR_TEXT = re.compile(r"\{\w+\}|[^{}]+")
_QUANTITY = rf"(?:-?[\d.][\d., /]*(?:[^\W\d_]\w*)?\s*{SPREAD}\s*)?-?[\d.][\d., /]*[^\W\d_]\w*"
OF_DEVICE = re.compile(r"\b(?:breaker|fuse|circuit|amp outlet)s?\b", re.IGNORECASE)  # of what protects it, not of the load
BETWEEN = re.compile(r"\d[^+\d]*(?:\bto\b|[-\u2013\u2026]|\.\.)\s*\d", re.IGNORECASE)


@dataclass(frozen=True)
class Form:
    """One way to write a rating: its basis, the fields that it fills with their kinds, its pattern, whether it may be zero."""

    basis: str
    text: str
    kinds: dict[str, Kind]
    pattern: re.Pattern[str]
    may_be_zero: bool

    @property
    def first(self) -> Kind:
        """The kind of the first number."""
        return next(iter(self.kinds.values()))

    @property
    def is_field(self) -> bool:
        """Whether it is a number with its unit and nothing else."""
        return _FIELD.fullmatch(self.text) is not None

    def shown(self, units: Units, first: str = "") -> str:
        """The form for a hint, with dots for the numbers; the first number may be given."""
        texts = {name: f"... {units.printed(kind)}" for name, kind in self.kinds.items()}
        if first:
            texts[next(iter(texts))] = first
        return self.text.format_map(texts)


@dataclass(frozen=True)
class Rating:
    """A rating that was read: its basis, and the value of each field that the form fills, or bounds of it."""

    text: Text
    basis: str
    values: dict[str, float | Between]


def forms_of(glossary: Glossary) -> tuple[Form, ...]:
    """The forms of a glossary, ready to match."""
    return tuple(_form(basis, text, glossary) for basis, texts in glossary.rating_forms.items() for text in texts)


def _form(basis: str, text: str, glossary: Glossary) -> Form:
    fields = glossary.collections["loads"].fields
    parts = ["".join(map(_part, _FIELD_OR_TEXT.findall(word))) for word in text.split()]
    pattern = re.compile(r"\s*" + r"\s*".join(parts) + r"\s*", re.IGNORECASE)
    filled = _FIELD.findall(text)
    may_be_zero = all(fields[name].may_be_zero for name in filled)
    return Form(basis, text, {name: fields[name].kind.unit for name in filled}, pattern, may_be_zero)


def _part(text: str) -> str:
    field = _FIELD.fullmatch(text)
    if field:
        return rf"(?P<{field[1]}>{_QUANTITY})"
    return rf"\b{re.escape(text)}\b" if text.isalnum() else re.escape(text)


def read_rating(text: Text, forms: Iterable[Form], units: Units) -> Rating:
    """The rating that a text gives.

    Raises:
        Refusal: with what is wrong.
    """
    if TWO_VOLTAGES.search(text):
        raise Refusal(messages.TWO_VOLTAGES, text, text=text)
    unknown = ""
    for form in forms:
        match = form.pattern.fullmatch(spelled(text))
        if match is None:
            continue
        try:
            values = _values(text, form, match, units)
        except UnknownUnit as error:
            unknown = str(error)
            continue
        except OverflowError:
            raise Refusal(messages.TOO_LARGE, text) from None
        if values:
            _refuse_zero(text, form, values)
            return Rating(text, form.basis, values)
    if unknown:
        raise unknown_unit(text, unknown, units, {kind for form in forms for kind in form.kinds.values()})
    raise _no_rating(text, forms, units)


def _values(text: Text, form: Form, match: re.Match[str], units: Units) -> dict[str, float | Between]:
    values = {}
    for name, kind in form.kinds.items():
        try:
            values[name], found = ranged(text, match[name], units)
        except (OverflowError, Refusal):
            raise
        except ValueError:
            return {}
        if found != kind:
            return {}
    return values


def _refuse_zero(text: Text, form: Form, values: dict[str, float | Between]) -> None:
    """A rating is more than zero; of several numbers of one kind, which are added, not all may be zero."""
    total: dict[Kind, float] = {}
    least = {name: value.low if isinstance(value, Between) else value for name, value in values.items()}
    for name, kind in form.kinds.items():
        total[kind] = total.get(kind, 0) + least[name]
    if min(least.values()) < 0 or (min(total.values()) == 0 and not form.may_be_zero):
        raise Refusal(messages.RATING_ZERO, text, text=text)


def _no_rating(text: Text, forms: Iterable[Form], units: Units) -> Refusal:
    comma, shown = decimal_comma(text), shown_forms(forms, units)
    if comma is not None:
        return comma
    example = _of_label(text, forms, units)
    if example:
        return Refusal(messages.RATING_OF_LABEL, text, text=text, example=example)
    if OF_DEVICE.search(text):
        return Refusal(messages.RATING_OF_DEVICE, text, text=text)
    if not re.search(r"\d", text) and _is_unit(text, units):
        return Refusal(messages.RATING_NO_NUMBER, text, text=text)
    try:
        kind = ranged(text, text, units)[1]
    except (ValueError, UnknownUnit, OverflowError):
        kind = None
    if kind == NUMBER:
        return Refusal(messages.RATING_NO_UNIT, text, text=text, forms=shown)
    longer = [form for form in forms if kind is not None and form.first == kind]
    if longer:
        of_device = any(form.basis == SETTING and form.first == kind for form in forms)
        told = messages.CURRENT_ALONE if of_device else messages.RATING_ALONE
        return Refusal(told, text, text=text, example=longer[0].shown(units, text))
    return Refusal(messages.RATING, text, text=text, forms=shown)


def _of_label(text: str, forms: Iterable[Form], units: Units) -> str:
    """How a rating is written that is told by a word and a number, as labels have it, without its voltage or with more beside it."""
    for form in forms:
        word = form.text.partition(" ")[0]
        match = re.search(rf"\b{re.escape(word)}\b\W*(\d[\d.]*)", text, re.IGNORECASE) if word.isalpha() else None
        if match is not None and len(form.kinds) == 2:
            return form.shown(units, f"{match[1]} {units.printed(form.first)}")
    return ""


def _is_unit(text: str, units: Units) -> bool:
    try:
        units.unit(units.other_case(text) or text)
    except UnknownUnit:
        return False
    return bool(text.strip())


def shown_forms(forms: Iterable[Form], units: Units) -> str:
    """The first form of each basis, for a hint."""
    first: dict[str, Form] = {}
    for form in forms:
        first.setdefault(form.basis, form)
    return "; ".join(f'"{form.shown(units)}"' for form in first.values())
