"""The code tables of the ESPI standard (NAESB REQ.21, schema 4.0) that reading needs, as the schema states them."""

from __future__ import annotations

from dwellcalc.meter.record import (
    DELIVERED,
    EDITED,
    ESTIMATED,
    MEASURED,
    NET,
    NOT_SAID,
    NOT_VALIDATED,
    POSSIBLY_ESTIMATED,
    RECEIVED,
    SUSPECT,
    TOTAL,
)

ATOM = "http://www.w3.org/2005/Atom"
ESPI = "http://naesb.org/espi"

# ServiceCategory/kind: what a usage point supplies. An absent one is taken by the units of its readings.
ELECTRICITY = 0
SERVICES = {
    ELECTRICITY: "electricity",
    1: "gas",
    2: "water",
    3: "time",
    4: "heat",
    5: "refuse",
    6: "sewerage",
    7: "rates",
    8: "television",
    9: "internet",
}

# ReadingType/uom: of these two a load can be told.
WATT_HOURS, WATTS = 72, 38
UNITS = {
    WATT_HOURS: "Wh",
    WATTS: "W",
    5: "amperes",
    29: "volts",
    31: "joules",
    42: "cubic meters",
    61: "VA",
    63: "var",
    65: "power factor",
    71: "VAh",
    73: "varh",
    106: "ampere-hours",
    119: "cubic feet",
    120: "compensated cubic feet",
    132: "Btu",
    169: "therms",
}

# ReadingType/powerOfTenMultiplier: a value is multiplied by ten to this power.
MULTIPLIERS = frozenset((-12, -9, -6, -3, -2, -1, 0, 1, 2, 3, 6, 9, 12))

# ReadingType/flowDirection.
FLOWS = {0: NOT_SAID, 1: DELIVERED, 19: RECEIVED, 4: NET, 20: TOTAL}

# ReadingType/kind: which kinds go with a unit. 0 is "not applicable", and an absent one says nothing.
KIND_ENERGY, KIND_POWER, KIND_DEMAND = 12, 37, 8
KINDS_OF_UNIT = {WATT_HOURS: (0, KIND_ENERGY), WATTS: (0, KIND_POWER, KIND_DEMAND)}

# ReadingType/accumulationBehaviour: only what flowed in each interval is a load profile.
BY_INTERVAL = 4
ACCUMULATIONS = {
    0: "not applicable",
    1: "a register that rolls over",
    2: "a register that adds up",
    3: "a sum of earlier demands",
    BY_INTERVAL: "what flowed in each interval",
    6: "an indicated value",
    9: "a summation",
    12: "an instantaneous value",
    13: "a latched value",
    14: "a bounded quantity",
}

# ReadingType/dataQualifier: 0 none, 2 average, 12 normal, 26 sum; maxima and minima are no profile.
PLAIN_QUALIFIERS = (0, 2, 12, 26)
QUALIFIERS = {8: "maximum values", 9: "minimum values", 11: "nominal values"}

# ReadingType/commodity: 1 is electricity metered at the secondary, 2 at the primary of instrument transformers.
NO_COMMODITY, SECONDARY, PRIMARY = 0, 1, 2
ELECTRICAL_COMMODITIES = (NO_COMMODITY, SECONDARY, PRIMARY)

# ReadingType/phase: one line conductor of a split-phase service (S1, S1-N, S2, S2-N); S1-S2 leaves the neutral out.
ONE_LINE_PHASES = (512, 528, 256, 272)
LINE_TO_LINE_ONLY = 768

# ReadingType/measuringPeriod: blocks of time that slide.
SLIDING_PERIODS = range(57, 78)

# UsagePoint/roleFlags, 16 bits in hexadecimal.
AGGREGATION_ROLE, VEHICLE_ROLE, GENERATION_ROLE = 4, 8, 16

# QualityOfReading: what each code says, by the classes of a record.
READING_QUALITIES = {
    0: MEASURED,  # valid
    7: EDITED,  # replaced or approved by a human
    8: ESTIMATED,  # replaced by a computed value of earlier data
    9: ESTIMATED,  # by linear interpolation
    10: SUSPECT,  # failed a check
    11: ESTIMATED,  # calculated
    12: ESTIMATED,  # projected
    13: SUSPECT,  # mixed
    14: NOT_VALIDATED,  # raw
    15: ESTIMATED,  # adjusted for weather
    16: SUSPECT,  # other
    17: POSSIBLY_ESTIMATED,  # validated, and possibly edited or estimated
    18: MEASURED,  # failed a check, but judged actual
    19: MEASURED,  # acceptable for billing
}

# LocalTimeParameters: a rule of 32 bits with its first bit on is one that never comes.
NO_RULE = 0xFFFFFFFF
WEEKDAYS = ("", "Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
ORDINALS = ("", "", "first", "second", "third", "fourth", "fifth", "last")  # by the operator of a rule
MONTHS = (
    *("", "January", "February", "March", "April", "May", "June"),
    *("July", "August", "September", "October", "November", "December"),
)

# The rules that hold in the United States since 2007, and zones that keep them, by their offset from UTC [s].
UNITED_STATES_RULES = (0x360E2000, 0xB40E2000)
UNITED_STATES_ZONES = {
    -18000: "America/New_York",
    -21600: "America/Chicago",
    -25200: "America/Denver",
    -28800: "America/Los_Angeles",
    -32400: "America/Anchorage",
}
