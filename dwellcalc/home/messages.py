"""Every message that reading a home file can give; each begins with the path in the file."""

from __future__ import annotations

from dwellcalc.problems import message

KEY = message("home_key", "{path}: there is no such key here", "keys here: {known}")
KEY_ELSEWHERE = message(
    "home_key_elsewhere",
    "{path}: this key does not stand here",
    "it stands in {places}; the keys of something begin two blanks further in than it does",
)
SAME_KEY = message("home_same_key", "{path}: this key stands here already")
LACKS = message("home_lacks", "{path}: this is missing", "{meaning}")
WANT_MAPPING = message("home_want_mapping", "{path}: this must be keys with values, not {found}", "{known}")
WANT_LIST = message("home_want_list", "{path}: this must be a list, not {found}", "{instead}")
WANT_TEXT = message("home_want_text", "{path}: this must be a single text, not {found}")
EMPTY_TEXT = message("home_empty_text", "{path}: this text is empty")
EMPTY_LIST = message("home_empty_list", "{path}: this list is empty")

WORD = message("home_word", '{path}: "{text}" is not a word that may stand here', "one of: {known}")
SUSPECTED = message(
    "home_suspected", '{path}: "{text}" is not a list of sizes', "write `2 AWG or 4 AWG`, `4 AWG to 1/0 AWG`, or `not seen` alone"
)
SYSTEM = message("home_system", '{path}: there is no supply system "{text}"', "one of: {known}")
KIND_OF_AREA = message(
    "home_kind_of_area",
    '{path}: "{text}" is a kind of area, not of load',
    "an area stands under `areas` of its dwelling unit; one that is planned, such as an addition, says `status: planned` there",
)
KIND = message("home_kind", '{path}: there is no kind of load "{text}"', "one of: {known}")
WHICH_KIND = message("home_which_kind", '{path}: "{text}" may be several kinds of load', "write which one: {kinds}")
DATE = message("home_date", '{path}: "{text}" is not a date', "write it as year-month-day, all in digits")

NOT_A_QUANTITY = message("home_not_a_quantity", '{path}: "{text}" is not a number with a unit', "write a number, then {unit}")
LACKS_UNIT = message("home_lacks_unit", '{path}: "{text}" lacks its unit', 'write "{text} {unit}"')
UNIT = message("home_unit", '{path}: there is no unit "{unit}"', "the units are {known}")
WRONG_UNIT = message("home_wrong_unit", '{path}: "{text}" is not a quantity in {unit}')
NOT_ABOVE_ZERO = message("home_not_above_zero", '{path}: "{text}" is not more than zero')
BOUNDS_ORDER = message("home_bounds_order", '{path}: the bounds of "{text}" do not rise', "the lower one stands first")
TOO_LARGE = message("home_too_large", "{path}: this number is too large to be meant")
NOT_WHOLE = message("home_not_whole", '{path}: "{text}" is not a whole number', "write it in digits")
TOO_FEW = message("home_too_few", '{path}: "{text}" is less than {least}')

