"""The words of the rule language: keys of documents, functions, operators. They stand here once.

These are the words of the grammar, of the home file and of the document that an assessment writes; a test lets the
package use them as literals and no other name of the rules.
"""

from __future__ import annotations

GATHERING = ("sum", "count", "mean", "largest", "every")
CHOOSING = ("larger", "smaller")
ROUNDING = ("round_up", "round_half_up")
LOOKUP = ("table", "first_row_at_least", "last_row_at_most")
ASKING = ("known",)
FUNCTIONS = GATHERING + CHOOSING + ROUNDING + LOOKUP + ASKING

COMPARING = (">=", "<=", ">", "<", "=")
RESERVED = frozenset((*FUNCTIONS, "and", "or", "not", "is", "in"))

WAYS = ("value", "cases", "of", "sum_of", "largest_of", "least_of")
COMBINING = ("sum_of", "largest_of", "least_of")
EVIDENCE_KEYS = ("source", "confidence")
GRADES = ("text seen", "two sources", "one source", "weak source", "memory")
WEAK_GRADES = ("one source", "weak source", "memory")

LINE_KEYS = ("title", "cite", "each", "applies", "working", "status", "known_as", "note", *EVIDENCE_KEYS, *WAYS, "tiers")
CASE_KEYS = ("when", "then", "otherwise", "cite")
PARAMETER_KEYS = ("value", "cite", "status", *EVIDENCE_KEYS)
POLICY = "policy"
STATUSES = ("code", POLICY)
INTERPRETATION_KEYS = ("question", "cite", "options", "default")
OPTION_KEYS = ("says", "source")
PERMITTED_KEYS = ("require", "cite", "asks", "if_not")
LEFT_OUT_KEYS = ("group", "cite", "because")
RUN_KEYS = ("title", "method", "keep")
GIVEN_KEYS = ("unit", "choice", "is")
TABLE_KEYS = (
    "title",
    "cite",
    "rows_by",
    "columns",
    "columns_by",
    "gives",
    "rows",
    "read",
    "gaps",
    "outside",
    *EVIDENCE_KEYS,
)
SECTIONS = ("parameters", "interpretations", "groups", "runs", "lines", "tables")
DOCUMENT_KEYS = ("title", "uses", "permitted", "left_out", "given", *SECTIONS)
METHOD_KEYS = ("method", "cite", "per", "counts", "result", "columns", *DOCUMENT_KEYS)
PART_KEYS = ("part", *DOCUMENT_KEYS)
ASSESSMENT = "assessment"
CARRIED_OVER = "carried_over"
EDITION_KEYS = (
    "edition",
    "year",
    "based_on",
    "methods",
    ASSESSMENT,
    "defaults",
    "citations",
    "renumbered",
    CARRIED_OVER,
    "sets",
)
AMENDMENT_KEYS = (
    "amendment",
    "jurisdiction",
    "amends",
    "in_force",
    "fixed_by",
    "status",
    "source",
    "sources",
    "not_expressed",
    "sets",
)
AMENDMENT_STATUSES = ("law", "rule", "policy", "interpretation")
IN_FORCE_KEYS = ("from", "until", "confidence")
SUBMITTAL_TITLES = ("submittal", "example")
ROW_KEYS = ("label", "nameplate", "claimed", "section", "quantity", "status", "evidence", "match", "note", "share", "heading")
ROW_FACTS = "facts"  # of a row of a load, what a home file says of it beside
CATALOGUE_KEYS = ("catalogue", "code", "mistakes")
MISTAKE_KEYS = ("done", "right", "send", "send_of_one", "cite", "severity", "status", *EVIDENCE_KEYS, "changes", "either")
SEVERITIES = ("error", "remark", "question")
FIXED_BY = ("application", "building_application", "electrical_application", "issuance")  # dates of a project
SET_KEYS = ("title", "changes")
CHANGE_KEYS = ("change", "add", "remove", "before", "was", "now", "cite", "status", *EVIDENCE_KEYS)
PER = ("home", "dwelling_unit")
LEVEL_OF_PER = {"home": "home", "dwelling_unit": "dwelling_units"}

# Typical ratings by kind of load.
DEFAULTS_KEYS = ("defaults", "kinds")
DEFAULT_KEYS = ("low", "typical", "high", *EVIDENCE_KEYS)

