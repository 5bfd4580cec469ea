"""From moves to keys: what Brindle does becomes the keys of her root, and the events they were built on.

Heights and lengths in meters, slopes in meters a frame, times in frames, z up, x along the quay. Between
two keys the path is the cubic with their slopes, which a Bézier curve with handles at a third of the way
draws exactly; a constant acceleration is the case where the cubic's third difference vanishes.
"""

import itertools
from collections.abc import Callable
from dataclasses import dataclass, field, replace

from .moves import REACH, STANDING, Fall, Leap, Move, Stand, Walk

FPS = 24


@dataclass(frozen=True, slots=True)
class Key:
    """One pose of the root: where it is, and the slopes (x, z) it comes in and leaves with."""

    frame: float
    x: float
    z: float
    before: tuple[float, float] = (0.0, 0.0)
    after: tuple[float, float] = (0.0, 0.0)


@dataclass(frozen=True, slots=True)
class Plant:
    """One hoof on the ground: foot ("L" or "R"), from the first to the last frame, at x, z."""

    foot: str
    first: float
    last: float
    x: float
    z: float


@dataclass(frozen=True, slots=True)
class Built:
    """One jump as it was built: the truth an audit is held against. None where there is no push."""

    crouch: float | None
    takeoff: float
    apex: float
    landing: float
    absorbed: float
    push_distance: float | None
    jump_height: float
    drop_height: float
    absorb_distance: float
    gravity: float

    @property
    def push_ratio(self) -> float | None:
        """Jump height over push distance."""
        return None if self.push_distance is None else self.jump_height / self.push_distance


@dataclass(slots=True)
class Motion:
    """The keys of the root, the hooves' plants and the jumps; grows move by move.

    aside: meters across the way, by frame
    """

    gravity: float
    keys: list[Key]
    plants: list[Plant] = field(default_factory=list)
    jumps: list[Built] = field(default_factory=list)
    feet: dict[str, tuple[float, float]] = field(default_factory=dict)
    aside: Callable[[float], float] = lambda frame: 0.0

    @property
    def last(self) -> Key:
        """The pose the next move starts from."""
        return self.keys[-1]

    @property
    def ground(self) -> float:
        """Height of the ground under the standing hoof."""
        return self.plants[-1].z

    def key(self, frames: float, x: float, z: float, before=(0.0, 0.0), after=(0.0, 0.0)) -> None:
        """Add a pose so many frames after the last."""
        self.keys.append(Key(self.last.frame + frames, x, z, before, after))

    def leave(self, *after: float) -> None:
        """Set the slopes the last pose leaves with."""
        self.keys[-1] = replace(self.last, after=after)

    def stay(self, foot: str, first: float, x: float, z: float) -> None:
        """Put a hoof down from this frame on, until it is lifted."""
        self.plants.append(Plant(foot, first, float("inf"), x, z))

    def lift(self, frame: float, feet: str = "LR") -> None:
        """Lift hooves that are down."""
        self.plants = [replace(p, last=frame) if p.foot in feet and p.last > frame else p for p in self.plants]


def plan(moves: tuple[Move, ...], *, x: float, ground: float, gravity: float) -> Motion:
    """Work out the keys of a shot: standing at x on the ground, then move after move, from frame 1."""
    motion = Motion(gravity, [Key(1, x, ground + STANDING)])
    motion.stay("L", 1, x + 0.07, ground)
    motion.stay("R", 1, x - 0.05, ground)
    steps = {Stand: _stand, Walk: _walk, Fall: _fall, Leap: _leap}
    for move in moves:
        steps[type(move)](motion, move)
    return motion


def at(keys: list[Key], frame: float) -> tuple[float, float]:
    """Return x and z of the root at a frame, held before the first and after the last key."""
    if frame <= keys[0].frame:
        return keys[0].x, keys[0].z
    for a, b in itertools.pairwise(keys):
        if frame <= b.frame:
            n = b.frame - a.frame
            u = (frame - a.frame) / n
            return tuple(
                _cubic(u, p, q, n * s, n * t)
                for p, q, s, t in zip((a.x, a.z), (b.x, b.z), a.after, b.before, strict=True)
            )
    return keys[-1].x, keys[-1].z


