"""A jump seen from above: where it travels, a dot a frame, takeoff to landing in true proportion."""

import math
from collections.abc import Mapping
from typing import Any

from .labels import figure_text
from .svg import dots, line, path, picture, text

ABOVE_WIDTH, ABOVE_MOST_HEIGHT, ABOVE_LEAST_HEIGHT, ABOVE_EDGE = 640, 140, 66, 22
TRAVEL = frozenset({"travel-drift", "travel-stop", "travel-swerve"})
"""Findings that speak of the travel."""


def speaks_of_travel(jump: Mapping[str, Any]) -> bool:
    """Say whether a finding of the jump is about its travel."""
    return any(finding["code"] in TRAVEL for finding in jump["findings"])


def above_plot(jump: Mapping[str, Any], *, title: str) -> str:
    """Draw the path from above with the travel, takeoff to landing, from left to right."""
    frames = jump["path"]["frames"]
    turned = _along(jump)
    low, high = ([pick(axis) for axis in zip(*turned, strict=True)] for pick in (min, max))
    wide, deep = (max(b - a, 1e-3) for a, b in zip(low, high, strict=True))
    scale = min((ABOVE_WIDTH - 2 * ABOVE_EDGE) / wide, (ABOVE_MOST_HEIGHT - 2 * ABOVE_EDGE) / deep)
    height = max(deep * scale + 2 * ABOVE_EDGE, ABOVE_LEAST_HEIGHT)
    middle = [(a + b) / 2.0 for a, b in zip(low, high, strict=True)]
    drawn = [(ABOVE_WIDTH / 2 + (x - middle[0]) * scale, height / 2 - (y - middle[1]) * scale) for x, y in turned]
    first, last = jump["takeoff"]["frame"], jump["landing"]["frame"]
    air = [point for frame, point in zip(frames, drawn, strict=True) if first <= frame <= last]
    inside = [path("grid", f"M{air[0][0]:.0f} {air[0][1]:.0f}L{air[-1][0]:.0f} {air[-1][1]:.0f}"),
              path("ground", line(drawn)), path("track", line(air)), path("dots", dots(air)),
              _bar(scale, height)]  # fmt: skip
    for name, point in (("takeoff", air[0]), ("landing", air[-1])):
        inside.append(path("mark", f"M{point[0]:.0f} {point[1]:.0f}h0"))
        inside.append(text(point[0], point[1] - 9, name, anchor="m", kind="event"))
    told = f"{title} from above: {figure_text(jump['distance'])} meters from takeoff to landing"
    return picture(ABOVE_WIDTH, height, inside, told=told, kind="above")


def _along(jump: Mapping[str, Any]) -> list[tuple[float, float]]:
    """Return points turned so that the travel runs along x."""
    of = jump["path"]
    points = list(zip(of["x"], of["y"], strict=True))
    inside = [point for frame, point in zip(of["frames"], points, strict=True)
              if jump["takeoff"]["frame"] <= frame <= jump["landing"]["frame"]]  # fmt: skip
    (x0, y0), (x1, y1) = inside[0], inside[-1]
    length = math.hypot(x1 - x0, y1 - y0)
    cos, sin = ((x1 - x0) / length, (y1 - y0) / length) if length > 1e-6 else (1.0, 0.0)
    return [((x - x0) * cos + (y - y0) * sin, (y - y0) * cos - (x - x0) * sin) for x, y in points]


def _bar(scale: float, height: float) -> str:
    """Return a measuring bar: the longest of 1, 2 and 5 of a decade that takes a fifth of the width at most."""
    most = ABOVE_WIDTH / 5 / scale
    decade = 10.0 ** math.floor(math.log10(most))
    meters = max(part * decade for part in (1, 2, 5) if part * decade <= most)
    bar = path("bar", f"M{ABOVE_EDGE} {height - 8:.0f}h{meters * scale:.0f}")
    return bar + text(ABOVE_EDGE + meters * scale + 6, height - 4, f"{meters:g} m")
