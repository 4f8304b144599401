"""The names of a glossary that a home file fills by themselves, beside those that it takes as they are."""

from __future__ import annotations

HOME, SUPPLY = "home", "supply"
STATE, TO_BE_INSTALLED = "state", "to_be_installed"  # of a supply
EXISTING_WORK = ("existing", "addition")  # of a home that is there
AREA, AREA_STATUS = "area", "area_status"
UNITS, AREAS, LOADS = "dwelling_units", "areas", "loads"
LINES, PAIRS = "line_conductors", "line_pairs"
PANELS, CIRCUITS, SOURCES = "panels", "circuits", "sources"
AREA_KIND = "area_kind"
LOAD_REPLACED, LOAD_PLANNED = "load_replaced", "load_planned"
BREAKER, BREAKER_LISTED = "breaker", "breaker_listed"  # of a circuit; of the load that it is for
LIKE_FOR_LIKE, HOUSE_LOAD = "like_for_like", "house_load"  # of a load, by where it stands and what it replaces
MARKED_AMPACITY = "minimum_circuit_ampacity"
MARKED = (MARKED_AMPACITY, "maximum_overcurrent_device")  # what a nameplate states beside the rating
TAKEN_FROM_BREAKER = "taken_from_breaker"  # of a load whose rating nobody has read
ATTACHMENT = "attachment"  # of a load to its circuit
LATER = "later"  # of a planned load that is not counted
NEVER_TOGETHER, TURN = "never_together", "turn"
ON_CIRCUIT, CARRIES, INDIVIDUAL = "on_circuit_of_another", "carries_others", "individual_circuit"
FASTENED = "fastened_in_place"

FROM_SYSTEM, FROM_KIND, FROM_RATING = "system", "kind", "rating"
FROM_DISCONNECTS, FROM_SOURCE = "disconnects", "source"
CONDUCTOR = "conductor_"
SIZE, MATERIAL, SETS, INSULATION = "conductor_size", "conductor_material", "conductor_sets", "conductor_insulation"
LEGS_SAID, CONNECTION, THREE_PHASE = "legs_said", "connection", "three_phase"
POWERS = ("volt_amperes", "watts")  # the ratings that do not ask how many phases there are
LINE_TO_NEUTRAL = "line_to_neutral"  # the connection with one line conductor; others have two or more
LINE_TO_LINE = "line_to_line"
VOLTAGE, TO_NEUTRAL, NAMEPLATE_VOLTS = "voltage", "line_to_neutral_voltage", "volts"
RATING = "rating"  # of the main overcurrent device of a supply
IS_SERVICE, WHOLE_DWELLING, PART_OF_DWELLING = "service", "whole_dwelling", "part_of_dwelling"
DISCONNECTS, NUMBER_OF_DISCONNECTS, MAIN = "disconnects", "number_of_disconnects", "main_overcurrent_device"
OF_SOURCE, OPPOSITE_END = "of_source", "opposite_end"
