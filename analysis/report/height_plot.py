"""The picture of one jump: height against frames, the five events, the fitted flight and the one in real time."""

import math
from collections.abc import Mapping, Sequence
from typing import Any

from ..track import EVENTS
from .labels import figure_text, frame_text
from .svg import PixelScale, dots, line, path, picture, stairs, text

PLOT_WIDTH, PLOT_HEIGHT = 640, 210
PLOT_LEFT, PLOT_RIGHT, PLOT_TOP, PLOT_BOTTOM = 44, 10, 20, 26
SAME_PACE = 0.02
"""Distance of the air pace from 1 under which both arcs would lie on one another."""
MOST_DOTS = 80
"""Most samples of which each gets a dot."""
HALF_WORD_WIDTH = 24
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
    across = PixelScale(track[0][0], track[-1][0], PLOT_LEFT, PLOT_WIDTH - PLOT_RIGHT)
    down = PixelScale(high, low, PLOT_TOP, PLOT_HEIGHT - PLOT_BOTTOM)

    def drawn(points: Points) -> Points:
        return [(across(frame), down(height)) for frame, height in points if across.low <= frame <= across.high]

    inside = [*_frame_ticks(across), *_height_ticks(down), _air(jump, across)]
    inside += [path("past", line(drawn(past)))] if past else []
    kind = '"track dotted"' if len(track) <= MOST_DOTS and not jump["held"] else "track"
    inside.append(path(kind, (stairs if jump["held"] else line)(drawn(track))))
    inside += [path(kind, curve(arc, across, down)) for kind, arc in arcs.items()]
    marks = [(across(event["frame"]), down(event["height"])) for _, event in events]
    inside.append(path("stem", "".join(f"M{x:.0f} {y:.0f}V{PLOT_HEIGHT - PLOT_BOTTOM}" for x, y in marks)))
    inside.append(path("mark", dots(marks)))
    aside = (
        across(jump["apex"]["frame"]) - across(jump["takeoff"]["frame"]) < HALF_WORD_WIDTH
    )  # a fall begins at its apex
    inside += [_word(name, x, y, aside=aside) for (name, _), (x, y) in zip(events, marks, strict=True)]
    return picture(PLOT_WIDTH, PLOT_HEIGHT, inside, told=f"{title}, {plot_in_words(jump)}", kind="plot")


def plot_in_words(jump: Mapping[str, Any]) -> str:
    """Return the picture in words."""
    frames = ", ".join(f"{name} at frame {frame_text(jump[name]['frame'])}" for name in ("takeoff", "apex", "landing"))
    return f"{frames}, {figure_text(jump['jump_height'])} meters high"


def _points(of: Mapping[str, Any]) -> Points:
    return list(zip(of["frames"], of["z"], strict=True))


def _on_takeoff(earlier: Mapping[str, Any], jump: Mapping[str, Any]) -> Points:
    later = jump["takeoff"]["frame"] - earlier["takeoff"]["frame"]
    higher = jump["takeoff"]["height"] - earlier["takeoff"]["height"]
    return [(frame + later, height + higher) for frame, height in _points(earlier["path"])]


def _arcs(jump: Mapping[str, Any]) -> dict[str, Points]:
    """Return the fitted arc, and that of the shot's gravity through the same apex where it is another."""
    fitted, pace = jump["fitted_gravity"], jump["air_pace"]
    if fitted is None or fitted <= 0.0 or not pace:
        return {}
    arcs = {"arc": _parabola(jump, fitted)}
    if abs(pace - 1.0) > SAME_PACE:
        arcs["real"] = _parabola(jump, fitted / pace**2)
    return arcs


def _parabola(jump: Mapping[str, Any], gravity: float) -> Points:
    """Return start, apex and end of a parabola, from the height of takeoff over the apex down to that of landing."""
    apex, frames = jump["apex"], jump["fps"] / math.sqrt(gravity / 2.0)
    up, down = max(jump["jump_height"], 0.0), max(jump["drop_height"], 0.0)
    return [
        (apex["frame"] - math.sqrt(up) * frames, apex["height"] - up),
        (apex["frame"], apex["height"]),
        (apex["frame"] + math.sqrt(down) * frames, apex["height"] - down),
    ]