# An assessment file: its keys, the roles of the results that sizing gives, and of the remarks.
ASSESSMENT_TEXTS = ("assessment", "default", "total", "amperes", "basis", "basis_note")
ASSESSMENT_LISTS = ("offered", "methods", "cautions", "checklist")
ASSESSMENT_OPTIONAL = (
    "sizes_new",
    "not_calculated",
    "to_be_read",
    "installed_as_one",
)
ASSESSMENT_NUMBERS = ("combinations_at_most", "combinations_tried_again", "pairs_tried", "pairs_told")
CONNECTED = "connected"
USUAL = "usual_loads"  # what a dwelling usually has: of each the kinds of load and the words of what is not electric
USUAL_KEYS = ("kinds", "words")
CONNECTED_KEYS = ("method", "total", "amperes")
PANEL_SCHEDULE = "panel_schedule"
ASSESSMENT_MAPPINGS = (
    "sizing",
    "beside",
    "branch_circuits",
    "voltage_drop",
    "remarks",
    "unknown_ratings",
    CONNECTED,
    PANEL_SCHEDULE,
)
TRIAL_KEYS = ("up_to", "steps", "beyond")
RECORD = "record"
RECORD_TEXTS = ("method", "usable", "without_remarks", "maximum", "serves", "because", "none", "not_usable")
RECORD_MAPPINGS = ("measured_by", "tells")
MEASURED_BY = (  # what figures of a record are taken by
    "window",
    "run",
    "run_steps",
    "low_day",
    "vacant_month",
    "bills_apart",
    "closer_by_other_days",
)
REVIEW = "review"
DENIALS = ("denied_before", "denied_at_once", "denied_behind")
REVIEW_LISTS = (
    "steps",
    "beside_steps",
    "not_now",
    "unmeaning",
    "counted",
    "planned",
    "there",
    "removed",
    *DENIALS,
    "shown",
    "freed",
    "heading",
    "label_volts",
    "of_amperes",
    "after_steps",
    "of_rows",
    "sum_of_rows",
    "plugged",
    "left_out",
    "all_shown",
    "used_spaces",
    "after_work",
    "of_several_permits",
    "breaker_words",
    "beside_conductors",
)
REVIEW_IN_SMALL_LETTERS = ("beside_conductors",)
REVIEW_BY_RESULT = ("remarks", "asked", "with_remark", "with_nameplates", "comes_on_top")
REVIEW_TEXTS_BY_NAME = (
    "markings",
    "lettered",
    "method_words",
    "not_asked",
    "not_asked_beside",
    "conductor_words",
    "stated",
    "expected",
    "compressor_alone",
    "told_with",
    "comes_with",
)
REVIEW_WHOLE_NUMBERS = ("pairs_at_most", "tried_at_most")
REVIEW_NUMBERS = (*REVIEW_WHOLE_NUMBERS, "rounded_at_most", "chance_one_in")
REVIEW_KEYS = (
    "method",
    "taken",
    *REVIEW_LISTS,
    *REVIEW_BY_RESULT,
    *REVIEW_TEXTS_BY_NAME,
    *REVIEW_NUMBERS,
    "of_area",
    "reasons",
    "implied",
    "parts",
    "circuits",
    "panels",
    "selection",
)
SELECTION_LISTS = ("words", "beside", "groups", "kinds")
SELECTION_KEYS = (*SELECTION_LISTS, "line")
IMPLIED_TEXTS = ("kind", "title", "told", "send", "cite")
IMPLIED_APART = ("apart_from", "apart_by", "apart_says")  # kinds of load, words by which each stands apart, what then is said
IMPLIED_KEYS = ("words", "unless", "or_of", *IMPLIED_APART, *IMPLIED_TEXTS)
SECTION_PART_TEXTS = ("method", "cite", "line", "told")
SECTION_PART_WRONG = ("mistake", "reading", "wrong", "send")
SECTION_PART_KEYS = (*SECTION_PART_TEXTS, *SECTION_PART_WRONG)
REASON_TEXTS = ("told", "send", "cite")
REASON_SETTING = ("writes", "told_of_setting")
REASON_BESIDE = ("before_setting", "after_setting")
REASON_NAMED = "named_setting"
REASON_APART = ("told_of_larger", "told_of_smaller", "told_of_stated")
REASON_KEYS = ("words", *REASON_TEXTS, *REASON_SETTING, *REASON_BESIDE, REASON_NAMED, *REASON_APART)
GENERAL_CIRCUITS_KEYS = ("method", "new", "beside", "kinds")
GENERAL_CIRCUIT_TEXTS = ("title", "told")
GENERAL_CIRCUIT_OPTIONAL = ("cite", "least", "said", "amperes", "device")
GENERAL_CIRCUIT_KEYS = ("names", *GENERAL_CIRCUIT_TEXTS, *GENERAL_CIRCUIT_OPTIONAL)
CROSS_CHECK = "cross_check"
CROSS_CHECK_KEYS = ("method", "ratio", "given", "must_hold", "told", "if_not")
CROSS_CHECK_GIVEN = ("calculated", "measured")
ASSESSMENT_KEYS = (
    *ASSESSMENT_TEXTS,
    *ASSESSMENT_LISTS,
    *ASSESSMENT_OPTIONAL,
    *ASSESSMENT_NUMBERS,
    *ASSESSMENT_MAPPINGS,
    USUAL,
    "alternatives",
    RECORD,
    REVIEW,
)
ALTERNATIVE_FILLED = "what"  # its braces are filled when a plan is tried
CHECKED = "checked"  # of sizing: what a review tells of supply conductors that suffice
BECAUSE = "because"  # its braces are filled with results of sizing, and with sections
AHEAD_OF_MAIN = "ahead_of_main"  # so are those of what is drawn ahead of a main
FILLED_LATER = (ALTERNATIVE_FILLED, BECAUSE, CHECKED, AHEAD_OF_MAIN)
ALTERNATIVE_NEEDED = ("title", ALTERNATIVE_FILLED, "needs")
ALTERNATIVE_STATE = "state"
ALTERNATIVE_WAYS = ("lower", "set", ALTERNATIVE_STATE, "remove", "methods", "given", "conductors", "larger")
ALTERNATIVE_OF_WAY = {"lower": ("loads",), "set": ("loads",), "state": ("loads",), "remove": ("loads",), "given": ("method",)}
ALTERNATIVE_KEYS = (
    *ALTERNATIVE_NEEDED,
    "cite",
    *ALTERNATIVE_WAYS,
    "as",
    "loads",
    "from",
    "down_to",
    "at_least",
    "method",
    "also",
)
BESIDE_KEYS = ("method", "where", "of_new", "answer", "if_not", "drawn", AHEAD_OF_MAIN)
DRAWN_KEYS = (
    "electrode",
    "grounding",
    "bonding",
    "neutral",
    "neutral_too",
    "at_main",
    "electrode_encased",
    "electrode_rod",
)  # what a single-line diagram names beside the supply conductors
CIRCUIT_ROLES = ("minimum", "breaker", "largest", "least", "listed")
CIRCUIT_LISTS = ("in_short", "conductors", "remarks", "put_right", "not_judged", "grounding")
DROP_LISTS = ("drops", "conductors", "grounding")
PANEL_ROLES = ("poles", "own_poles", "proposed", "unlisted", "freed")
PANEL_LISTS = ("spaces",)
SIZING_RESULTS = ("amperes_required", "amperes_nearest", "amperes_compared", "minimum_rating", "capacity", "fits", "margin")
SIZING_OPTIONAL = (
    "offered_rating",
    "conductors_suffice",
    "bus_suffices",
    "with_continuous",
    "with_continuous_passes",
    "conditions_taken",
    "few_disconnects",
    "margin_is_small",
)
SIZING_LISTS = ("conductors", "to_verify")
SIZING_OPTIONAL_LISTS = ("sets",)
REMARKS = (
    "edition",
    "minimum_rating",
    "margin",
    "small_margin",
    "setting",
    "plugged_setting",
    "conductors_short",
    "bus_short",
    "condition",
    "conditions_taken",
    "many_disconnects",
    "attached_garage",
    "spread",
    "label",
)

# Keys of a home file that are also names in the rules.
HOME_KEYS = ("service", "conductors", "loads", "areas", "dwelling_units", "setting", "settings")

# What facts are printed as.
FACTS_KEYS = ("objects", "collections", "connected", "chosen")

# The verdicts that the document of an assessment prints.
VERDICTS = ("fits", "does not fit", "open", "nothing to compare")
