"""What a file leaves open is asked for by name: the key to write under ``meter:`` in the home file."""

from __future__ import annotations

from dwellcalc.meter.tables.table_lines import Told
from dwellcalc.problems import Place, message

TABLE_NEEDS = message(
    "meter_table_needs", "{name} does not tell {what}", "write `{key}: {example}` under `meter:` in the home file"
)

TIME_ZONE, STANDARD_TIME, STAMPS, INTERVAL = "time zone", "standard time", "stamps", "interval"
UNIT, DATE_ORDER, DECIMAL, METER, COLUMNS, FLAGS = "unit", "date order", "decimal", "meter", "columns", "flags"

ASKED = {
    TIME_ZONE: ("the time zone of its stamps", "America/Denver"),
    STANDARD_TIME: ("whether its stamps keep standard time all year", "yes"),
    STAMPS: ("whether a stamp is the start or the end of its interval", "start"),
    INTERVAL: ("how long an interval is", " ".join(("15", "min"))),
    UNIT: ("the unit of its values, energy in each interval or average power", "kWh"),
    DATE_ORDER: ("whether the day or the month stands first in its dates", "month first"),
    DECIMAL: ("whether a point or a comma stands before the decimals", "point"),
    METER: ("which of its series is the dwelling's", ""),
    FLAGS: ("what its flags of quality mean (measured, edited, estimated or suspect)", ""),
    COLUMNS: ("which columns hold what", ""),
}


def ask(told: Told, key: str, because: str = "", example: str = "", place: Place | None = None) -> None:
    """Note that something must be said.

    Args:
        told: the problems of the file.
        key: what to write in the home file.
        because: what was found, added to what is not told.
        example: what to write after the key, where the usual example would not do.
        place: the line that it is about.
    """
    what, usual = ASKED[key]
    told.problems.add(
        TABLE_NEEDS, place, name=told.name, what=f"{what}: {because}" if because else what, key=key, example=example or usual
    )
