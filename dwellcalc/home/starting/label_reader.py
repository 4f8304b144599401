"""Reading the words of labels in ``starter.yaml`` strictly."""

from __future__ import annotations

from collections.abc import Iterable

from dwellcalc.glossary import Glossary
from dwellcalc.home.models import Models, models_for
from dwellcalc.language.document_form import FormReader
from dwellcalc.placed import Mapping, Node, Text, as_mapping, as_text, key
from dwellcalc.problems import Problems

from .label_words import LabelWords, TwoCurrents

CHOICES = "beside_choices"
AROUND, SIZES, SAYS, NOMINAL, NUMBERS = "around_numbers", "sizes", "says", "nominal", "numbers"
FRACTIONS, OF_KINDS = "fractions", "bounds_of_kinds"
KEYS, TWO_CURRENTS, ONE_OF_TWO, BESIDE, FORMS, EVIDENCE = (
    "labels",
    "two_currents",
    "one_of_two",
    "beside",
    "forms",
    "evidence_words",
)
BESIDE_LOADS, SENTENCES = "beside_loads", "sentences"
LABEL_KEYS = (
    *(KEYS, TWO_CURRENTS, ONE_OF_TWO, BESIDE, BESIDE_LOADS, FORMS, EVIDENCE, CHOICES, AROUND, SIZES, NOMINAL, NUMBERS),
    *(FRACTIONS, OF_KINDS, SENTENCES),
)
OF_CURRENTS, OF_ELEMENTS, OF_CHOICES = (
    ("first", "second", "writes"),
    ("says", "names", "of_all"),
    ("fillers", "later", "times", "ends", "whens", "conditions", "ordinals"),
)
OF_SENTENCES = (
    "denies",
    "affirms",
    "passed",
    "places",
    "free",
    "floors",
    "which_floor",
    "thinks_so",
    "doubts",
    "alters",
    "alters_rating",
    "passed_units",
    "years_after",
)
OF_LOADS = ("dwelling_units", "loads")


class LabelReader(FormReader):
    """Reads what ``starter.yaml`` says of labels."""

    def __init__(self, problems: Problems, glossary: Glossary) -> None:
        super().__init__(problems)
        self.glossary = glossary
        self.models: Models = models_for(glossary)

    def label_words(self, node: Mapping) -> LabelWords:
        """The words of labels; what is wrong is noted."""
        elements = as_mapping(node.get(key(ONE_OF_TWO), Mapping()), ONE_OF_TWO, self.problems)
        self.keys(elements, OF_ELEMENTS, ONE_OF_TWO)
        says, names, of_all = (self.words(elements.get(key(name))) for name in OF_ELEMENTS)
        beside = as_mapping(node.get(key(CHOICES), Mapping()), CHOICES, self.problems)
        self.keys(beside, OF_CHOICES, CHOICES)
        of_choices = {name: self.words(beside.get(key(name))) for name in OF_CHOICES}
        sentences = as_mapping(node.get(key(SENTENCES), Mapping()), SENTENCES, self.problems)
        self.keys(sentences, OF_SENTENCES, SENTENCES)
        sizes = plain_entry(self.entry(node.get(key(SIZES)), SIZES))
        keys, evidence = self.by_word(node, KEYS), self.by_word(node, EVIDENCE)
        for name in keys:
            self.path(name, OF_LOADS)
        for name in evidence:
            self.word(name, self.glossary.evidence)
        return LabelWords(
            keys=_by_text(keys),
            two_currents=tuple(self.two_currents(each) for each in self.listed(node, TWO_CURRENTS)),
            one_of_two=says,
            elements=names,
            of_all=of_all,
            beside=self.words(node.get(key(BESIDE))),
            beside_loads=self.words(node.get(key(BESIDE_LOADS))),
            forms=plain_entry(self.entry(node.get(key(FORMS)), FORMS)),
            evidence=_by_text(evidence),
            **of_choices,
            around=self.words(node.get(key(AROUND))),
            numbers=self.words(node.get(key(NUMBERS))),
            of_kinds=self.of_kinds(node),
            fractions=plain_entry(self.entry(node.get(key(FRACTIONS)), FRACTIONS)),
            sizes_say=sizes.pop(SAYS, ""),
            sizes=sizes,
            nominal=_by_text(self.by_word(node, NOMINAL)),
            **{name: self.words(sentences.get(key(name))) for name in OF_SENTENCES},
        )

    def of_kinds(self, node: Mapping) -> dict[str, str]:
        """Bounds by the kind of load; kinds that are not known are noted."""
        found = self.entry(node.get(key(OF_KINDS)), OF_KINDS)
        for name in found:
            self.word(name, self.glossary.load_kinds)
        return plain_entry(found)

    def two_currents(self, node: Mapping) -> TwoCurrents:
        """The words for two currents, and the rating that they make."""
        self.keys(node, OF_CURRENTS, TWO_CURRENTS)
        first, second = (self.words(self.need(node, name, TWO_CURRENTS)) for name in OF_CURRENTS[:2])
        return TwoCurrents(first, second, str(self.text(node, OF_CURRENTS[2], TWO_CURRENTS)))

    def by_word(self, node: Mapping, name: str) -> dict[Text, tuple[str, ...]]:
        """Keys with lists of words."""
        found = as_mapping(node.get(key(name), Mapping()), name, self.problems)
        return {word: self.words(others) for word, others in found.items()}

    def words(self, node: Node | None) -> tuple[str, ...]:
        """A list of words."""
        return tuple(map(str, self.texts(node)))

    def entry(self, node: Node | None, what: str) -> Mapping:
        """Keys with texts, or none."""
        made = Mapping()
        if node is None:
            return made
        found = as_mapping(node, what, self.problems)
        made.place = found.place
        for name, value in found.items():
            made[name] = as_text(value, name, self.problems)
        return made

    def path(self, name: Text, above: tuple[str, ...]) -> None:
        """Refuse a key that a home file does not have there."""
        known = [each.replace("_", " ") for each in self.models.keys.get(above, ())]
        if str(name).replace("_", " ") not in known:
            self.word(name, known)


def plain_entry(node: Iterable[str]) -> dict[str, str]:
    """Keys with texts, without their places."""
    assert isinstance(node, dict)
    return {str(name): str(value) for name, value in node.items()}


def _by_text(found: dict[Text, tuple[str, ...]]) -> dict[str, tuple[str, ...]]:
    return {str(name): words for name, words in found.items()}
