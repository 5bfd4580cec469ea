"""A strip of stick figures: the poses of a jump at its events, drawn from the bones, side by side at one scale."""

from collections.abc import Mapping, Sequence
from typing import Any

from .labels import frame_text
from .svg import line, path, picture, text

STICK_HEIGHT, STICK_MOST_WIDTH, STICK_EDGE, STICK_WORDS_HEIGHT = 130, 150, 8, 18


def stick_plot(poses: Sequence[Mapping[str, Any]], *, title: str) -> str:
    """Draw poses of the document; `lines` are chains of joints, [across, up, across, up, …] in meters.

    All stand on one ground line, the lowest point of any pose, so that the flight is seen.
    """
    ups = [up for pose in poses for chain in pose["lines"] for up in chain[1::2]]
    low, high = min(ups), max(ups)
    widths = [_extent(pose) for pose in poses]
    tall = STICK_HEIGHT - STICK_WORDS_HEIGHT - STICK_EDGE
    scale = min(tall / max(high - low, 1e-3), STICK_MOST_WIDTH / max(max(b - a for a, b in widths), 1e-3))
    inside, x = [], float(STICK_EDGE)
    for pose, (left, right) in zip(poses, widths, strict=True):
        room = max((right - left) * scale, 62.0)
        shift = x + room / 2 - (left + right) / 2 * scale
        base = STICK_EDGE + high * scale
        drawn = "".join(
            line([(shift + across * scale, base - up * scale)
                  for across, up in zip(chain[::2], chain[1::2], strict=True)])
            for chain in pose["lines"]
        )  # fmt: skip
        inside.append(path("bones", drawn))
        inside.append(text(x + room / 2, STICK_HEIGHT - 4, f"{pose['event']} {frame_text(pose['frame'])}", anchor="m"))
        x += room + 2 * STICK_EDGE
    ground = STICK_EDGE + (high - low) * scale
    inside.insert(0, path("grid", f"M0 {ground:.0f}H{x:.0f}"))
    names = ", ".join(str(pose["event"]) for pose in poses)
    return picture(x, STICK_HEIGHT, inside, told=f"{title}: poses at {names}", kind="poses")


def _extent(pose: Mapping[str, Any]) -> tuple[float, float]:
    across = [value for chain in pose["lines"] for value in chain[::2]]
    return min(across), max(across)