RATING = message("home_rating", '{path}: "{text}" is not a rating', "a rating is written as {forms}")
RATING_ALONE = message("home_rating_alone", '{path}: "{text}" alone is not a rating', 'write "{example}"')
CURRENT_ALONE = message(
    "home_current_alone",
    '{path}: "{text}" alone is not a rating',
    'write "{example}" if the nameplate says so; a breaker does not tell the rating of what is on it - if only the breaker was seen, '
    "write `typical`, bounds such as ... kW to ... kW, or `unknown`",
)
RATING_OF_DEVICE = message(
    "home_rating_of_device",
    '{path}: "{text}" is not a rating of the load but of what protects it',
    "write what the nameplate says, such as ... kW or ... A at ... V; if only the breaker was seen, `typical`, bounds, or `unknown`",
)
RATING_OF_LABEL = message(
    "home_rating_of_label",
    '{path}: "{text}" is not a rating as it stands',
    'write "{example}"; the largest fuse or breaker has a key of its own, `maximum overcurrent device`',
)
RATING_NO_UNIT = message("home_rating_no_unit", '{path}: "{text}" lacks its unit', "a rating is written as {forms}")
RATING_NO_NUMBER = message(
    "home_rating_no_number", '{path}: "{text}" lacks its number', "write the number before it; `unknown` where it is not known"
)
DECIMAL_COMMA = message("home_decimal_comma", '{path}: "{text}" has a comma before its decimals', 'write "{instead}"')
RATING_ZERO = message(
    "home_rating_zero",
    '{path}: "{text}" is not more than zero, so it is no rating',
    "a load that is not there is named by kind under `none of`; write `unknown` where it is not known",
)
SETTING_ABOVE_RATING = message(
    "home_setting_above_rating",
    '{path}: the largest setting, "{setting}", is above the rating, "{rating}"',
    "take out the settings that the equipment does not have, or correct the rating",
)
SETTING_ALONE = message(
    "home_setting_alone",
    '{path}: "{setting}" is wanted, and there are no settings to choose from',
    "list them under `settings`; equipment that is fixed at one setting has `rating: setting {setting}`",
)
SETTING_NOT_LISTED = message(
    "home_setting_not_listed",
    '{path}: "{setting}" is wanted, and it is none of the settings',
    "settings: {known}; a setting that the equipment has too is added to them",
)
TWO_VOLTAGES = message(
    "home_two_voltages",
    '{path}: "{text}" names two voltages',
    "write the one that the load is connected at, and the current or power that the nameplate gives for it",
)
NO_LOAD = message(
    "home_no_load",
    '{path}: "{text}" is no load of its own: {why}',
    "enter only what is electrical in it, or leave it out; what burns gas may stand under `not electric`",
)
PART_OF_RATING = message("home_part_of_rating", "{path}: this is part of the rating", "a rating is written as {forms}")

FLAG_BY_KIND = message(
    "home_flag_by_kind",
    '{path}: "{text}" cannot be said of the kind "{kind}": it is "{word}" by kind',
    "take this key out, or choose another kind{instead}",
)
BY_LIST = message(
    "home_by_list",
    "{path}: this is not written by hand",
    "it follows from the list that the load stands in, from `replaces` in `planned`, from `on the circuit of`, and from "
    "`never_together`; a load that comes later and is not counted stands in `planned` with `later: yes`",
)
ONLY_PLANNED = message("home_only_planned", "{path}: this may only stand in an entry of `planned`")
NAME_TAKEN = message("home_name_taken", '{path}: another load is called "{text}" already', "each load has a name of its own")
SAME_NAME = message("home_same_name", '{path}: another {what} is called "{text}" already', "each {what} has a name of its own")
REPLACES = message("home_replaces", '{path}: there is no load "{text}" in the home', "its loads are {known}")
NEVER_TWO = message("home_never_two", "{path}: this must name at least two loads", "a load that never runs is left out")
NEVER_TWICE = message("home_never_twice", '{path}: "{text}" stands in `never_together` already', "one set holds them all")
NEVER_EQUAL = message(
    "home_never_equal", '{path}: "{text}" stands for several equal loads', "write each of them as an entry of its own"
)
NEVER_CARRIED = message(
    "home_never_carried",
    '{path}: "{text}" is on the circuit of another load, so it can stand in no set',
    "name the load whose circuit it is, or take out its `on the circuit of`",
)
CIRCUIT_OF_CARRIED = message(
    "home_circuit_of_carried",
    '{path}: "{text}" cannot name this circuit, since that load, or this one, is on the circuit of another or of itself',
    "one load gives its name to the circuit, and all others on it name that one",
)
NEVER_UNITS = message(
    "home_never_units",
    '{path}: "{text}" is in each of several equal dwelling units, and not all of these loads are in one',
    "write the dwelling units as entries of their own",
)
IN_UNIT = message("home_in_unit", '{path}: there is no dwelling unit "{text}"', "one of: {known}")
IN_LACKS = message(
    "home_in_lacks",
    "{path}: this is missing, and there are several dwelling units",
    "say what the load is in, one of: {known}",
)
HOUSE_LOADS = message(
    "home_house_loads",
    "{path}: a home with one dwelling unit has no house loads",
    "put the loads into the dwelling unit",
)
LEGS = message("home_legs", '{path}: "{text}" does not name line conductors of the supply', "they are {known}")
LEGS_CONNECTION = message(
    "home_legs_connection",
    '{path}: "{text}" names {number}, and the load is connected {connection}',
    "name {wanted}, or say its `connection`",
)
LEGS_THREE_PHASE = message(
    "home_legs_three_phase",
    '{path}: a load on the three lines "{text}" is a three-phase load, and "{rating}" is taken as that of a single-phase one',
    "give its rating in VA or W; from a current it is amperes x volts x the square root of 3",
)
LEG_COUNTS = message(
    "home_leg_counts",
    "{path}: the counts add up to {sum}, not to {quantity}",
    "the counts are of single loads, and add up to the quantity of the load",
)
ABSENT = message(
    "home_absent",
    '{path}: "{text}" is said to be absent, and "{name}" is of that kind',
    "take it out of `none of`, or take out what is there",
)
NOT_ELECTRIC = message(
    "home_not_electric",
    '{path}: "{text}" is said to be not electric, and a load of this file has that name',
    "name here only what burns gas or the like; what of it is electric is a load by another name, such as its blower",
)
EVIDENCE_FORM = message(
    "home_evidence_form",
    "{path}: this must be one word for all that stands beside it, or words by its keys, not {found}",
    "as `evidence: told`, or with keys below it, such as `system: told`",
)
EVIDENCE_KEY = message(
    "home_evidence_key", '{path}: "{text}" is no key beside it whose evidence could be said', "one of: {known}"
)

