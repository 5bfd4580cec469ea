"""The picture of one jump: height against frames, the five events, the fitted flight and the one in real time."""

import math
from collections.abc import Mapping, Sequence
from typing import Any

from .labels import EVENTS, figure_text, frame_text
from .svg import Scale, dots, line, path, picture, stairs, text

WIDTH, HEIGHT = 640, 210
LEFT, RIGHT, TOP, BOTTOM = 44, 10, 20, 26
SAME_PACE = 0.02
"""Air pace off 1 by less: both arcs would lie on one another."""
FEW = 80
"""Samples up to which each gets a dot."""
WORD = 24
"""Width of half a word, near enough."""
FRAME_STEPS = (1, 2, 5, 10, 20, 50, 100, 200, 500, 1000)
Points = list[tuple[float, float]]


def height_plot(jump: Mapping[str, Any], *, title: str, earlier: Mapping[str, Any] | None = None) -> str:
    """Draw a jump of the audit's document, and behind it an earlier take's with takeoff on takeoff.

    Raises KeyError where the jump carries no `path`.
    """
    track = _points(jump["path"])
    past = _on_takeoff(earlier, jump) if earlier is not None else []
    arcs = _arcs(jump)
    events = [(name, jump[name]) for name in EVENTS if jump[name]]
    heights = [height for _, height in [*track, *past, *(point for arc in arcs.values() for point in arc)]]
    low, high = min(heights), max(heights)
    room = max(high - low, 0.01) * 0.08
    low, high = low - 2.0 * room, high + room  # below, the words of crouch and absorbed
    across = Scale(track[0][0], track[-1][0], LEFT, WIDTH - RIGHT)
    down = Scale(high, low, TOP, HEIGHT - BOTTOM)

    def drawn(points: Points) -> Points:
        return [(across(frame), down(height)) for frame, height in points if across.low <= frame <= across.high]

    inside = [*_frame_ticks(across), *_height_ticks(down), _air(jump, across)]
    inside += [path("past", line(drawn(past)))] if past else []
    inside.append(path("track", (stairs if jump["held"] else line)(drawn(track))))
    inside += [path("dots", dots(drawn(track)))] if len(track) <= FEW else []
    inside += [path(kind, line(drawn(arc))) for kind, arc in arcs.items()]
    aside = across(jump["apex"]["frame"]) - across(jump["takeoff"]["frame"]) < WORD  # a fall begins at its apex
    inside += [_event(name, across(event["frame"]), down(event["height"]), aside=aside) for name, event in events]
    return picture(WIDTH, HEIGHT, inside, told=f"{title}: {told(jump)}", kind="plot")


def told(jump: Mapping[str, Any]) -> str:
    """The picture in words."""
    frames = ", ".join(f"{name} at frame {frame_text(jump[name]['frame'])}" for name in ("takeoff", "apex", "landing"))
    return f"{frames}, {figure_text(jump['jump_height'])} meters high"


def _points(of: Mapping[str, Any]) -> Points:
    return list(zip(of["frames"], of["z"], strict=True))


def _on_takeoff(earlier: Mapping[str, Any], jump: Mapping[str, Any]) -> Points:
    later = jump["takeoff"]["frame"] - earlier["takeoff"]["frame"]
    higher = jump["takeoff"]["height"] - earlier["takeoff"]["height"]
    return [(frame + later, height + higher) for frame, height in _points(earlier["path"])]


def _arcs(jump: Mapping[str, Any]) -> dict[str, Points]:
    """The fitted arc, and that of the shot's gravity through the same apex where it is another."""
    fitted, pace = jump["fitted_gravity"], jump["air_pace"]
    if fitted is None or fitted <= 0.0 or not pace:
        return {}
    arcs = {"arc": _parabola(jump, fitted)}
    if abs(pace - 1.0) > SAME_PACE:
        arcs["real"] = _parabola(jump, fitted / pace**2)
    return arcs


def _parabola(jump: Mapping[str, Any], gravity: float) -> Points:
    """From the height of takeoff over the apex down to that of landing."""
    apex, count = jump["apex"], 24
    up, down = (math.sqrt(2.0 * max(jump[name], 0.0) / gravity) for name in ("jump_height", "drop_height"))
    seconds = [-up + (up + down) * part / count for part in range(count + 1)]
    return [(apex["frame"] + time * jump["fps"], apex["height"] - 0.5 * gravity * time**2) for time in seconds]


def _air(jump: Mapping[str, Any], across: Scale) -> str:
    start, end = (across(jump[name]["frame"]) for name in ("takeoff", "landing"))
    return f'<path class=air d="M{start:.0f} {TOP}H{end:.0f}V{HEIGHT - BOTTOM}H{start:.0f}z"/>'


def _frame_ticks(across: Scale) -> list[str]:
    step = next((step for step in FRAME_STEPS if (across.high - across.low) / step <= 14), FRAME_STEPS[-1])
    base = HEIGHT - BOTTOM
    frames = range(math.ceil(across.low / step) * step, math.floor(across.high) + 1, step)
    grid = "".join(f"M{across(frame):.0f} {TOP}V{base}" for frame in frames)
    words = [text(across(frame), base + 13, str(frame), anchor="m") for frame in frames]
    return [path("grid", grid), *words, text(WIDTH - RIGHT, HEIGHT - 2, "frames", anchor="e")]


def _height_ticks(down: Scale) -> list[str]:
    high, low = down.low, down.high  # the scale runs downward
    decade = 10.0 ** math.floor(math.log10(high - low))
    step = next(part * decade for part in (0.1, 0.2, 0.5, 1.0, 2.0) if (high - low) / (part * decade) <= 6)
    digits = max(0, -math.floor(math.log10(step) + 1e-9))
    heights = [place * step for place in range(math.ceil(low / step), math.floor(high / step) + 1)]
    grid = "".join(f"M{LEFT} {down(height):.0f}H{WIDTH - RIGHT}" for height in heights)
    words = [text(LEFT - 5, down(height) + 4, f"{height + 0.0:.{digits}f}", anchor="e") for height in heights]
    return [path("grid", grid), *words, text(LEFT - 5, 11, "meters", anchor="e")]


def _event(name: str, x: float, y: float, *, aside: bool) -> str:
    base, below = HEIGHT - BOTTOM, name in ("crouch", "absorbed")
    other = ("", 7) if aside and name == "apex" else ("m", 0)
    anchor, shift = {"takeoff": ("e", -7), "landing": ("", 7)}.get(name, other)
    height = y + 16 if below and y + 16 < base else y - 8
    drawn = path("stem", f"M{x:.0f} {y:.0f}V{base}") + path("mark", f"M{x:.0f} {y:.0f}h0")
    return drawn + text(x + shift, height, name, anchor=anchor, kind="event")


def shows(jump: Mapping[str, Any], names: Sequence[str] = ("path",)) -> bool:
    """Say whether a document's jump carries what a picture is drawn from; older documents do not."""
    return all(jump.get(name) for name in names)
