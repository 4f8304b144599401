"""Assessments of whole homes: what is unknown leaves the answer open and is named."""

from __future__ import annotations

from examples import rules_of

from dwellcalc.decide.assess import assess
from dwellcalc.decide.document import OPEN
from dwellcalc.home import home_from_text
from dwellcalc.report.sheet_pages import sheet_pages

FLAT = """
home: Flat on two lines of a wye
work: existing
service:
  system: 208Y/120 V single-phase 3-wire
  rating: 100 A
  conductors: not seen
dwelling units:
  - name: flat
    areas:
      - {name: flat, kind: living, area: 700 ft2}
    small appliance circuits: 2
    laundry circuits: 0
    loads:
      - {name: range, kind: range, rating: unknown}
      - {name: disposer, kind: waste disposer, rating: 1/2 hp at 115 V, legs: A}
"""


def test_an_unknown_rating_leaves_the_answer_open() -> None:
    rules = rules_of("nec/2020")
    found = assess(home_from_text(FLAT, "flat.yaml", rules.glossary), rules, date="2026-01-01")
    (supply,) = found.supplies
    assert supply.verdict == OPEN
    assert supply.basis is None
    assert [name for name in supply.unknowns if "range" in name] != []
    assert sheet_pages(found, full=False)
    assert sheet_pages(found, full=True)
