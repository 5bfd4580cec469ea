"""A jump worked out in closed form from its published numbers, and sampled into a Track.

Meters, seconds, z up; time 0 is takeoff. The flight is the parabola of the stated gravity, the push one of
`PUSHES`, the absorb a constant deceleration: the assumptions of the textbook problems themselves.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from leapwright.analysis import Track

Curve = Callable[[np.ndarray], np.ndarray]

PUSHES: dict[str, tuple[Curve, float]] = {
    "constant force": (lambda s: s**2, 1.0),
    "spring release": (lambda s: 1.0 - np.cos(0.5 * np.pi * s), math.pi / 4.0),
    "half sine force": (lambda s: s - np.sin(np.pi * s) / np.pi, 1.0),
    "rising force": (lambda s: s**3, 1.5),
}
"""Height over time of a push, both 0 to 1, and its k: half the slope at the end (exact)."""

STAND_UNDER_TAKEOFF = 0.15
"""Standing height under takeoff, as a share of the push: heels and arms are up at takeoff."""


@dataclass(frozen=True, slots=True)
class Worked:
    """One jump from its numbers. drop and absorb default to height and push: lands as it left."""

    height: float
    push: float
    gravity: float = 9.80
    drop: float | None = None
    absorb: float | None = None
    distance: float = 0.0
    shape: str = "constant force"
    hold: float = 0.25

    @property
    def fall_height(self) -> float:
        return self.height if self.drop is None else self.drop

    @property
    def absorb_distance(self) -> float:
        return self.push if self.absorb is None else self.absorb

    @property
    def speed(self) -> float:
        """m/s, upward, at takeoff."""
        return math.sqrt(2.0 * self.gravity * self.height)

    @property
    def landing_speed(self) -> float:
        return math.sqrt(2.0 * self.gravity * self.fall_height)

    @property
    def push_time(self) -> float:
        return 2.0 * PUSHES[self.shape][1] * self.push / self.speed

    @property
    def rise_time(self) -> float:
        return self.speed / self.gravity

    @property
    def airtime(self) -> float:
        return self.rise_time + self.landing_speed / self.gravity

    @property
    def absorb_time(self) -> float:
        return 2.0 * self.absorb_distance / self.landing_speed

    @property
    def slow(self) -> float:
        """Seconds for the dip before and the recovery after: slow against the push, so no hop hides there."""
        return max(0.5, 8.0 * self.push_time, 3.0 * self.absorb_time)

    def heights(self, t: np.ndarray) -> np.ndarray:
        """Return heights above the ground the jumper stands on at takeoff, at times t."""
        top = 1.0 + self.push
        stand = top - STAND_UNDER_TAKEOFF * self.push
        down = top + self.height - self.fall_height
        low = down - self.absorb_distance
        rest = down - STAND_UNDER_TAKEOFF * self.absorb_distance
        start = -self.push_time - self.hold
        end = self.airtime + self.absorb_time
        curve = PUSHES[self.shape][0]
        tau = np.clip(t - self.airtime, 0.0, self.absorb_time)
        return np.select(
            [t < start, t < -self.push_time, t < 0.0, t < self.airtime, t < end],
            [
                stand + (top - self.push - stand) * _ease((t - start) / self.slow + 1.0),
                np.full_like(t, top - self.push),
                top - self.push + self.push * curve(np.clip(1.0 + t / self.push_time, 0.0, 1.0)),
                top + self.speed * t - 0.5 * self.gravity * t**2,
                down - self.landing_speed * tau * (1.0 - 0.5 * tau / self.absorb_time),
            ],
            low + (rest - low) * _ease((t - end - self.hold) / self.slow),
        )

    def travel(self, t: np.ndarray) -> np.ndarray:
        """Return horizontal position, 0 at takeoff: gathered in the push as the height is, shed in the absorb."""
        curve, k = PUSHES[self.shape]
        speed = self.distance / self.airtime
        gathered = speed * self.push_time / (2.0 * k) * (curve(np.clip(1.0 + t / self.push_time, 0.0, 1.0)) - 1.0)
        tau = np.clip(t - self.airtime, 0.0, self.absorb_time)
        return gathered + speed * (np.clip(t, 0.0, self.airtime) + tau * (1.0 - 0.5 * tau / self.absorb_time))

    def events(self, *, fps: float, takeoff: float) -> dict[str, float]:
        """Return the frames of the five events, exact, when takeoff lies on this frame."""
        return {
            "crouch": takeoff - self.push_time * fps,
            "takeoff": takeoff,
            "apex": takeoff + self.rise_time * fps,
            "landing": takeoff + self.airtime * fps,
            "absorbed": takeoff + (self.airtime + self.absorb_time) * fps,
        }

    def track(self, *, fps: float, phase: float = 0.0, name: str = "worked") -> tuple[Track, dict[str, float]]:
        """Sample on whole frames, takeoff `phase` frames after one; also return the exact events."""
        before = self.push_time + self.hold + self.slow + 0.3
        after = self.airtime + self.absorb_time + self.hold + self.slow + 0.3
        takeoff = math.ceil(before * fps) + 1 + phase
        frames = np.arange(1, math.ceil(takeoff + after * fps))
        t = (frames - takeoff) / fps
        positions = np.column_stack([self.travel(t), np.zeros_like(t), self.heights(t)])
        return Track(name, fps, frames, positions), self.events(fps=fps, takeoff=takeoff)


def _ease(s: np.ndarray) -> np.ndarray:
    """0 to 1, at rest at both ends."""
    s = np.clip(s, 0.0, 1.0)
    return s * s * s * (10.0 - 15.0 * s + 6.0 * s * s)
