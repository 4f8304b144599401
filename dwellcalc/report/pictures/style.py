"""How pictures look: the classes of their elements, once for a page that holds them. In black and white it says the same."""

from __future__ import annotations

STYLE = """
.picture { display: block; max-width: 46rem; height: auto; background: #fff; break-inside: avoid; }
.picture text { font-family: "Liberation Sans", Arial, Helvetica, sans-serif; fill: #111; }
.picture .note, .picture .tick { fill: #333; }
.picture .part { fill: #cfd8dc; stroke: #111; stroke-width: 1; }
.picture .whole { fill: #90a4ae; stroke: #111; stroke-width: 1; }
.picture .taken { fill: #90a4ae; stroke: #111; stroke-width: 2; }
.picture .thin { fill: #fff; stroke: #111; stroke-width: 1; }
.picture .open { fill: none; stroke: #111; stroke-width: 1; stroke-dasharray: 3 2; }
.picture .beyond { fill: #fff; stroke: #111; stroke-width: 1; }
.picture .gap { fill: #fff; stroke: #555; stroke-width: 0.5; }
.picture .hatch { fill: none; stroke: #111; stroke-width: 0.7; }
.picture .limit { fill: none; stroke: #111; stroke-width: 2.4; }
.picture .rating { fill: none; stroke: #111; stroke-width: 1.4; stroke-dasharray: 4 3; }
.picture .measure, .picture .rule { fill: none; stroke: #111; stroke-width: 1; }
.picture .grid { fill: none; stroke: #bbb; stroke-width: 0.6; }
.picture .wire { fill: none; stroke: #111; stroke-width: 1.2; }
.picture .bus { fill: none; stroke: #111; stroke-width: 3.5; }
.picture .symbol { fill: #fff; stroke: #111; stroke-width: 1.4; }
.picture .day { fill: #546e7a; stroke: none; }
.picture .highest { fill: #111; stroke: #111; stroke-width: 1; }
"""
