"""Figures that stand in labels where the cells beside them are blank: ratings, areas, and how many there are."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from math import isclose

from dwellcalc.glossary import Glossary
from dwellcalc.home.models import models_for
from dwellcalc.home.ratings import OF_DEVICE, forms_of, read_rating
from dwellcalc.home.refusal import Refusal
from dwellcalc.home.starting.label_forms import LabelForms
from dwellcalc.home.starting.question_reader import read_starter
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.placed import Text, text_at
from dwellcalc.problems import InputError
from dwellcalc.units import Kind, UnknownUnit

PIECE = re.compile(r"(?:[^\s()\[\];,]|(?<=\d),(?=\d))+")
AT_VOLTS = re.compile(r"(?P<rest>.*?[\d\w])\s*(?:@|/|,|\bat\b)?\s*(?<![\d.])(?P<volts>\d[\d.]*)\s*V(?:AC|olts?)?", re.IGNORECASE)
VOLTS_FIRST = re.compile(r"(?P<volts>\d[\d.]*)\s*V(?:AC|olts?)?[\s,/]+(?P<rest>\d.*)", re.IGNORECASE)
BARE = re.compile(r".*[\d.]")
DIGIT = re.compile(r"\d")
VOLTS = re.compile(r"(?<![\w.,/-])(\d{3})\s*V(?:AC|olts?)?\b", re.IGNORECASE)
AT_OWN = re.compile(r"\s*(?:@|,|\bat\b)?\s*(?<![\w.,/-])\d{3}\s*V(?:AC|olts?)?\b", re.IGNORECASE)
CURRENT = re.compile(r"(?<![\w.,/-])(\d+(?:\.\d+)?)\s*A(?:mps?)?\b(?!\s*(?:ckt|circuit|breaker))", re.IGNORECASE)
DEVICE = re.compile(  # with its size, such as ` on 40 A 2P breaker`, or ` (breaker 40 A)`
    r"[\s,;(]*(?:\b(?:on|with|w/)\s+)?(?:\ban?\s+)?(?:(?<![\w.,/-])\d+\s*(?:A(?:mps?)?|-?amp)?(?:\s*/?\s*\d\s*-?P(?:ole)?|/[12])?\s*"
    r"(?:breaker|bkr|fuse|circuit|ckt|CB)s?\b|\b(?:breaker|bkr|fuse|circuit|ckt|CB)\s*:?\s*\d+\s*A(?:mps?)?\b)\)?",
    re.IGNORECASE,
)
AMOUNT = re.compile(r"(?<![\w.,/-])\d[\d,]*(?:\.\d+)?\s*(?:k?W|k?VA|watts?|hp|A(?:mps?)?)\b", re.IGNORECASE)
BEHIND_ITS_NAME = re.compile(
    r"(?<![\w.,/-])(?:RLA|FLA|rated load amps)[\s:=]*(\d+(?:\.\d+)?)(?![\d.]|\s*(?:A|amps?|@|/|at|V)\b)", re.IGNORECASE
)
WORKED_OUT = re.compile(
    r"(?<![\w.,/-])(\d+(?:\.\d+)?)\s*A(?:mps?)?\s*[x\u00d7*]\s*(\d{3})(?:\s*V(?:AC|olts?)?)?(?![\w%.,])", re.IGNORECASE
)
ADDED = re.compile(r"\+\s*\d")  # a further number that is added: the current is not the whole of it
WORDS = re.compile(r"(?<![{\w])[A-Za-z]{2,}(?![}\w])")
PLUS, EQUALS = "+", "="
SUMMED = re.compile(r"[+=]")
BARE_VOLTS = (  # a voltage without its unit behind a current or a power: 24.2 MCA @ 240, 40 A/240, MCA 24.2 at 240/1
    r"(?P<rating>\d\s*(?:A|amps?|amperes?|MCA|RLA|FLA|fan|k?W|watts?|k?VA|hp)\.?|\b(?:MCA|RLA|FLA|fan)\s*\d[\d.]*)\s*(?:@|\bat\b|/|,|(?<=\s))"
    r"\s*(?P<volts>{volts})(?:/1(?:/60)?|[\s-]*1[\s-]*ph\w*)?(?![\w%]|[.,/]\d|\s*(?:V\b|volt|%))"
)
MOTOR = re.compile(r"(?<![\w.,/-])\d+(?:[.-]\d+)?(?:/\d+)?\s*hp\b", re.IGNORECASE)


def without_device(label: Text) -> Text:
    """A label without the device that protects the load, where it gives a current or a power beside that; else as it is."""
    rest = DEVICE.sub("", label)
    rest += ")" * (rest.count("(") - rest.count(")"))
    return text_at(rest, label) if AMOUNT.search(rest) is not None and OF_DEVICE.search(rest) is None else label


class LabelFigures:
    """Reads the figures of labels.

    Args:
        rules: the rule set, whose folder holds the words of labels.
        counted: words that stand behind a number of circuits.
        volts: voltages that are written without their unit.
    """

    def __init__(self, rules: RuleSet, counted: Iterable[str] = (), volts: Iterable[str] = ()) -> None:
        self.glossary: Glossary = rules.glossary
        self.forms = forms_of(rules.glossary)
        self.unit = self.glossary.units.printed(models_for(self.glossary).vocabulary.rating_unit)
        self.labels = _label_forms(rules)
        self.bare_volts = re.compile(BARE_VOLTS.format(volts="|".join(volts) or "(?!)"), re.IGNORECASE)
        words = "|".join(re.escape(each) + "s?" for each in counted) or "(?!)"
        self.numbers = (
            re.compile(r"\((?P<number>\d{1,2})\)"),
            re.compile(r"(?<![\w.,/])(?P<number>\d{1,2})\s*(?:[x\u00d7]\s*(?=\d)|ea\b|each\b)", re.IGNORECASE),
            re.compile(
                r"(?<![\w.,/])(?P<number>\d{1,2})\s*(?:@|\bat\b)\s*(?=\d[\d.,]*\s*(?:k?W|k?VA|watts?|A|amps?)\b)", re.IGNORECASE
            ),
            re.compile(r"(?:\bqty\.?|[x\u00d7])\s*(?P<number>\d{1,2})(?![\w.,]|\s*(?:%|percent\b))", re.IGNORECASE),
            re.compile(rf"(?<![\w.,/])(?P<number>\d{{1,2}})\s*(?:{words})\b", re.IGNORECASE),
        )

    def with_volts(self, label: Text) -> Text:
        """A label with the unit of a voltage that it writes without."""
        return text_at(self.bare_volts.sub(r"\g<rating> @ \g<volts> V", label), label)

    def rating(self, label: Text) -> Text | None:
        """The rating that a label gives in a form of a home file; nothing where it gives none, or two of equal standing."""
        if OF_DEVICE.search(label):
            return None
        longest, found = 0, dict[str, bool]()
        for pieces, part in _parts(label):
            if pieces < longest:
                break
            read = self._rating(text_at(part, label))
            if read is not None:
                longest = pieces
                found[read] = part.count("(") == part.count(")")
        if ADDED.search(label) and not any(PLUS in each for each in found):  # 1.2 kW + 3/4 hp: one of two is not the whole
            return None
        whole = [each for each, is_whole in found.items() if is_whole]  # rather than one that ends within brackets
        if len(whole) == 1:
            return text_at(whole[0], label)
        return text_at(next(iter(found)), label) if len(found) == 1 else None

    def gives_a_rating(self, label: Text) -> bool:
        """Whether a label gives a rating, or several of equal standing."""
        return not OF_DEVICE.search(label) and any(self._rating(text_at(part, label)) is not None for _, part in _parts(label))

    def marked(self, markings: Iterable[str], label: Text, volts: str) -> Text | None:
        """The rating that a marking is, at the voltage that its label gives, or else at the one given; a device's is none."""
        own = VOLTS.findall(label)
        at = f"{own[0]} V" if len(own) == 1 else "" if own else volts
        read = self._first([f"{each} at {at}" for each in markings], label) if at else None
        return None if read is None else text_at(read, label)

    def _first(self, texts: Iterable[str], label: Text) -> str | None:
        return next((each for each in texts if self.is_rating(text_at(each, label))), None)

    def of_several(self, label: Text, volts: str) -> Text | None:
        """The rating of a label with words behind its currents, such as 18.6 A RLA + 1.2 fan, at its own voltage or else at one."""
        own = VOLTS.findall(label)
        at = f"{own[0]} V" if len(own) == 1 else volts
        plain = turned = AT_OWN.sub("", label)
        for word in {word for form in self.forms for word in WORDS.findall(form.text)}:
            turned = re.sub(rf"(?<![\w.])(\d+(?:\.\d+)?)\s*A?\s*{word}\b", rf"{word} \1 {self.unit}", turned, flags=re.IGNORECASE)
        parts = (part for _, part in _parts(turned) if PLUS in part)
        found = (text_at(f"{part} at {at}", label) for part in parts)
        return next((each for each in found if self.is_rating(each)), None) if turned != plain and len(own) < 2 else None

    def current(self, label: Text) -> str:
        """The one current that a label gives, without its unit, where it gives no voltage; else an empty string."""
        found = CURRENT.findall(label) + BEHIND_ITS_NAME.findall(label)  # RLA 17.5
        return found[0] if len(found) == 1 and not ADDED.search(label) and not OF_DEVICE.search(label) else ""

    def worked_out(self, label: Text, claimed: float | None) -> Text | None:
        """The current at a voltage of which a label works out a figure, such as 16A x 240 beside MCA 18; nothing of another figure.

        Args:
            label: of the row.
            claimed: the figure of the row [VA].
        """
        found = {match.groups() for match in WORKED_OUT.finditer(label)}
        fitting = [(current, volts) for current, volts in found if claimed == float(current) * float(volts)]
        return text_at(f"{fitting[0][0]} {self.unit} at {fitting[0][1]} V", label) if len(fitting) == 1 else None

    def of_motor(self, label: Text, volts: str) -> Text | None:
        """The rating of a motor whose label gives its power and no voltage, at one; nothing of a label that gives none, or two."""
        found = {match[0] for match in MOTOR.finditer(label)}
        texts = [text_at(f"{each} at {volts}", label) for each in found]
        is_one = len(texts) == 1 and not VOLTS.search(label) and not ADDED.search(label)
        return texts[0] if is_one and self.is_rating(texts[0]) else None

    def _rating(self, part: Text) -> str | None:
        of_label = self.labels.read(part) if self.labels is not None else None
        candidates = [part, *self._at_volts(part), *([of_label.text] if of_label is not None else [])]
        return next((each for each in candidates if self.is_rating(text_at(each, part))), None)

    def _at_volts(self, part: str) -> Iterator[str]:
        """The forms with a voltage that a part may be meant for; a number without a unit before a voltage is of amperes."""
        for pattern in (AT_VOLTS, VOLTS_FIRST):
            match = pattern.fullmatch(part)
            if match is not None:
                rest = f"{match['rest']} {self.unit}" if BARE.fullmatch(match["rest"]) else match["rest"]
                yield f"{rest} at {match['volts']} V"

    def is_rating(self, text: Text) -> bool:
        """Whether a text is a rating in a form of a home file."""
        try:
            read_rating(text, self.forms, self.glossary.units)
        except (Refusal, InputError, UnknownUnit, ValueError, OverflowError):
            return False
        return True

    def area(self, label: Text, kind: Kind) -> Text | None:
        """The area in a label, in a unit of its own, which may stand in capitals: of several the first, or what they add up to.

        They add up where the last is the sum of those before it, or a plus stands between them.
        """
        found = [part for each in SUMMED.split(label) if (part := self._area(text_at(each, label), kind)) is not None]
        values = [self.glossary.units.converted(each, kind) for each in found]
        if len(found) > 1 and isclose(values[-1], sum(values[:-1])):
            return found[-1]
        unit = self.glossary.units.printed(kind)
        return text_at(f"{sum(values):g} {unit}", label) if len(found) > 1 and EQUALS not in label else self._area(label, kind)

    def _area(self, label: Text, kind: Kind) -> Text | None:
        for each in (each for _, part in _parts(label) for each in (part, part.lower())):
            try:
                self.glossary.units.converted(text_at(each, label), kind)
            except (UnknownUnit, ValueError):
                continue
            return text_at(each, label)
        return None

    def number(self, label: Text) -> Text | None:
        """How many a label says that there are."""
        found = (pattern.search(label) for pattern in self.numbers)
        return next((text_at(match["number"], label) for match in found if match is not None), None)


def _parts(label: str) -> Iterator[tuple[int, str]]:
    """Every run of the pieces of a label that holds a number, the longest first, each with how many pieces it has."""
    pieces = list(PIECE.finditer(label))
    for length in range(len(pieces), 0, -1):
        for start in range(len(pieces) - length + 1):
            part = label[pieces[start].start() : pieces[start + length - 1].end()].strip(" ,;:-")
            if DIGIT.search(part):
                yield length, part


def _label_forms(rules: RuleSet) -> LabelForms | None:
    """The forms of labels, read once for a rule set, or nothing where that holds no words for them."""
    if LabelForms.__name__ not in rules.kept:
        try:
            rules.kept[LabelForms.__name__] = LabelForms(read_starter(rules.folder, rules.glossary).words, rules.glossary)
        except InputError:
            rules.kept[LabelForms.__name__] = None
    found = rules.kept[LabelForms.__name__]
    return found if isinstance(found, LabelForms) else None