FED_UNIT = message("home_fed_unit", '{path}: there is no dwelling unit "{text}"', "a feeder feeds a part, or one of: {known}")
FED_LOAD = message("home_fed_load", '{path}: there is no load "{text}" to feed', "the loads are {known}")
FED_AREA = message("home_fed_area", '{path}: there is no area "{text}" to feed', "the areas with names are {known}")
FED_AREAS = message("home_fed_areas", '{path}: several areas are called "{text}"', "give them different names")
FED_TWICE = message(
    "home_fed_twice", '{path}: "{text}" is fed by a feeder already', "each load, area and dwelling unit has one feeder at most"
)
FED_NOTHING = message("home_fed_nothing", "{path}: a part holds at least one load or area", "name what the feeder feeds")
FED_UNITS = message(
    "home_fed_units",
    "{path}: areas and circuits are fed with loads of one dwelling unit only",
    "a feeder of loads alone may feed those of several",
)
PANEL_ON = message("home_panel_on", '{path}: there is no supply "{text}"', "one of: {known}")
PLANNED_PANEL = message("home_planned_panel", '{path}: there is no panel "{text}"', "the panels are {known}")
CIRCUIT_LOAD = message("home_circuit_load", '{path}: there is no load "{text}" for this circuit', "the loads are {known}")
CIRCUIT_SOURCE = message("home_circuit_source", '{path}: there is no source "{text}" for this circuit', "the sources are {known}")
LOAD_OR_FOR = message(
    "home_load_or_for",
    "{path}: the circuit names its load already",
    "write `load` or `source` for one of this file, else `for`",
)

NO_NAME = message(
    "home_no_name",
    '{path}: "{text}" is the name of nobody',
    "write the name and office of who confirmed it, or leave it out where nobody has",
)
FRACTION = message("home_fraction", '{path}: "{text}" is not a number above 0 and up to 1')
BILL_TURNED = message(
    "home_bill_turned", "{path}: the bill ends on {last}, before it begins on {first}", "`from` is its first day, `to` its last"
)
TABLE_FILE_LATER = message(
    "home_table_file_later",
    "{path}: reading loads from a file of their own is not built yet",
    "write them here as a list",
)
WANT_SETTINGS = message(
    "home_want_settings",
    "{path}: this must be a list of settings, or a range, not {found}",
    "as `[... A, ... A]`, or `... A to ... A` where every whole ampere can be set",
)
RANGE_TURNED = message(
    "home_range_turned", '{path}: the range "{text}" does not rise', "write the smallest setting first, then the largest"
)
