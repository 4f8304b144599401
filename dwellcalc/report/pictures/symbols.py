"""Graphic symbols of low-voltage single-line diagrams after IEEE 315 (ANSI Y32.2), each on a wire through a point."""

from __future__ import annotations

from dwellcalc.report.pictures.drawing import SIZE, SMALL, Drawing

LEGEND = (
    "Facing coils: transformer of the utility. Circle with M: meter. Gap with an arc: overcurrent device, drawn as a circuit "
    "breaker. Slanted line over a gap: disconnect. Thick line: bus. Dashed: later, or not sized here. Three short lines: grounding electrode."
)
HEIGHT = 26.0  # of a symbol with its wire, along the wire
COIL, TURNS = 4.0, 3
EDGE = 7.0  # of wire before and after the gap of a device
METER = 9.0
BULGE = 0.6  # radius of the arc of a device over its gap
GROUND = ((8.0, 0.0), (5.0, 4.0), (2.0, 8.0))  # half the width of each line, and how far it is below the first


def transformer(drawing: Drawing, x: float, y: float) -> float:
    """Two windings, from a point downwards; returns where the wire goes on."""
    upper, lower = y + EDGE, y + HEIGHT - EDGE
    left = x - COIL * TURNS
    drawing.line([(x, y), (x, upper)], "wire")
    for turn in range(TURNS):
        begin = left + 2 * COIL * turn
        drawing.arc((begin + 2 * COIL, upper), (begin, upper), COIL, "wire")
        drawing.arc((begin, lower), (begin + 2 * COIL, lower), COIL, "wire")
    drawing.line([(x, lower), (x, y + HEIGHT)], "wire")
    return y + HEIGHT


def meter(drawing: Drawing, x: float, y: float) -> float:
    """A meter, from a point downwards; returns where the wire goes on."""
    middle = y + HEIGHT / 2
    drawing.line([(x, y), (x, y + HEIGHT)], "wire")
    drawing.circle((x, middle), METER, "symbol")
    drawing.text((x, middle + SMALL / 2 - 1), "M", "letter", SMALL, "middle")
    return y + HEIGHT


def device(drawing: Drawing, x: float, y: float) -> float:
    """An overcurrent device, from a point downwards; returns where the wire goes on."""
    above, below = y + EDGE, y + HEIGHT - EDGE
    drawing.line([(x, y), (x, above)], "wire")
    drawing.arc((x, above), (x, below), BULGE * (below - above), "wire")
    drawing.line([(x, below), (x, y + HEIGHT)], "wire")
    return y + HEIGHT


def disconnect(drawing: Drawing, x: float, y: float) -> float:
    """A disconnect switch, from a point downwards; returns where the wire goes on."""
    above, below = y + EDGE, y + HEIGHT - EDGE
    drawing.line([(x, y), (x, above)], "wire")
    drawing.line([(x - EDGE, above), (x, below)], "wire")
    drawing.line([(x, below), (x, y + HEIGHT)], "wire")
    return y + HEIGHT


def device_across(drawing: Drawing, x: float, y: float, look: str = "wire") -> float:
    """An overcurrent device, from a point to the right; returns where the wire goes on."""
    before, after = x + EDGE, x + HEIGHT - EDGE
    drawing.line([(x, y), (before, y)], look)
    drawing.arc((before, y), (after, y), BULGE * (after - before), look)
    drawing.line([(after, y), (x + HEIGHT, y)], look)
    return x + HEIGHT


def electrode(drawing: Drawing, x: float, y: float) -> None:
    """A grounding electrode, to the left of a point and below it."""
    left = x - SIZE
    drawing.line([(x, y), (left, y), (left, y + EDGE)], "wire")
    for half, below in GROUND:
        drawing.line([(left - half, y + EDGE + below), (left + half, y + EDGE + below)], "wire")
