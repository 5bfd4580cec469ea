"""Poses the body of pybullet's recordings: soles and center of mass, from the joints of each frame.

A row is duration, root place (x, y up, z), root turn, then the turns of chest, neck, right hip, knee, ankle,
shoulder, elbow, left hip … elbow; quaternions have w first, knees and elbows one angle about z. Lengths and
masses of the humanoid are from memory; what they give is checked: soles at the height of the floor in each
stance, and a center of mass that falls at Earth's gravity while they are off it.
"""

import json
from dataclasses import dataclass

import numpy as np
from leapwright.analysis import Track
from scipy.interpolate import CubicSpline
from scipy.spatial.transform import Rotation

from .recordings import MOTIONS, available

SIDES = ((1.0, 16, 25), (-1.0, 30, 39))
"""z of the side, and columns at which its leg and its arm begin; right, left."""
HIP, KNEE, ANKLE = (0.0, 0.0, 0.084887), (0.0, -0.421546, 0.0), (0.0, -0.40987, 0.0)
CHEST, NECK, SHOULDER = (0.0, 0.236151, 0.0), (0.0, 0.223894, 0.0), (-0.02405, 0.2435, 0.18311)
ELBOW, WRIST = (0.0, -0.274788, 0.0), (0.0, -0.258947, 0.0)
SOLES = ((-0.04, -0.05, 0.0), (0.13, -0.05, 0.0))
"""Heel and toe under the ankle."""
KILOGRAMS = {"pelvis": 6.0, "chest": 14.0, "head": 2.0, "thigh": 4.5, "shank": 3.0, "foot": 1.0}
KILOGRAMS |= {"upper arm": 1.5, "forearm": 1.0, "hand": 0.5}
MIDDLES = {"pelvis": (0.0, 0.07, 0.0), "chest": (0.0, 0.12, 0.0), "head": (0.0, 0.175, 0.0)}
MIDDLES |= {"thigh": (0.0, -0.21, 0.0), "shank": (0.0, -0.2, 0.0), "foot": (0.045, -0.0225, 0.0)}
MIDDLES |= {"upper arm": (0.0, -0.14, 0.0), "forearm": (0.0, -0.12, 0.0), "hand": (0.0, 0.0, 0.0)}


@dataclass(frozen=True)
class Performance:
    """A recording, z up, meters: (n,) seconds, (n, 3) root and center of mass, (n, 4, 3) heels and toes."""

    name: str
    seconds: np.ndarray
    root: np.ndarray
    center: np.ndarray
    soles: np.ndarray

    @property
    def fps(self) -> float:
        return float(1.0 / (self.seconds[1] - self.seconds[0]))

    @property
    def clearance(self) -> np.ndarray:
        """(n,) meters of the lowest sole over the floor, which lies at 0."""
        return self.soles[:, :, 2].min(axis=1)

    def track(self, *, fps: float | None = None, start: float = 0.0, center: bool = False, feet: bool = False) -> Track:
        """Return the root, or the center of mass, at the recording's rate or splined to fps from `start` seconds on."""
        path, soles, frames = (
            self.center if center else self.root,
            self.soles,
            np.arange(len(self.seconds), dtype=float),
        )
        if fps is not None:
            frames = np.arange(int((self.seconds[-1] - start) * fps) + 1, dtype=float)
            at = start + frames / fps
            path, soles = CubicSpline(self.seconds, path)(at), CubicSpline(self.seconds, soles)(at)
        known = {"feet": soles, "ground": 0.0} if feet else {}
        return Track(self.name, fps or self.fps, frames, path, **known)


def performed(name: str) -> Performance:
    """Pose the body of a recording of a person at each of its frames."""
    if not MOTIONS.is_dir():
        available()
    rows = np.array(json.loads((MOTIONS / f"{name}.txt").read_text())["Frames"], dtype=np.float64)
    root, turn = rows[:, 1:4], _turn(rows[:, 4:8])
    parts = [("pelvis", root, turn)]
    chest, bent = root + turn.apply(CHEST), turn * _turn(rows[:, 8:12])
    parts += [("chest", chest, bent), ("head", chest + bent.apply(NECK), bent * _turn(rows[:, 12:16]))]
    soles = []
    for side, leg, arm in SIDES:
        hip, thigh = root + turn.apply(side * np.array(HIP)), turn * _turn(rows[:, leg : leg + 4])
        knee, shank = hip + thigh.apply(KNEE), thigh * Rotation.from_euler("z", rows[:, leg + 4, None])
        ankle, foot = knee + shank.apply(ANKLE), shank * _turn(rows[:, leg + 5 : leg + 9])
        soles += [ankle + foot.apply(corner) for corner in SOLES]
        shoulder = chest + bent.apply(np.array(SHOULDER) * [1.0, 1.0, side])
        upper = bent * _turn(rows[:, arm : arm + 4])
        elbow, lower = shoulder + upper.apply(ELBOW), upper * Rotation.from_euler("z", rows[:, arm + 4, None])
        parts += [("thigh", hip, thigh), ("shank", knee, shank), ("foot", ankle, foot)]
        parts += [
            ("upper arm", shoulder, upper),
            ("forearm", elbow, lower),
            ("hand", elbow + lower.apply(WRIST), lower),
        ]
    masses = np.array([KILOGRAMS[name] for name, _, _ in parts])
    middles = np.array([place + turned.apply(MIDDLES[name]) for name, place, turned in parts])
    center = np.tensordot(masses, middles, axes=1) / masses.sum()
    seconds = np.concatenate([[0.0], np.cumsum(rows[:-1, 0])])
    return Performance(name, seconds, _up(root), _up(center), _up(np.stack(soles, axis=1)))


def _turn(quaternions: np.ndarray) -> Rotation:
    return Rotation.from_quat(quaternions[:, [1, 2, 3, 0]])


def _up(places: np.ndarray) -> np.ndarray:
    """z up, the side turned."""
    return places[..., [0, 2, 1]] * [1.0, -1.0, 1.0]
