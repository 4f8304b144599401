"""From a path to readings: what the file holds, read by its form, its parts joined to one record."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path

from dwellcalc.meter.feeds.espi import read_espi
from dwellcalc.meter.feeds.espi_types import NO_LOAD
from dwellcalc.meter.files.containers import Part, opened
from dwellcalc.meter.record import Channel, Readings, Said
from dwellcalc.meter.tables.tabular import read_table
from dwellcalc.problems import InputError

Headings = Mapping[str, Sequence[str]]


def read_record(path: Path, said: Said, headings: Headings, name: str = "") -> Readings:
    """Read a file of interval data.

    Args:
        path: an ESPI feed or a table, plain or packed; a zip file may hold several of one form.
        said: what the user says of it.
        headings: the headings of columns by what they hold, for tables.
        name: what the user calls it; the path where empty.

    Raises:
        InputError: it cannot be read, or tells too little.
    """
    shown = name or str(path)
    found: list[Readings] = []
    without_load: list[InputError] = []
    with opened(path, shown) as parts:
        for part in parts:
            try:
                found.append(_read(part, said, headings))
            except InputError as error:
                if any(problem.message is not NO_LOAD for problem in error.problems):
                    raise
                without_load.append(error)
    if not found:
        raise InputError([problem for error in without_load for problem in error.problems])
    joined = found[0] if len(found) == 1 else _joined(found, shown)
    joined.remarks += [f"left out: {problem.text}" for error in without_load for problem in error.problems]
    return joined


def _read(part: Part, said: Said, headings: Headings) -> Readings:
    if part.is_xml:
        return read_espi(part.stream, part.name, said)
    return read_table(part.lines(), part.name, said, headings)


def _joined(parts: list[Readings], name: str) -> Readings:
    """One record of several: the channels of one meter and direction follow each other."""
    first = parts[0]
    channels: dict[tuple[str, str, bool], Channel] = {}
    remarks = [f"read from {len(parts)} files in one"]
    for part in parts:
        if part.zone.key != first.zone.key:
            remarks.append(
                f"the files tell different time zones: days and months are counted in that of the first, {first.zone.key}"
            )
        for channel in part.channels:
            key = (channel.meter, channel.direction, channel.one_line)
            if key in channels:
                _append(channels[key], channel, remarks)
            else:
                channels[key] = channel
    return Readings(
        name=name,
        layout=_each_once(each for part in parts for each in part.layout),
        zone=first.zone,
        channels=list(channels.values()),
        remarks=_each_once([*remarks, *(each for part in parts for each in part.remarks)]),
        summed=list(dict.fromkeys(each for part in parts for each in part.summed)),
        stamps=first.stamps,
        tells_quality=any(part.tells_quality for part in parts),
    )


def _append(channel: Channel, further: Channel, remarks: list[str]) -> None:
    channel.starts += further.starts
    channel.lengths += further.lengths
    channel.energy += further.energy
    channel.quality += further.quality
    channel.step = min((step for step in (channel.step, further.step) if step > 0), default=0.0)
    if channel.declared_length != further.declared_length:
        remarks.append("the files declare intervals of different lengths")
        channel.declared_length = 0


def _each_once(texts: Iterable[str]) -> list[str]:
    return list(dict.fromkeys(texts))
