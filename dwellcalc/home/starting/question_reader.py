"""Reading ``starter.yaml`` strictly: kinds of load, keys of the home file, questions and words must exist."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from dwellcalc.glossary import YES, Glossary
from dwellcalc.home.glossary_names import SOURCES
from dwellcalc.home.names import shown_kind
from dwellcalc.language.rule_files import rule_files
from dwellcalc.placed import Mapping, Node, Text, as_mapping, as_text, key
from dwellcalc.problems import Problem, Problems, fail, message

from .label_reader import LabelReader, plain_entry
from .question_keys import (
    CHOICE_KEYS,
    HEADS,
    PARTS,
    QUESTION_KEYS,
    QUESTION_TEXTS,
    STARTER_KEYS,
    STATION_KEYS,
    WITH_NAME,
    WORK_KEYS,
)
from .questions import CHOICES, DETAIL, FORMS, KEY, NONE, OTHERWISE, STATES, Choice, Conditions, Question, Work
from .starter import Starter, Station

FILE = "starter.yaml"
STARTER_FORM = message(
    "starter_form", 'the question "{name}" does not say in one way where its answer goes', "one of: {known}, or `choices` alone"
)
STARTER_TWICE = message("starter_twice", 'the question "{name}" stands twice', "give one of them another name")
NO_STARTER = message("no_starter", 'the rules in "{folder}" hold no questions to begin with', "they stand in starter.yaml")


def read_starter(folder: Path | None, glossary: Glossary) -> Starter:
    """The questions of a folder of rules, or of the package's own.

    Raises:
        InputError: there are none, or the file breaks the form.
    """
    files = rule_files(folder)
    if not (files.folder / FILE).is_file():
        fail(NO_STARTER, folder=files.folder)
    found = _StarterReader(files.problems, glossary).read(files.node(FILE))
    files.problems.raise_if_any()
    return found


def check_starter(folder: Path | None, glossary: Glossary) -> list[Problem]:
    """What is wrong in the questions of a folder of rules; nothing where it holds none."""
    files = rule_files(folder)
    if (files.folder / FILE).is_file():
        _StarterReader(files.problems, glossary).read(files.node(FILE))
    return files.problems.found


class _StarterReader(LabelReader):
    def __init__(self, problems: Problems, glossary: Glossary) -> None:
        super().__init__(problems, glossary)
        self.works: dict[str, Work] = {}
        self.known: dict[str, Question] = {}

    def read(self, node: Mapping) -> Starter:
        """The whole file; what is wrong is noted."""
        self.keys(node, STARTER_KEYS, "a file of first questions")
        for word, entry in as_mapping(self.need(node, "works", "file"), "works", self.problems).items():
            self.works[str(word)] = self.work(word, as_mapping(entry, word, self.problems))
        stations = [
            self.station(name, as_mapping(entry, name, self.problems))
            for name, entry in as_mapping(self.need(node, "stations", "file"), "stations", self.problems).items()
        ]
        explains = self.entry(node.get(key("explains")), "explains")
        self.keys(explains, PARTS, "explains")
        bounds = str(self.optional(node, "bounds") or "")
        return Starter(self.works, tuple(stations), plain_entry(explains), self.label_words(node), bounds)

    def work(self, word: Text, node: Mapping) -> Work:
        """A kind of work."""
        self.keys(node, WORK_KEYS, "a kind of work")
        sets = self.entry(node.get(key("sets")), "sets")
        for name in sets:
            self.path(name, ())
        return Work(
            str(word),
            str(self.text(node, "title", "kind of work")),
            plain_entry(sets),
            _yes(node, "several_units"),
            _yes(node, "drawn"),
            *(self.words(node.get(key(each))) for each in WORK_KEYS[-2:]),
        )

    def station(self, name: Text, node: Mapping) -> Station:
        """A station with its questions."""
        self.check_id(name)
        self.keys(node, STATION_KEYS, "a station")
        questions = []
        for each, entry in as_mapping(self.need(node, "questions", "station"), "questions", self.problems).items():
            self.check_id(each)
            if each in self.known:
                self.problems.add(STARTER_TWICE, each.place, name=each)
            made = self.question(each, as_mapping(entry, each, self.problems))
            self.known[str(each)] = made
            questions.append(made)
        title = str(self.text(node, "title", "station"))
        works = tuple(str(self.word(each, self.works)) for each in self.texts(node.get(key("works"))))
        places = ("each" in node, "of" in node, "units" in node)
        return Station(str(name), title, *places, tuple(questions), works, str(self.optional(node, "before") or ""))

    def question(self, name: Text, node: Mapping) -> Question:
        """A question; what it refers to must stand before it."""
        self.keys(node, QUESTION_KEYS, "a question")
        forms = [form for form in FORMS if form in node]
        if len(forms) > 1 or not (forms or CHOICES in node):
            self.problems.add(STARTER_FORM, name.place, name=name, known=", ".join(FORMS))
        form = forms[0] if forms else CHOICES
        choices = {
            str(word): self.choice(word, as_mapping(entry, word, self.problems))
            for word, entry in as_mapping(node.get(key(CHOICES), Mapping()), CHOICES, self.problems).items()
        }
        none = self.entry(node.get(key("none")), NONE)
        for each in none:
            self.path(each, ("service",))
        said = {each: str(self.optional(node, each) or "") for each in QUESTION_TEXTS}
        return Question(
            id=str(name),
            what=str(self.text(node, "what", "question")),
            form=form,
            path=self.key_path(self.text(node, KEY, "question")) if form == KEY else (),
            entry=self.goes(form, node),
            enter=self.enter(node.get(key("enter")), choices),
            none_sets=plain_entry(none),
            absent=self.kinds(node.get(key("absent"))),
            choices=choices,
            several=_yes(node, "several"),
            listed=_yes(node, "list"),
            settings=_yes(node, "settings"),
            of_settings=_yes(node, "of_settings"),
            along=self.earlier(node, "along"),
            same_as=self.earlier(node, "same_as"),
            if_several=self.earlier(node, "if_several"),
            plausible=tuple(map(str, self.texts(node.get(key("plausible"))))),
            least=tuple(map(str, self.texts(node.get(key("least"))))),
            breakers=tuple(map(str, self.texts(node.get(key("breakers"))))),
            on_breaker=plain_entry(self.entry(node.get(key("on_breaker")), "on_breaker")),
            stands_for=plain_entry(self.entry(node.get(key("stands_for")), "stands_for")),
            twice=self.twice(node, choices),
            of_kind=self.of_kind(node),
            goes_always=plain_entry(self.entry(node.get(key("goes_always")), "goes_always")),
            unless_named=plain_entry(self.entry(node.get(key("unless_named")), "unless_named")),
            goes_too=plain_entry(self.entry(node.get(key("goes_too")), "goes_too")),
            not_over=self.earlier(node, "not_over"),
            kind_at=self.kinds_at(node),
            kind_told=plain_entry(self.entry(node.get(key("kind_told")), "kind_told")),
            plugs=self.words(node.get(key("plugs"))),
            by_size=_yes(node, "by_size"),
            called=self.called(node),
            only_along=_yes(node, "only_along"),
            also_of=tuple(str(self.word(each, self.known)) for each in self.texts(node.get(key("also_of")))),
            along_words=tuple(map(str, self.texts(node.get(key("along_words"))))),
            less_words=tuple(map(str, self.texts(node.get(key("less_words"))))),
            there_also=tuple(map(str, self.texts(node.get(key("there_also"))))),
            lowest=str(self.optional(node, "from") or ""),
            when=self.conditions(node, "when"),
            unless=self.conditions(node, "unless"),
            up_to=self.largest(node),
            none_also=tuple(map(str, self.texts(node.get(key("none_also"))))),
            none_within=self.words(node.get(key("none_within"))),
            yes_means=self.meanings(node),
            keeps=self.words(node.get(key("keeps"))),
            of_others={str(name): said for name, said in self.by_word(node, "of_others").items()},
            beside_needs={str(name): said for name, said in self.by_word(node, "beside_needs").items()},
            bounds_of={str(bounds): said for bounds, said in self.by_word(node, "bounds_of").items()},
            works=tuple(str(self.word(each, self.works)) for each in self.texts(node.get(key("works")))),
            **said,
        )

    def twice(self, node: Mapping, choices: Iterable[str]) -> dict[str, str]:
        """The choices that stand for another one named twice, by that."""
        found = self.entry(node.get(key("twice")), "twice")
        for word, other in found.items():
            self.word(word, choices)
            self.word(other, choices)
        return plain_entry(found)

    def of_kind(self, node: Mapping) -> tuple[str, ...]:
        """What the kind of load is called of which alone a question is asked."""
        if "of_kind" not in node:
            return ()
        name = self.word(as_text(node[key("of_kind")], "of_kind", self.problems), self.glossary.load_kinds)
        kind = self.glossary.load_kinds.get(str(name))
        return () if kind is None else (shown_kind(kind), str(name).replace("_", " "), *kind.also)

    def called(self, node: Mapping) -> tuple[str, ...]:
        """What else the load of a question is called."""
        entry = next((each for form in ("load", "planned") if isinstance(each := node.get(key(form)), Mapping)), Mapping())
        kind = self.glossary.load_kinds.get(str(entry.get(key("kind"), "")))
        return kind.also if kind is not None else ()

    def kinds_at(self, node: Mapping) -> dict[str, str]:
        """Kinds of load by how they are connected."""
        found = self.entry(node.get(key("kind_at")), "kind_at")
        for kind in found.values():
            self.word(as_text(kind, "kind_at", self.problems), self.glossary.load_kinds)
        return plain_entry(found)

    def earlier(self, node: Mapping, name: str) -> str:
        """An earlier question that a key names, or an empty text."""
        return str(self.word(as_text(node[key(name)], name, self.problems), self.known)) if name in node else ""

    def key_path(self, text: Text) -> tuple[str, ...]:
        """The keys to a value: of the home, or below the service, the meter, a dwelling unit, or a source, panel or feeder by its name."""
        first, *rest = (Text(part) for part in text.split("."))
        for part in (first, *rest):
            part.source, part.line, part.column = text.source, text.line, text.column
        if not rest:
            self.path(first, ())
            return (str(first),)
        self.word(first, HEADS)
        above = HEADS.get(str(first), ())
        if first in ("sources", "panels", "feeders") and len(rest) > 1:
            for at, part in enumerate(rest[1:], 1):
                self.path(part, (*above, *map(str, rest[1:at])))
        elif len(rest) > 1:
            self.path(rest[0], above)
            self.path(rest[-1], (*above, str(rest[0])))
        else:
            self.path(rest[0], above)
        return (str(first), *map(str, rest))

    def goes(self, form: str, node: Mapping) -> dict[str, str]:
        """What is said of an area or a load beside the answer, or what a detail is of."""
        if form == DETAIL:
            entry = self.entry(node[key(form)], form)
            self.keys(entry, ("of", KEY), "a detail")
            self.word(self.text(entry, "of", "detail"), self.known)
            self.path(self.text(entry, KEY, "detail"), WITH_NAME["planned"])
            return plain_entry(entry)
        if form not in WITH_NAME:
            return {}
        return self.named(node[key(form)], form)

    def named(self, node: Node, form: str) -> dict[str, str]:
        """An area or a load with its name and kind."""
        entry = self.entry(node, form)
        for each in ("name", "kind"):
            self.text(entry, each, "load or area")
        for each in entry:
            self.path(each, WITH_NAME[form])
        kind = entry.get(key("kind"))
        if form != "area" and kind is not None:
            self.word(kind, self.glossary.load_kinds)
        return plain_entry(entry)

    def choice(self, word: Text, node: Mapping) -> Choice:
        """A word to choose, with what comes with it."""
        self.keys(node, CHOICE_KEYS, "a choice")
        adds = tuple(self.named(each, "load") for each in self.listed(node, "adds"))
        says, writes = (str(self.optional(node, each) or "") for each in ("says", "writes"))
        absent, not_taken = (self.kinds(node.get(key(each))) for each in ("absent", "not_taken"))
        also = tuple(map(str, self.texts(node.get(key("also")))))
        evidence, told, other = (str(self.optional(node, each) or "") for each in ("evidence", "told", "not_electric"))
        sets = self.entry(node.get(key("sets")), "sets")
        for path in sets:
            self.key_path(path)
        return Choice(str(word), says, writes, adds, absent, not_taken, also, evidence, plain_entry(sets), told, other)

    def kinds(self, node: Node | None) -> tuple[str, ...]:
        """Kinds of load, or sources, that may be absent."""
        return tuple(str(self.word(each, (*self.glossary.load_kinds, SOURCES))) for each in self.texts(node))

    def enter(self, node: Node | None, choices: Iterable[str]) -> dict[str, str]:
        """What Enter takes, for all kinds of work or by their words; of choices one of them."""
        if node is None:
            return {}
        found = (
            self.entry(node, "enter") if isinstance(node, Mapping) else {Text(OTHERWISE): as_text(node, "enter", self.problems)}
        )
        for work, text in found.items():
            if work != OTHERWISE:
                self.word(work, (*self.works, OTHERWISE))
            if choices:
                self.word(text, choices)
        return plain_entry(found)

    def meanings(self, node: Mapping) -> dict[str, Conditions]:
        """Answers that `yes` stands for, each with its conditions."""
        found = as_mapping(node.get(key("yes_means"), Mapping()), "yes_means", self.problems)
        return {str(word): self.conditions(found, str(word)) for word in found}

    def largest(self, node: Mapping) -> dict[str, str]:
        """The largest that answers to earlier questions may be."""
        found = self.entry(node.get(key("up_to")), "up_to")
        for each in found:
            self.word(each, self.known)
        return plain_entry(found)

    def conditions(self, node: Mapping, name: str) -> dict[str, tuple[str, ...]]:
        """Answers to earlier questions."""
        found = {}
        for each, said in as_mapping(node.get(key(name), Mapping()), name, self.problems).items():
            question = self.known.get(str(self.word(each, self.known)))
            wanted = [said] if isinstance(said, Text) else self.texts(said)
            for word in wanted if question else ():
                self.word(word, question.choices or STATES) if question else None
            found[str(each)] = tuple(map(str, wanted))
        return found


def _yes(node: Mapping, name: str) -> bool:
    return node.get(key(name)) == YES
