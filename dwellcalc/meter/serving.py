"""Which channel of a file tells the load of the dwelling."""

from __future__ import annotations

from dwellcalc.meter.record import DELIVERED, NET, RECEIVED, Channel, Readings, Said
from dwellcalc.problems import fail, message, nearest_name

SEVERAL_METERS = message(
    "meter_several",
    'the file "{name}" holds readings of several meters or registers',
    "write which one is meant under `meter:` in the home file, as in `meter: {first}`; in the file: {known}",
)
NO_METER = message("meter_absent", 'the file "{name}" holds no readings of "{meter}"', "in the file: {known}")
NO_LOAD = message("meter_no_load", 'the file "{name}" holds no readings of what the dwelling takes', "it holds: {known}")


def serving(readings: Readings, said: Said) -> Channel:
    """The channel of what flows to the dwelling; with several meters the one that the user names.

    Raises:
        InputError: it is not said which of several meters is meant, or there is none that serves.
    """
    place = said.places.get("meter")
    meters = list(dict.fromkeys(channel.meter for channel in readings.channels))
    if said.meter and said.meter not in meters:
        near = nearest_name(said.meter, meters)
        fail(NO_METER, place, name=readings.name, meter=said.meter, known=", ".join(meters), nearest=near)
    loads = [each for each in readings.channels if each.direction != RECEIVED and len(each) > 0]
    loads = [each for each in loads if each.meter == said.meter or not said.meter]
    if not loads:
        known = "; ".join(f"{each.meter or 'a meter without a name'}, {each.direction}" for each in readings.channels)
        fail(NO_LOAD, place, name=readings.name, known=known or "nothing")
    if len({each.meter for each in loads}) > 1:
        fail(SEVERAL_METERS, place, name=readings.name, first=meters[0], known=", ".join(meters))
    for direction in (DELIVERED, NET):
        for each in loads:
            if each.direction == direction:
                return each
    return loads[0]
