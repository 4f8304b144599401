"""All checks of a folder of rules: loading, proofs, and every load counted once for each kind, flag and threshold."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from concurrent.futures import Executor, ProcessPoolExecutor
from contextlib import contextmanager
from dataclasses import dataclass
from itertools import product
from multiprocessing import get_context
from pathlib import Path
from typing import Any

from dwellcalc.evaluate.concerned import concerned, may_miscount
from dwellcalc.evaluate.coverage import miscounts
from dwellcalc.evaluate.plan import Plan
from dwellcalc.evaluate.traced import Evaluation, plan_of
from dwellcalc.facts import Facts
from dwellcalc.glossary import Glossary, LoadKind
from dwellcalc.language import tree
from dwellcalc.language.amendments import amendments_in, check_editions, read_amendment
from dwellcalc.language.conditions import plain
from dwellcalc.language.proofs import prove
from dwellcalc.language.rule_files import rule_files
from dwellcalc.language.rule_set import RuleSet, editions_in, installed_folder, load_rules, read_glossary
from dwellcalc.language.tree import CheckedGroup, CheckedMethod
from dwellcalc.placed import spaced
from dwellcalc.problems import InputError, Problem, Problems, message
from dwellcalc.progress import Progress, silent

COUNTED_WRONG = message(
    "counted_wrong",
    'the method "{method}" counts a load {times}: {load}',
    "every load counts once, or stands in `left_out:` with a citation and the reason",
)
TIMES = ("never", "once", "twice")


@dataclass(frozen=True)
class _Job:
    """An edition to check, as amendments change it; ``proved`` says that it is proved without them."""

    name: str
    edition: str
    folder: Path | None
    amendments: tuple[Path, ...] = ()
    proved: bool = False

    def done(self) -> list[Problem]:
        return check_amended(self.edition, self.folder, self.amendments, proved=self.proved)


def check_folder(folder: Path | None, progress: Progress = silent, workers: int = 1) -> dict[str, list[Problem]]:
    """The problems of every edition in a folder of rules, or in the package's own, and of every amendment of each.

    Args:
        folder: the folder, or nothing for the package's own.
        progress: is told what was checked.
        workers: how many processes may share the work; more than one asks for a main module that can be imported.

    Raises:
        InputError: the folder holds no rules, or its glossary cannot be read.
    """
    read_glossary(folder)
    top = folder or installed_folder()
    editions = [_Job(edition, edition, folder) for edition in editions_in(top)]
    refused: dict[str, list[Problem]] = {}
    with _pool(workers) as pool:
        found = _done(editions, "editions", pool, progress)
        amended = _amended(folder, top, found, refused)
        found |= refused | _done(amended, "editions with an amendment", pool, progress)
    return found


def _amended(folder: Path | None, top: Path, found: dict[str, list[Problem]], refused: dict[str, list[Problem]]) -> list[_Job]:
    """The editions as each amendment changes them; an amendment that cannot be read stands under what is refused."""
    jobs = []
    for name, path in amendments_in(top).items():
        files = rule_files(folder)
        try:
            amendment = read_amendment(files, path)
            check_editions([amendment], editions_in(top), files.problems)
            files.problems.raise_if_any()
        except InputError as error:
            refused[name] = error.problems
            continue
        for edition in amendment.amends:
            proved = not found.get(str(edition))
            jobs.append(_Job(f"{name}, {edition}", str(edition), folder, (path,), proved))
    return jobs


@contextmanager
def _pool(workers: int) -> Iterator[Executor | None]:
    """Processes that share the work; none where there is one worker."""
    if workers < 2:
        yield None
        return
    with ProcessPoolExecutor(workers, get_context("spawn")) as pool:
        yield pool


def _done(jobs: list[_Job], what: str, pool: Executor | None, progress: Progress) -> dict[str, list[Problem]]:
    """The problems that each job finds, in the order of the jobs."""
    results = map(_Job.done, jobs) if pool is None else pool.map(_Job.done, jobs)
    found: dict[str, list[Problem]] = {}
    progress(f"checking {what}")
    for number, (job, problems) in enumerate(zip(jobs, results, strict=True), start=1):
        found[job.name] = problems
        progress(f"checking {what}, {number} of {len(jobs)}")
    return found


def check_edition(edition: str, folder: Path | None = None) -> list[Problem]:
    """The problems of one edition, with all proofs."""
    return check_amended(edition, folder, (), proved=False)


def check_amended(edition: str, folder: Path | None, amendments: Sequence[Path], *, proved: bool) -> list[Problem]:
    """The problems of an edition with amendments; where the edition itself is proved, what they touch is proved anew."""
    try:
        rules = load_rules(edition, folder, amendments)
    except InputError as error:
        return error.problems
    problems = Problems()
    if proved:
        prove(rules, problems, concerned(rules))
    else:
        prove(rules, problems)
    for method in rules.methods.values():
        if not proved or may_miscount(rules, method):
            prove_coverage(rules, method, problems)
    return problems.found


def prove_coverage(rules: RuleSet, method: CheckedMethod, problems: Problems) -> None:
    """Show that a method counts each load once: each kind with each of its flags, at and beside each threshold that its
    groups compare with, alone and together with each kind that a group's condition names.
    """
    if method.counts is None or method.source.counts is None:
        return
    builder = _Builder(rules, plan_of(rules), method)
    seen: set[tuple[str, int]] = set()
    for loads, choices in builder.homes():
        evaluation = Evaluation(builder.plan, builder.facts(loads), choices)
        evaluation.line(next(iter(method.results.values())))
        for found in miscounts(evaluation, method.name):
            load = next(each for each in loads if each["name"] == found.load)
            if (str(load["kind"]), found.times) in seen:
                continue
            seen.add((str(load["kind"]), found.times))
            times = TIMES[found.times] if found.times < len(TIMES) else f"{found.times} times"
            problems.add(
                COUNTED_WRONG, method.source.counts.place, method=method.name, times=times, load=builder.shown(load, choices)
            )


class _Builder:
    """Makes the homes that coverage is shown on."""

    def __init__(self, rules: RuleSet, plan: Plan, method: CheckedMethod) -> None:
        self.rules = rules
        self.plan = plan
        self.method = method
        self.glossary: Glossary = rules.glossary
        assert method.counts is not None
        self.collection = method.counts.collection
        self.groups = [group for group in method.groups.values() if group.collection == self.collection]
        self.read = {node.field for group in self.groups for node in _walk(group) if isinstance(node, tree.ReadField)}

    def homes(self) -> Iterator[tuple[list[dict[str, Any]], dict[str, str]]]:
        """Loads and choices to try: each variant alone under each reading, and beside each kind that groups name."""
        choices = list(self.choices())
        partners = [variant for kind in self.named_kinds() for variant in list(self.variants(kind))[:1]]
        for kind in self.glossary.load_kinds:
            for variant in self.variants(kind):
                for chosen in choices:
                    yield [variant], chosen
                if variant["amount"] == self.amounts()[0]:
                    for partner in partners:
                        yield [variant, {**partner, "name": "another"}], choices[0]

    def choices(self) -> Iterator[dict[str, str]]:
        """The default readings, then each other option alone."""
        read = sorted({node.address for group in self.groups for node in _walk(group) if isinstance(node, tree.ReadChoice)})
        yield {}
        for address in read:
            document, _, name = address.partition(".")
            interpretation = self.rules.documents[document].interpretations[name]
            yield from ({address: option} for option in interpretation.options if option != interpretation.default)

    def named_kinds(self) -> list[str]:
        kinds: dict[str, None] = {}
        for group in self.groups:
            for node in _walk(group):
                if isinstance(node, tree.OneOf) and isinstance(node.read, tree.ReadField) and node.kind is not None:
                    kinds.update(dict.fromkeys(str(value) for value in node.values if value in self.glossary.load_kinds))
        return list(kinds)

    def variants(self, kind: str) -> Iterator[dict[str, Any]]:
        """A kind with each of its flags that the rules read, and a rating at and beside each threshold."""
        declared = self.glossary.load_kinds[kind]
        flags = [self.words(declared, flag) for flag in declared.flags]
        for values in product(*flags):
            for amount in self.amounts():
                yield {"name": kind, "kind": kind, "amount": amount, **dict(zip(declared.flags, values, strict=True))}

    def words(self, kind: LoadKind, flag: str) -> list[Any]:
        field = self.glossary.collections[self.collection].fields[flag]
        says = kind.flags[flag]
        if says.how == "is" or flag not in self.read:
            words = [says.word or self.glossary.words(field.kind)[0]]
        else:
            words = list(self.glossary.words(field.kind))
        return [self.glossary.value(field.kind, word) for word in words]

    def amounts(self) -> list[float]:
        thresholds = set()
        for group in self.groups:
            for node in _walk(group):
                if isinstance(node, tree.Comparison):
                    for side in (node.left, node.right):
                        if (
                            isinstance(side, tree.Constant)
                            and side.kind.form == "quantity"
                            and side.kind.unit in self.glossary.load_units
                        ):
                            thresholds.add(side.value)
        return sorted({value + step for value in thresholds for step in (-1, 0, 1)} or {float(len(self.glossary.load_kinds))})

    def facts(self, loads: list[dict[str, Any]]) -> Facts:
        """A home with these loads in one dwelling unit on the first supply system."""
        facts = Facts.empty(self.glossary)
        system = next(iter(self.glossary.systems.values()))
        for owner, fields in self.glossary.objects.items():
            for name, field in fields.items():
                if field.unless_said:
                    facts.set(owner, name, self.glossary.value(field.kind, field.unless_said))
        for name, value in system.fields.items():
            facts.set("supply", name, value)
        for line in system.line_conductors:
            facts.add("line_conductors", line, {})
        for pair in system.line_pairs:
            facts.add("line_pairs", pair, {})
        units = self.glossary.collections["dwelling_units"].fields
        facts.add("dwelling_units", "unit", {name: 1.0 for name, field in units.items() if field.kind.form == "quantity"})
        for load in loads:
            facts.add(self.collection, load["name"], self.values(load), owner=0)
        return facts

    def values(self, load: dict[str, Any]) -> dict[str, Any]:
        fields = self.glossary.collections[self.collection].fields
        values = {name: value for name, value in load.items() if name in fields}
        for name, field in fields.items():
            if field.unless_said and name not in values:
                values[name] = self.glossary.value(field.kind, field.unless_said)
        basis = next(name for name, field in fields.items() if field.comes_from == "rating" and field.kind.form == "choice")
        values[basis] = self.glossary.words(fields[basis].kind)[0]
        values[values[basis]] = load["amount"]
        return values

    def shown(self, load: dict[str, Any], choices: dict[str, str]) -> str:
        flags = [f"{spaced(name)} {_word(value)}" for name, value in load.items() if name in self.read and name != "kind"]
        chosen = [f"{address} is {option}" for address, option in choices.items()]
        return "; ".join([spaced(str(load["kind"])), *flags, *chosen])


def _word(value: Any) -> str:
    return {True: "yes", False: "no"}.get(value, str(value)) if isinstance(value, bool) else str(value)


def _walk(group: CheckedGroup) -> list[tree.Tree]:
    """The nodes of a group's condition; lines that only name a count or a condition are looked into."""
    found = []
    for node in tree.walk(group.condition):
        found.append(node)
        inner = plain(node)
        if inner is not node:
            found += tree.walk(inner)
    return found
