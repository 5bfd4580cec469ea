"""The part of a track that one jump is seen in, for the audit's document: frames, and millimeters as meters."""

from collections.abc import Mapping
from typing import Any

import numpy as np

from ..track import EVENTS, Track

SHOWN_BESIDE_SHARE = 0.35
"""Share of the jump's length shown before and after it."""
MOST_SAMPLES = 200
"""More than a picture shows; a longer jump is thinned."""


def path_data(track: Track, jump: Mapping[str, Any]) -> dict[str, list[float]]:
    """Return frames and x, y, z in meters of a track around a jump of the document, rounded to a millimeter."""
    frames = [jump[name]["frame"] for name in EVENTS if jump[name]]
    around = SHOWN_BESIDE_SHARE * (frames[-1] - frames[0])
    shown = (track.frames >= frames[0] - around) & (track.frames <= frames[-1] + around)
    places = np.flatnonzero(shown)[:: -(-int(shown.sum()) // MOST_SAMPLES)]
    columns = {"frames": track.frames[places], **dict(zip("xyz", track.positions[places].T, strict=True))}
    return {name: [_short(value) for value in np.round(column, 3).tolist()] for name, column in columns.items()}


def _short(value: float) -> float | int:
    return int(value) if value == int(value) else value
