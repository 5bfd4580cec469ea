"""Shots whose jump has no plain stand beside it: from crouches and seats, up stairs, skipping, into a walk.

Keyed by eye in lengths of the body, with times an animator would try; then left as poses, given breakdowns, baked, or
read as samples. The truth of a contact is the key that the animator set for it.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass, field
from functools import partial

import numpy as np
from leapwright.analysis.world import STANDARD_GRAVITY

from .draft import RATES, Sheet, truths
from .host import drawn

ON_TOES = 1.07
"""Height at which a body leaves the ground and meets it, over the height it stands at (within 2 to 10 %)."""
Scene = Callable[["Shot", np.random.Generator], None]
WAYS = ("poses", "breakdowns", "baked", "samples")


@dataclass
class Shot:
    """A sheet of poses as it is made: whole frames and heights in meters; events: frames of each jump's five."""

    rng: np.random.Generator
    fps: float
    stand: float
    keys: list[float] = field(default_factory=lambda: [1.0])
    heights: list[float] = field(default_factory=list)
    events: list[list[float]] = field(default_factory=list)

    def begin(self, height: float) -> None:
        """Set the first key, this many standing heights up."""
        self.heights.append(height * self.stand)

    def move(self, seconds: float, height: float) -> float:
        """Set the next key, this many standing heights up, and return its frame."""
        self.keys.append(self.keys[-1] + max(2.0, round(seconds * self.fps)))
        self.heights.append(height * self.stand)
        return self.keys[-1]

    def hold(self, seconds: float) -> None:
        """Hold the last pose, give or take 3 mm of a body 1 m high."""
        self.move(seconds, self.heights[-1] / self.stand + self.rng.uniform(-0.003, 0.003))

    def jump(
        self,
        rise: float,
        *,
        up: float = 0.0,
        crouch: float,
        absorb: float,
        pace: float | None = None,
        toes: float = ON_TOES,
    ) -> None:
        """Leap from the crouch that is keyed last: so high over the toes, onto ground `up` higher, into `absorb`.

        All in standing heights over the ground of the takeoff, absorb over that of the landing; toes: where it leaves.
        """
        pace = pace or self.rng.uniform(0.6, 1.4)
        air = [math.sqrt(2 * way * self.stand / STANDARD_GRAVITY) / pace for way in (rise, rise - up)]
        base = self.heights[-1] / self.stand - crouch
        push = (toes - crouch) / rise * air[0] * self.rng.uniform(0.7, 1.4)
        sink = (toes - absorb) / (rise - up) * air[1] * self.rng.uniform(0.7, 1.6)
        left = self.keys[-1]
        self.events.append([
            left, self.move(min(push, 0.5), base + toes), self.move(air[0], base + toes + rise),
            self.move(air[1], base + toes + up), self.move(min(sink, 0.5), base + up + absorb),
        ])  # fmt: skip

    def sheet(self) -> Sheet:
        """Draw it, in one of the ways."""
        way, handles = str(self.rng.choice(WAYS)), str(self.rng.choice(["clamped", "clamped", "auto"]))
        keys, events = np.array(self.keys), np.array(self.events)
        frames = np.arange(keys[0], keys[-1] + 1)
        along = self.rng.choice([0.0, self.rng.uniform(0.2, 2.0)]) * (keys - keys[0]) / self.fps
        poses = np.column_stack([along, 0.0 * keys, self.heights])
        places = drawn(keys, poses, frames, handles=handles)
        heights = places[np.searchsorted(frames, events), 2]
        joined: str | None = "bezier"
        if way == "breakdowns":
            more = np.setdiff1d(np.round((keys[1:] + keys[:-1]) / 2), keys)
            off = self.rng.uniform(-0.01, 0.01, len(more)) * self.stand
            between = places[np.searchsorted(frames, more)] + np.outer(off, (0.0, 0.0, 1.0))
            order = np.argsort(np.concatenate([keys, more]))
            keys, poses = np.concatenate([keys, more])[order], np.vstack([poses, between])[order]
            places = drawn(keys, poses, frames, handles=handles)
        elif way == "baked":
            keys = frames
        elif way == "samples":
            places = places + self.rng.normal(0.0, 0.001, places.shape)
            return Sheet(self.fps, frames, places, truths(events, heights))
        return Sheet(self.fps, frames, places, truths(events, heights), keys, joined)


