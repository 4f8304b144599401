"""The keys that ``starter.yaml`` may have, and the parts of a home file to which its answers go."""

from __future__ import annotations

from .label_reader import LABEL_KEYS, OF_LOADS
from .questions import CHOICES, FORMS, NONE

STARTER_KEYS = ("starter", *LABEL_KEYS, "bounds", "works", "stations", "explains")
WORK_KEYS = ("title", "sets", "several_units", "drawn", "also", "otherwise")
STATION_KEYS = ("title", "before", "each", "of", "units", "works", "questions")
CHOICE_KEYS = ("says", "writes", "adds", "absent", "not_taken", "also", "evidence", "sets", "told", "not_electric")
QUESTION_TEXTS = (
    "ask",
    "ask_today",
    "ask_drawn",
    "along_rest",
    "unit",
    "example",
    "read",
    "typed",
    "not_known",
    "none_writes",
    "drawn",
    "meanwhile",
    "lower",
    "much",
    "little",
    "to_neutral",
    "forms",
    "breaker_asks",
    "none_told",
    "by_rating",
    "output_to",
    "output_asks",
    "output_takes",
    "goes_asks",
    "goes_too_asks",
    "two_elements",
    "means",
    "if_assumed",
    "breaker_told",
    "larger_of_two",
    "rating_asks",
    "replaces_asks",
    "plugs_at",
    "in_it_asks",
    "plugs_takes",
    "either_takes",
    "either_told",
    "drawn_least",
    "drawn_little",
)
QUESTION_KEYS = (
    *("what", *QUESTION_TEXTS, "enter", NONE, "absent", CHOICES, "several", "list", "settings", "along", "plausible", "least"),
    *(
        "breakers",
        "on_breaker",
        "by_size",
        "along_words",
        "only_along",
        "also_of",
        "if_several",
        "less_words",
        "there_also",
        "stands_for",
        "twice",
        "of_kind",
        "goes_with",
        "goes_too",
        "from",
        "of_settings",
        "kind_at",
        "kind_told",
        "plugs",
        "not_over",
        "same_as",
    ),
    *("when", "unless", "up_to", "none_also", "none_within", "yes_means", "bounds_of", "of_others", "keeps", "works", *FORMS),
)
PARTS = (
    "explains",
    "remarks",
    "work",
    "service",
    "meter",
    "units",
    "areas",
    "loads",
    "house",
    "sources",
    "panels",
    "feeders",
    "absent",
    "not_electric",
    "planned",
    "evidence",
)
WITH_NAME = {"area": ("dwelling_units", "areas"), "load": OF_LOADS, "planned": ("planned",)}
HEADS = {
    "service": ("service",),
    "meter": ("meter",),
    "unit": ("dwelling_units",),
    "sources": ("sources",),
    "panels": ("panels",),
    "feeders": ("feeders",),
}
