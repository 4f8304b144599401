"""Groups: what they are built on, their conditions, what they leave out."""

from __future__ import annotations

from dwellcalc.language.documents import Document, Group
from dwellcalc.language.kind_checks import FormulaContext, KindCheck
from dwellcalc.language.names import Meaning
from dwellcalc.language.tree import CheckedGroup
from dwellcalc.placed import Text
from dwellcalc.problems import message

NO_GROUP = message("no_group", 'there is no group "{name}"')
GROUP_COLLECTIONS = message("group_collections", 'the group "{name}" is built on different collections')


class GroupCheck(KindCheck):
    """Checks groups."""

    def group_named(self, name: str, document: Document, text: Text) -> CheckedGroup | None:
        """A group or collection by its bare name in a document."""
        if name in self.glossary.collections:
            found = self.method.groups.get(name)
            if found is None:
                never_empty = self.glossary.collections[name].at_least > 0
                found = CheckedGroup(name, self.method.name, name, name, never_empty=never_empty)
                self.method.groups[name] = found
            return found
        meaning = self.whole.names.visible[str(document.name)].get(name)
        if meaning is None or not isinstance(meaning.thing, Group):
            near = self.whole.names.nearest(name, document, self.glossary.collections)
            self.problems.add(NO_GROUP, text.place, name=name, nearest=near)
            return None
        found = self.method.groups.get(meaning.address)
        return found if found is not None else self.group(meaning)

    def group(self, meaning: Meaning) -> CheckedGroup | None:
        """A group, checked once."""
        group = meaning.thing
        assert isinstance(group, Group)
        label = f"{self.method.name}.{group.name}"
        if self.in_cycle(label, group.name):
            return None
        self.whole.running.append(label)
        try:
            bases = tuple(self.group_named(base, meaning.document, base) for base in group.bases)
            excepted = tuple(self.group_named(each, meaning.document, each) for each in group.excepted)
            known = tuple(base for base in bases if base is not None)
            kept = tuple(each for each in excepted if each is not None)
            if not known:
                return None
            if len({each.collection for each in (*known, *kept)}) > 1:
                self.problems.add(GROUP_COLLECTIONS, group.name.place, name=group.name)
                return None
            for each in (*known, *kept):
                self.whole.used.add(each.address)
            made = CheckedGroup(str(group.name), self.method.name, meaning.address, known[0].collection, group, known, None, kept)
            if group.condition is not None and group.condition_text is not None:
                context = FormulaContext(group.condition_text, meaning.document, made.collection, known)
                made.condition = self.condition(group.condition, context, "the condition of a group")
            self.method.groups[meaning.address] = made
            return made
        finally:
            self.whole.running.pop()