def curve(arc: Points, across: PixelScale, down: PixelScale) -> str:
    """Return a parabola through its start, apex and end as a quadratic Bézier curve, which it is exactly.

    The control point lies where the tangents at both ends meet: halfway across, and there on the start's tangent.
    """
    (start, low), (top, high), (end, lower) = arc
    middle = (start + end) / 2.0
    steep = 2.0 * (high - low) / (top - start) if start < top else 0.0  # a fall starts level
    height = low + steep * (middle - start)
    ends = [(across(frame), down(up)) for frame, up in ((start, low), (middle, height), (end, lower))]
    (x0, y0), (x1, y1), (x2, y2) = ends
    return f"M{x0:.0f} {y0:.0f}Q{x1:.0f} {y1:.0f} {x2:.0f} {y2:.0f}"


def _air(jump: Mapping[str, Any], across: PixelScale) -> str:
    start, end = (across(jump[name]["frame"]) for name in ("takeoff", "landing"))
    return f'<path class=air d="M{start:.0f} {PLOT_TOP}H{end:.0f}V{PLOT_HEIGHT - PLOT_BOTTOM}H{start:.0f}z"/>'


def _frame_ticks(across: PixelScale) -> list[str]:
    step = next((step for step in FRAME_STEPS if (across.high - across.low) / step <= 9), FRAME_STEPS[-1])
    base = PLOT_HEIGHT - PLOT_BOTTOM
    frames = range(math.ceil(across.low / step) * step, math.floor(across.high) + 1, step)
    grid = "".join(f"M{across(frame):.0f} {PLOT_TOP}V{base}" for frame in frames)
    words = "".join(f"<text x={across(frame):.0f}>{frame}</text>" for frame in frames)
    ticks = f'<g class=m transform="translate(0 {base + 13})">{words}</g>'
    return [path("grid", grid), ticks, text(PLOT_WIDTH - PLOT_RIGHT, PLOT_HEIGHT - 2, "frames", anchor="e")]


def _height_ticks(down: PixelScale) -> list[str]:
    high, low = down.low, down.high  # the scale runs downward
    decade = 10.0 ** math.floor(math.log10(high - low))
    step = next(part * decade for part in (0.1, 0.2, 0.5, 1.0, 2.0) if (high - low) / (part * decade) <= 6)
    digits = max(0, -math.floor(math.log10(step) + 1e-9))
    heights = [place * step for place in range(math.ceil(low / step), math.floor(high / step) + 1)]
    grid = "".join(f"M{PLOT_LEFT} {down(height):.0f}H{PLOT_WIDTH - PLOT_RIGHT}" for height in heights)
    words = "".join(f"<text y={down(height):.0f}>{height + 0.0:.{digits}f}</text>" for height in heights)
    ticks = f'<g class=e transform="translate({PLOT_LEFT - 5} 4)">{words}</g>'
    return [path("grid", grid), ticks, text(PLOT_LEFT - 5, 11, "meters", anchor="e")]


def _word(name: str, x: float, y: float, *, aside: bool) -> str:
    base, below = PLOT_HEIGHT - PLOT_BOTTOM, name in ("crouch", "absorbed")
    other = ("", 7) if aside and name == "apex" else ("m", 0)
    anchor, shift = {"takeoff": ("e", -7), "landing": ("", 7)}.get(name, other)
    height = y + 16 if below and y + 16 < base else y - 8
    return text(x + shift, height, name, anchor=anchor, kind="event")


def can_be_drawn(jump: Mapping[str, Any], names: Sequence[str] = ("path",)) -> bool:
    """Say whether a document's jump carries what a picture is drawn from; older documents do not."""
    return all(jump.get(name) for name in names)
