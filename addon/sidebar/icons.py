"""Pictures of how grave a finding is: a shape and a color each, that cannot be taken for a button.

Drawn in numbers when the add-on is turned on: a triangle to fix, a diamond to check, a disc to note, a tick for sound;
each with a dark edge, so that it is seen on light themes too.
"""

from collections.abc import Callable

import numpy as np
from bpy.utils import previews

from ...analysis.arrays import Array
from ...analysis.finding import SEVERITIES

SOUND_ICON, DOUBTFUL_ICON = "sound", "doubtful"
SIZE, SCALE = 32, 4
"""Pixels of a picture, and how many finer ones make up each."""
ICON_EDGE, EDGE_DARKNESS = 6, 0.6
"""Fine pixels that the edge is wide, and how dark it is."""
ICON_COLORS = {"fix": (0.84, 0.37, 0.0), "check": (0.94, 0.75, 0.12), "note": (0.34, 0.71, 0.91)}
ICON_COLORS |= {SOUND_ICON: (0.0, 0.68, 0.50), DOUBTFUL_ICON: (0.70, 0.70, 0.70)}
"""Okabe and Ito, "Color Universal Design" (2008), two of them a little lighter for dark panels."""

_loaded: list[previews.ImagePreviewCollection] = []

Plane = Array


def icon_of(name: str) -> int:
    """Return the number of a picture: of a severity, SOUND_ICON or DOUBTFUL_ICON; 0, none, where no window draws it."""
    return _loaded[0][name].icon_id if _loaded else 0


def _triangle(x: Plane, y: Plane) -> Plane:
    within = (y > -0.66) & (y < 0.78 - 1.75 * np.abs(x))
    return within & ~_exclaims(x, y + 0.05)


def _exclaims(x: Plane, y: Plane) -> Plane:
    return (np.abs(x) < 0.09) & (((y > -0.25) & (y < 0.38)) | ((y > -0.5) & (y < -0.34)))


def _diamond(x: Plane, y: Plane) -> Plane:
    return np.abs(x) + np.abs(y) < 0.82


def _disc(x: Plane, y: Plane) -> Plane:
    return np.hypot(x, y) < 0.52


def _tick(x: Plane, y: Plane) -> Plane:
    down = np.abs(y + x + 0.62) < 0.17
    up = np.abs(y - 1.15 * x + 0.14) < 0.19
    return (down & (x > -0.78) & (x < -0.14)) | (up & (x > -0.32) & (x < 0.74))


def _ring(x: Plane, y: Plane) -> Plane:
    return np.abs(np.hypot(x, y) - 0.5) < 0.13


SHAPES: dict[str, Callable[[Plane, Plane], Plane]] = {
    "fix": _triangle,
    "check": _diamond,
    "note": _disc,
    SOUND_ICON: _tick,
    DOUBTFUL_ICON: _ring,
}
assert {*SEVERITIES, SOUND_ICON, DOUBTFUL_ICON} == set(SHAPES) == set(ICON_COLORS)


def pixels_of(name: str) -> Array:
    """Return (SIZE, SIZE, 4): how much of each pixel is covered, and its color by that much, from the lowest row up."""
    fine = SIZE * SCALE
    places = (np.arange(fine) + 0.5) / fine * 2.0 - 1.0
    covered = SHAPES[name](places[None, :], places[:, None])
    share, around = _shares(covered), _shares(_grown(covered, ICON_EDGE))
    picture = np.empty((SIZE, SIZE, 4))
    picture[..., :3] = share[..., None] * ICON_COLORS[name]
    picture[..., 3] = np.maximum(share, EDGE_DARKNESS * around)
    return picture


def _shares(covered: Plane) -> Plane:
    return covered.reshape(SIZE, SCALE, SIZE, SCALE).astype(np.float64).mean(axis=(1, 3))


def _grown(covered: Plane, by: int) -> Plane:
    """Return what lies within so many fine pixels of what is covered, or on it."""
    grown, wide, reach = covered.copy(), covered, 0
    for across in range(by, -1, -1):
        while reach < int((by**2 - across**2) ** 0.5):
            reach += 1
            wide = wide | np.roll(covered, reach, axis=1) | np.roll(covered, -reach, axis=1)
        grown |= np.roll(wide, across, axis=0) | np.roll(wide, -across, axis=0)
    return grown


def register() -> None:
    """Draw the pictures."""
    made = previews.new()
    for name in SHAPES:
        picture = made.new(name)
        for size in ("icon_size", "image_size"):
            setattr(picture, size, (SIZE, SIZE))
        pixels = pixels_of(name).reshape(-1).tolist()
        picture.icon_pixels_float = picture.image_pixels_float = pixels
    _loaded.append(made)


def unregister() -> None:
    """Give the pictures back."""
    previews.remove(_loaded.pop())
