"""A folder of rules: where it is, which editions it holds, and its files as read; all texts join the digest."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass, field
from pathlib import Path

from dwellcalc.glossary import Glossary
from dwellcalc.glossary_reader import GlossaryReader
from dwellcalc.placed import Mapping
from dwellcalc.problems import Problems, fail, message
from dwellcalc.reading import load_text, read_text
from dwellcalc.units import Units

NO_RULES = message(
    "no_rules",
    'there are no rules in "{folder}"',
    "a folder of rules holds glossary.yaml, units.txt, sources.yaml and a folder for each code",
)

EDITIONS = "editions"


@dataclass
class RuleFiles:
    """The files of a folder of rules that were read so far, with the problems found in them."""

    folder: Path
    shown: str
    problems: Problems = field(default_factory=Problems)
    texts: list[str] = field(default_factory=list)

    def text(self, path: Path, shown: str = "") -> str:
        """The text of a file, in the folder or not; it joins the digest."""
        text = load_text(path, shown)
        self.texts.append(text)
        return text

    def node(self, name: str) -> Mapping:
        """Read a file of the folder."""
        shown = self.shown_name(name)
        return read_text(self.text(self.folder / name, shown), shown)

    def shown_name(self, name: str) -> str:
        """The name of a file of the folder in messages."""
        return f"{self.shown}/{name}" if self.shown else name

    def glossary(self) -> Glossary:
        """The glossary of the folder, with its units."""
        name = self.shown_name("units.txt")
        units = Units(self.folder / "units.txt", name)
        self.text(self.folder / "units.txt", name)
        return GlossaryReader(units, self.problems).read(self.node("glossary.yaml"))

    def digest(self) -> str:
        """The fingerprint of every text that was read."""
        return hashlib.sha256("\0".join(self.texts).encode()).hexdigest()


def installed_folder() -> Path:
    """The package's own rules: beside the package in a checkout, inside it where it is installed."""
    package = Path(__file__).resolve().parents[1]
    inside = package / "rules"
    return inside if inside.is_dir() else package.parent / "rules"


def editions_in(folder: Path) -> list[str]:
    """The ids of every edition in a folder of rules."""
    return sorted(f"{path.parent.parent.name}/{path.stem}" for path in folder.glob(f"*/{EDITIONS}/*.yaml"))


def rule_files(folder: Path | None) -> RuleFiles:
    """A folder of rules, or the package's own, none of its files read yet."""
    home = folder if folder is not None else installed_folder()
    if not (home / "glossary.yaml").is_file() or not (home / "units.txt").is_file():
        fail(NO_RULES, folder=home)
    return RuleFiles(home, str(folder) if folder is not None else "rules")


def read_glossary(folder: Path | None = None) -> Glossary:
    """The glossary of a folder of rules, or of the package's own.

    Raises:
        InputError: there is none, or it breaks the form.
    """
    files = rule_files(folder)
    glossary = files.glossary()
    files.problems.raise_if_any()
    return glossary