def crouched(shot: Shot, rng: np.random.Generator) -> None:
    """Return leaps from held crouch to held crouch: the body never stands."""
    low = rng.uniform(0.45, 0.65)
    shot.begin(low)
    for _ in range(int(rng.integers(1, 4))):
        shot.hold(rng.uniform(0.15, 0.6))
        shot.jump(rng.uniform(0.2, 1.0), crouch=shot.heights[-1] / shot.stand, absorb=low)
    shot.hold(rng.uniform(0.2, 0.5))


def seated(shot: Shot, rng: np.random.Generator) -> None:
    """Return a leap up from a seat, and a stand after it."""
    seat = rng.uniform(0.5, 0.65)
    shot.begin(seat)
    shot.hold(rng.uniform(0.3, 1.0))
    shot.move(0.25, seat - 0.03)
    shot.jump(rng.uniform(0.2, 0.7), crouch=seat - 0.03, absorb=0.7)
    shot.move(rng.uniform(0.3, 0.5), 1.0)
    shot.hold(0.4)


def stairs(shot: Shot, rng: np.random.Generator) -> None:
    """Return three hops up stairs, without a stand between them."""
    shot.begin(1.0)
    shot.hold(rng.uniform(0.3, 0.6))
    high = rng.uniform(0.12, 0.3)
    shot.move(0.3, 0.8)
    for _ in range(3):
        shot.jump(high + rng.uniform(0.12, 0.35), up=high, crouch=0.8, absorb=0.8)
    shot.move(0.35, 1.0 + 3 * high)
    shot.hold(0.4)


def skipping(shot: Shot, rng: np.random.Generator) -> None:
    """Return low hops in a row, as over a rope; half of them after a stand."""
    stands = rng.uniform() < 0.5
    shot.begin(1.0 if stands else 0.88)
    if stands:
        shot.hold(0.4)
        shot.move(0.2, 0.88)
    rise = max(rng.uniform(0.1, 0.25), 0.1 / shot.stand)
    for _ in range(int(rng.integers(3, 8))):
        shot.jump(rise, crouch=0.88, absorb=0.88, pace=1.0)


def into_a_walk(shot: Shot, rng: np.random.Generator) -> None:
    """Return a leap onto a ledge, and a walk from there on without a rest."""
    shot.begin(1.0)
    shot.hold(rng.uniform(0.3, 0.8))
    shot.move(0.35, 0.65)
    up = rng.uniform(0.25, 0.6)
    shot.jump(up + rng.uniform(0.15, 0.5), up=up, crouch=0.65, absorb=0.7)
    for _ in range(int(rng.integers(3, 7))):
        shot.move(0.25, up + 1.0)
        shot.move(0.25, up + 0.96)


def settled_slowly(shot: Shot, rng: np.random.Generator) -> None:
    """Return a leap whose landing sinks on for half a second, slower than it fell."""
    shot.begin(1.0)
    shot.hold(rng.uniform(0.3, 0.8))
    shot.move(0.35, 0.65)
    shot.jump(rng.uniform(0.25, 1.0), crouch=0.65, absorb=0.95)
    shot.events[-1][-1] = shot.move(rng.uniform(0.3, 0.6), 0.75)
    shot.move(0.5, 1.0)
    shot.hold(0.4)


def straight_legged(shot: Shot, rng: np.random.Generator) -> None:
    """Return a hop from the ankles: the legs hardly bend."""
    shot.begin(1.0)
    shot.hold(0.4)
    shot.move(0.2, 0.94)
    shot.jump(max(rng.uniform(0.1, 0.3), 0.1 / shot.stand), crouch=0.94, absorb=0.94)
    shot.move(0.25, 1.0)
    shot.hold(0.4)


def drawn_by(rng: np.random.Generator, scene: Scene) -> Sheet:
    """Draw a scene, of a body of any size at any frame rate."""
    shot = Shot(rng, float(rng.choice(RATES)), float(rng.uniform(0.6, 1.8)))
    scene(shot, rng)
    return shot.sheet()


SCENES: dict[str, Scene] = {
    "crouch to crouch": crouched,
    "from a seat": seated,
    "up stairs": stairs,
    "skipping": skipping,
    "into a walk": into_a_walk,
    "settles slowly": settled_slowly,
    "straight legs": straight_legged,
}
MAKERS: dict[str, Callable[[np.random.Generator], Sheet]] = {
    name: partial(drawn_by, scene=scene) for name, scene in SCENES.items()
}
