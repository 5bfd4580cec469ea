"""The picture of one jump as SVG: its height against frames, the five events, the fitted arc."""

from html import escape

import numpy as np

from ..jump import Event, Jump
from ..track import Track
from .labels import figure_text, frame_text

WIDTH, HEIGHT = 640, 220
LEFT, RIGHT, TOP, BOTTOM = 46, 14, 22, 30
AROUND = 0.35
"""Share of the jump's length shown before and after it."""
SAME_PACE = 0.02
"""Air pace off 1 by less: both arcs would lie on one another."""
WORD = 24
"""Width of half a word, near enough."""
STEPS = (1, 2, 5, 10, 20, 50, 100, 200, 500, 1000)


def jump_chart(track: Track, jump: Jump, *, title: str) -> str:
    """Draw one jump of a track; title is read out where the picture is not seen."""
    first, last, events = _span(track, jump)
    shown = (track.frames >= first) & (track.frames <= last)
    frames, heights = track.frames[shown], track.heights[shown]
    low = min(heights.min(), *(event.height for _, event in events))
    high = max(heights.max(), *(event.height for _, event in events))
    room = max(high - low, 0.01) * 0.08
    low, high = low - 2.2 * room, high + room  # below, the words of crouch and absorbed

    def across(frame: float | np.ndarray) -> float | np.ndarray:
        return LEFT + (frame - first) / (last - first) * (WIDTH - LEFT - RIGHT)

    def down(height: float | np.ndarray) -> float | np.ndarray:
        return TOP + (high - height) / (high - low) * (HEIGHT - TOP - BOTTOM)

    inside = [*_frame_ticks(first, last, across), *_height_ticks(low, high, down)]
    air = across(jump.takeoff.frame), across(jump.landing.frame)
    base = HEIGHT - BOTTOM
    beside = across(jump.apex.frame) - air[0] < WORD  # a fall begins at its apex
    inside.append(f'<rect class="air" x="{air[0]:.1f}" y="{TOP}" width="{air[1] - air[0]:.1f}" height="{base - TOP}"/>')
    line = _steps if jump.held else _path
    inside.append(f'<path class="track" d="{line(across(frames), down(heights))}"/>')
    if len(frames) <= 80:
        dots = "".join(f"M{x:.1f} {y:.1f}h0" for x, y in zip(across(frames), down(heights), strict=True))
        inside.append(f'<path class="dots" d="{dots}"/>')
    for kind, (arc_frames, arc_heights) in _arcs(jump, track.fps).items():
        inside.append(f'<path class="{kind}" d="{_path(across(arc_frames), down(arc_heights))}"/>')
    inside += [
        _event(word, across(event.frame), down(event.height), base, beside=word == "apex" and beside)
        for word, event in events
    ]
    return (
        f'<svg viewBox="0 0 {WIDTH} {HEIGHT}" role="img" aria-label="{escape(title)}: {escape(_told(jump))}">'
        f"<title>{escape(title)}</title>{''.join(inside)}</svg>"
    )


def _span(track: Track, jump: Jump) -> tuple[float, float, list[tuple[str, Event]]]:
    words = ("crouch", "takeoff", "apex", "landing", "absorbed")
    events = [(word, event) for word in words if (event := getattr(jump, word)) is not None]
    first, last = events[0][1].frame, events[-1][1].frame
    around = AROUND * (last - first)
    first, last = max(first - around, float(track.frames[0])), min(last + around, float(track.frames[-1]))
    return first, last, events


def _arcs(jump: Jump, fps: float) -> dict[str, tuple[np.ndarray, np.ndarray]]:
    """Frames and heights of the fitted arc, and of the scene's through the same apex where that differs."""
    fitted, pace = jump.fitted_gravity, jump.air_pace
    if fitted is None or fitted <= 0.0 or not pace:
        return {}
    arcs = {"arc": _parabola(jump, fitted, fps)}
    if abs(pace - 1.0) > SAME_PACE:
        arcs["real"] = _parabola(jump, fitted / pace**2, fps)
    return arcs


def _parabola(jump: Jump, gravity: float, fps: float) -> tuple[np.ndarray, np.ndarray]:
    """From the height of takeoff over the apex down to that of landing."""
    sides = [np.sqrt(2.0 * max(fall, 0.0) / gravity) for fall in (jump.jump_height, jump.drop_height)]
    seconds = np.linspace(-sides[0], sides[1], 33)
    return jump.apex.frame + seconds * fps, jump.apex.height - 0.5 * gravity * seconds**2


def _frame_ticks(first: float, last: float, across: object) -> list[str]:
    step = next((step for step in STEPS if (last - first) / step <= 14), STEPS[-1])
    y = HEIGHT - BOTTOM
    marks = []
    for frame in range(int(np.ceil(first / step)) * step, int(last) + 1, step):
        x = across(frame)
        marks.append(f'<path class="grid" d="M{x:.1f} {TOP}V{y}"/>')
        marks.append(f'<text x="{x:.1f}" y="{y + 13}" text-anchor="middle">{frame}</text>')
    marks.append(f'<text x="{WIDTH - RIGHT}" y="{HEIGHT - 4}" text-anchor="end">frames</text>')
    return marks


def _height_ticks(low: float, high: float, down: object) -> list[str]:
    decade = 10.0 ** np.floor(np.log10(high - low))
    step = next(part * decade for part in (0.1, 0.2, 0.5, 1.0, 2.0) if (high - low) / (part * decade) <= 7)
    digits = max(0, -int(np.floor(np.log10(step) + 1e-9)))
    marks = []
    for height in np.arange(np.ceil(low / step), np.floor(high / step) + 1) * step:
        y = down(height)
        text = f"{height + 0.0:.{digits}f}"
        marks.append(f'<path class="grid" d="M{LEFT} {y:.1f}H{WIDTH - RIGHT}"/>')
        marks.append(f'<text x="{LEFT - 5}" y="{y + 4:.1f}" text-anchor="end">{text}</text>')
    return [*marks, f'<text x="{LEFT - 5}" y="12" text-anchor="end">metres</text>']


def _event(word: str, x: float, y: float, base: float, *, beside: bool) -> str:
    below = word in ("crouch", "absorbed")
    side = {"takeoff": ("end", -7), "landing": ("start", 7)}.get(word, ("start", 7) if beside else ("middle", 0))
    text_y = y + 16 if below and y + 16 < base else y - 8
    return (
        f'<path class="event" d="M{x:.1f} {y:.1f}V{base}"/>'
        f'<circle class="event" cx="{x:.1f}" cy="{y:.1f}" r="3.5"/>'
        f'<text class="event" x="{x + side[1]:.1f}" y="{text_y:.1f}" text-anchor="{side[0]}">{word}</text>'
    )


def _path(x: np.ndarray, y: np.ndarray) -> str:
    return "M" + "L".join(f"{a:.1f} {b:.1f}" for a, b in zip(x, y, strict=True))


def _steps(x: np.ndarray, y: np.ndarray) -> str:
    """Held poses: level to the next frame, then up or down to it."""
    return f"M{x[0]:.1f} {y[0]:.1f}" + "".join(f"H{a:.1f}V{b:.1f}" for a, b in zip(x[1:], y[1:], strict=True))


def _told(jump: Jump) -> str:
    return (
        f"takeoff at frame {frame_text(jump.takeoff.frame)}, apex at {frame_text(jump.apex.frame)}, "
        f"landing at {frame_text(jump.landing.frame)}, {figure_text(jump.jump_height)} metres high"
    )
