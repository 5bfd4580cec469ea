"""Reads the recorded motions of PyPI's pybullet (pybullet_data/data/motions) into root Tracks.

A file is JSON: "Frames" holds one row a pose, first its duration in seconds, then the root's x, y, z in
meters (y up, z to the side) and its rotation, then the joints. The last pose has no duration.
"""

import json
from pathlib import Path

import numpy as np
from leapwright.analysis import Track
from scipy.interpolate import CubicSpline

MOTIONS = Path(__file__).parents[2] / "build" / "data" / "pybullet_data" / "motions"
"""Laid there by `make data` from the wheel of pybullet 3.2.7."""


def available() -> list[str]:
    """Return names of the motions, sorted. Raises FileNotFoundError that says how to get them."""
    if not MOTIONS.is_dir():
        raise FileNotFoundError(f"no recorded motions in {MOTIONS}: `make data` fetches them")
    return sorted(path.relative_to(MOTIONS).with_suffix("").as_posix() for path in MOTIONS.rglob("*.txt"))


def recorded(name: str, *, fps: float | None = None, start: float = 0.0) -> Track:
    """Read a motion's root, at its own rate or resampled by a cubic spline to fps from `start` seconds on."""
    if not MOTIONS.is_dir():
        available()
    rows = np.array(json.loads((MOTIONS / f"{name}.txt").read_text())["Frames"], dtype=np.float64)
    seconds = np.concatenate([[0.0], np.cumsum(rows[:-1, 0])])
    positions = rows[:, [1, 3, 2]] * [1.0, -1.0, 1.0]
    if fps is None:
        fps = 1.0 / rows[0, 0]
        frames = np.arange(len(rows), dtype=np.float64)
    else:
        frames = np.arange(int((seconds[-1] - start) * fps) + 1, dtype=np.float64)
        positions = CubicSpline(seconds, positions)(start + frames / fps)
    return Track(name, fps, frames, positions)