def _cubic(u: float, p: float, q: float, s: float, t: float) -> float:
    """Hermite cubic from p to q with slopes s and t per unit of u."""
    rest = q - p
    return p + u * (s + u * (3 * rest - 2 * s - t + u * (s + t - 2 * rest)))


def _stand(motion: Motion, move: Stand) -> None:
    motion.key(move.frames, motion.last.x, motion.last.z)


def _walk(motion: Motion, move: Walk) -> None:
    n, top, ground, start = move.frames, motion.last.z, motion.ground, motion.last
    stride = move.speed * n
    motion.leave(move.speed, 0.0)
    for step in range(move.steps):
        foot, now = "RL"[step % 2], start.frame + step * n
        motion.lift(now + 1, foot)
        motion.stay(foot, now + n - 1, start.x + (step + 1.45) * stride, ground)
        for z in (top - move.bob, top):
            motion.key(n / 2, motion.last.x + stride / 2, z, (move.speed, 0.0), (move.speed, 0.0))


def _fall(motion: Motion, move: Fall) -> None:
    edge, speed = motion.last, motion.last.after[0]
    drop = 0.5 * motion.gravity * (move.fall / FPS) ** 2
    absorb = drop * move.absorb / move.fall
    motion.lift(edge.frame)
    motion.key(move.fall, edge.x + speed * move.fall, edge.z - drop, (speed, -2 * drop / move.fall))
    landing = motion.last
    _land(motion, move.absorb, absorb, move.ground, move.settle, STANDING)
    motion.jumps.append(
        Built(None, edge.frame, edge.frame, landing.frame, landing.frame + move.absorb,
              None, 0.0, drop, absorb, motion.gravity)
    )  # fmt: skip


def _leap(motion: Motion, move: Leap) -> None:
    gravity = motion.gravity * move.pace**2
    height = 0.5 * gravity * (move.rise / FPS) ** 2
    drop = 0.5 * gravity * (move.fall / FPS) ** 2
    push = height * (move.push_real or move.push) / move.rise
    absorb = drop * (move.absorb_real or move.absorb) / move.fall
    early = move.distance / (move.rise + move.late_speed * move.fall)
    late = early * move.late_speed
    low = motion.ground + REACH - push
    if move.dip:
        motion.key(move.dip, motion.last.x, low)
    if move.hold:
        motion.key(move.hold, motion.last.x, low)
    crouch = motion.last
    assert abs(crouch.z - low) < 1e-9, f"the last landing ends {crouch.z - low:+.3f} m off the crouch"
    motion.key(move.push, crouch.x + early * move.push / 2, low + push, (early, 2 * push / move.push),
               (early, 2 * height / move.rise))  # fmt: skip
    motion.lift(motion.last.frame)
    motion.key(move.rise, motion.last.x + early * move.rise, low + push + height, (early, 0.0), (late, 0.0))
    apex = motion.last
    motion.key(move.fall, apex.x + late * move.fall, apex.z - drop, (late, -2 * drop / move.fall))
    landing = motion.last
    _land(motion, move.absorb, absorb, landing.z - REACH, move.settle, move.upright)
    motion.jumps.append(
        Built(crouch.frame, crouch.frame + move.push, apex.frame, landing.frame,
              landing.frame + move.absorb, push, height, drop, absorb, gravity)
    )  # fmt: skip


def _land(motion: Motion, frames: int, absorb: float, ground: float, settle: int, upright: float) -> None:
    """Come to rest at constant force, then stand up."""
    landing = motion.last
    speed = landing.before[0]
    motion.leave(speed, -2 * absorb / frames)
    x = landing.x + speed * frames / 2
    motion.stay("L", landing.frame, x + 0.07, ground)
    motion.stay("R", landing.frame, x - 0.05, ground)
    motion.key(frames, x, landing.z - absorb)
    if settle:
        motion.key(settle, x, ground + upright)
