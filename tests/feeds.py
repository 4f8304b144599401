"""Feeds of interval data made for tests, with known truth."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

JANUARY = 1672531200  # 2023-01-01 00:00 UTC
WHOLE = {
    "accumulationBehaviour": 4,
    "commodity": 1,
    "dataQualifier": 12,
    "flowDirection": 1,
    "intervalLength": 900,
    "kind": 12,
    "phase": 769,
    "powerOfTenMultiplier": 0,
    "uom": 72,
}


def fields(values: Mapping[str, Any], prefix: str) -> str:
    """Elements, one in the other where a path says so; ``None`` leaves one out."""
    text = ""
    for path, value in values.items():
        if value is None:
            continue
        *outer, name = path.split("/")
        text += "".join(f"<{prefix}{each}>" for each in outer)
        text += f"<{prefix}{name}>{value}</{prefix}{name}>"
        text += "".join(f"</{prefix}{each}>" for each in reversed(outer))
    return text


@dataclass
class Feed:
    """Entries of a feed; ``linked`` gives them links."""

    prefix: str = ""
    linked: bool = True
    entries: list[str] = field(default_factory=list)

    def entry(self, content: str, own: str = "", up: str = "", related: Iterable[str] = (), title: str = "") -> Feed:
        links = ""
        if self.linked:
            links += f'<link rel="self" href="{own}"/>' if own else ""
            links += f'<link rel="up" href="{up}"/>' if up else ""
            links += "".join(f'<link rel="related" href="{each}"/>' for each in related)
        titled = f"<title>{title}</title>" if title else ""
        self.entries.append(f"<entry>{links}{titled}<content>{content}</content></entry>")
        return self

    def resource(self, name: str, inner: str, **links: Any) -> Feed:
        colon = f"{self.prefix}:" if self.prefix else ""
        scope = f'xmlns:{self.prefix}="http://naesb.org/espi"' if self.prefix else 'xmlns="http://naesb.org/espi"'
        return self.entry(f"<{colon}{name} {scope}>{inner}</{colon}{name}>", **links)

    @property
    def mark(self) -> str:
        return f"{self.prefix}:" if self.prefix else ""

    def point(self, number: int = 1, title: str = "", **values: Any) -> Feed:
        inner = fields({"ServiceCategory/kind": 0, **values}, self.mark)
        return self.resource(
            "UsagePoint", inner, own=f"UP/{number}", up="UP", related=[f"UP/{number}/MR", f"UP/{number}/US"], title=title
        )

    def meter_reading(self, number: int = 1, point: int = 1, type_number: int | None = None, title: str = "") -> Feed:
        own = f"UP/{point}/MR/{number}"
        related = [f"{own}/IB", f"RT/{type_number or number}"]
        return self.resource("MeterReading", "", own=own, up=f"UP/{point}/MR", related=related, title=title)

    def reading_type(self, number: int = 1, **values: Any) -> Feed:
        return self.resource("ReadingType", fields({**WHOLE, **values}, self.mark), own=f"RT/{number}", up="RT")

    def block(
        self,
        values: Iterable[Any],
        start: int = JANUARY,
        length: int = 900,
        *,
        meter_reading: int = 1,
        point: int = 1,
        number: int = 1,
        timed: bool = True,
        more: str = "",
        qualities: Mapping[int, Iterable[Any]] | None = None,
        interval: bool = True,
    ) -> Feed:
        values = list(values)
        span = fields({"duration": length * len(values), "start": start}, self.mark)
        inner = f"<{self.mark}interval>{span}</{self.mark}interval>" if interval else ""
        for place, value in enumerate(values):
            quality = "".join(fields({"ReadingQuality/quality": each}, self.mark) for each in (qualities or {}).get(place, ()))
            period = fields({"duration": length, "start": start + place * length}, self.mark)
            when = f"<{self.mark}timePeriod>{period}</{self.mark}timePeriod>" if timed else ""
            inner += (
                f"<{self.mark}IntervalReading>{quality}{when}{fields({'value': value}, self.mark)}</{self.mark}IntervalReading>"
            )
        up = f"UP/{point}/MR/{meter_reading}/IB"
        return self.resource("IntervalBlock", inner + more, own=f"{up}/{number}", up=up)

    def local_time(self, offset: Any = -18000, start: str = "360E2000", end: str = "B40E2000", saving: int = 3600) -> Feed:
        values = {"dstEndRule": end, "dstOffset": saving, "dstStartRule": start, "tzOffset": offset}
        return self.resource("LocalTimeParameters", fields(values, self.mark), own="LT/1", up="LT")

    def summary(self, point: int = 1, name: str = "UsageSummary", **values: Any) -> Feed:
        paths = {path.replace("__", "/"): value for path, value in values.items()}
        return self.resource(name, fields(paths, self.mark), own=f"UP/{point}/US/1", up=f"UP/{point}/US")

    def text(self) -> str:
        inner = "\n".join(self.entries)
        return f'<?xml version="1.0" encoding="UTF-8"?>\n<feed xmlns="http://www.w3.org/2005/Atom">\n{inner}\n</feed>\n'

    def raw(self) -> bytes:
        return self.text().encode()


def plain_feed(values: Iterable[Any] = (100, 200, 300, 400), **type_values: Any) -> Feed:
    """One meter, linked."""
    return Feed().point(title="Front meter").meter_reading().reading_type(**type_values).block(values)
