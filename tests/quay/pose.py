"""Where Brindle's legs and body are at a frame: angles that keep the hooves where the motion puts them.

Angles in radians, pitch about the world's y axis: 0 points up, a quarter turn points along x (forward).
"""

import math
from dataclasses import dataclass

from .motion import Motion, Plant, at
from .moves import STANDING

THIGH, SHIN, CANNON = 0.44, 0.44, 0.31
"""Lengths of the three parts of a leg, hip to knee to hock to hoof, meters."""


@dataclass(frozen=True, slots=True)
class Leg:
    """World pitch of thigh, shin and cannon, from 0 to a full turn: straight down lies within."""

    thigh: float
    shin: float
    cannon: float


def leg(dx: float, dz: float) -> Leg:
    """Bend a leg so that the hoof lies at dx, dz from the hip; the knee forward, the hock back."""
    far, most = math.hypot(dx, dz), 0.9995 * (THIGH + SHIN)
    back = math.radians(48 - 38 * min(max((far - 0.5) / 0.56, 0.0), 1.0)) - 0.55 * dx
    hock = dx - CANNON * math.sin(back), dz + CANNON * math.cos(back)
    if math.hypot(*hock) > most:  # stretch: raise the heel until the hoof stays down
        far = min(far, most + CANNON)
        raised = math.acos((CANNON**2 + far**2 - most**2) / (2 * CANNON * far))
        back = raised - math.atan2(-dx, -dz)
        hock = dx - CANNON * math.sin(back), dz + CANNON * math.cos(back)
    far, toward = min(math.hypot(*hock), most), math.atan2(*hock)
    thigh = toward - math.acos((THIGH**2 + far**2 - SHIN**2) / (2 * THIGH * far))
    knee = THIGH * math.sin(thigh), THIGH * math.cos(thigh)
    ankle = far * math.sin(toward), far * math.cos(toward)
    shin = math.atan2(ankle[0] - knee[0], ankle[1] - knee[1])
    cannon = math.atan2(dx - ankle[0], dz - ankle[1])
    return Leg(*(pitch % (2 * math.pi) for pitch in (thigh, shin, cannon)))


def hoof(motion: Motion, foot: str, frame: float) -> tuple[float, float]:
    """Tell where a hoof is at a frame: on its plant, or on a lifted path from one plant to the next."""
    plants = [p for p in motion.plants if p.foot == foot]
    for plant in plants:
        if plant.first <= frame <= plant.last:
            return plant.x, plant.z
    before = max((p for p in plants if p.last < frame), key=lambda p: p.last)
    after = min((p for p in plants if p.first > frame), key=lambda p: p.first)
    u = (frame - before.last) / (after.first - before.last)
    start, end = _offset(motion, before, before.last), _offset(motion, after, after.first)
    s = u * u * (3 - 2 * u)
    lift = _tuck(motion, before.last, after.first) * 16 * (u * (1 - u)) ** 2
    x, z = at(motion.keys, frame)
    return x + start[0] + s * (end[0] - start[0]), z + start[1] + s * (end[1] - start[1]) + lift


def _offset(motion: Motion, plant: Plant, frame: float) -> tuple[float, float]:
    x, z = at(motion.keys, frame)
    return plant.x - x, plant.z - z


def _tuck(motion: Motion, first: float, last: float) -> float:
    """Tell how far the hooves are drawn up in between: a jump tucks, a step clears the ground."""
    return 0.36 if any(jump.takeoff == first and jump.landing == last for jump in motion.jumps) else 0.13


def lean(motion: Motion) -> list[tuple[float, float, float]]:
    """Return frames with the pitch of body and head, degrees: a pose for every key of the root.

    The body bows as the hips go down and stretches at takeoff.
    """
    airborne = {f for j in motion.jumps for f in (j.takeoff, j.apex, j.landing)}
    poses = []
    for key in motion.keys:
        ground = max((p.z for p in motion.plants if p.first <= key.frame), default=0.0)
        if key.frame in {j.takeoff for j in motion.jumps}:
            poses.append((key.frame, 10.0, -8.0))
        elif key.frame in {j.landing for j in motion.jumps}:
            poses.append((key.frame, 4.0, 8.0))
        elif key.frame in airborne:
            poses.append((key.frame, 20.0, -10.0))
        else:
            low = STANDING - (key.z - _ground(motion, key.frame, ground))
            bow = min(max(90.0 * low, -4.0), 38.0)
            poses.append((key.frame, 3.0 + bow, -0.6 * bow))
    return poses


def _ground(motion: Motion, frame: float, otherwise: float) -> float:
    return next((p.z for p in motion.plants if p.first <= frame <= p.last), otherwise)
