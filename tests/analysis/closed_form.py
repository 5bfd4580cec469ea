"""One jump in closed form, with its events known exactly: what the tests of measures and findings measure.

Crouch, push, flight and landing are joined polynomials; nothing here calls the project's own formulas.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np
from leapwright.analysis import Followed, Jump, Track, World
from leapwright.analysis.audit import judge
from leapwright.analysis.jump import measure
from leapwright.analysis.phases import Arc, Event, Phases
from leapwright.analysis.settings import Settings

G = 9.80665
"""Standard acceleration, m/s² (3rd CGPM 1901, Resolution 2)."""

Curve = Callable[[np.ndarray], np.ndarray]


@dataclass(frozen=True)
class Leap:
    """A jump to build; meters, frames, m/s². The defaults make a believable one.

    shape is the push's height over time, both from 0 to 1, and slope its slope at the end. The push lasts slope · d /
    v, so that its speed goes on into the flight; other lengths break that. path gives x and y in meters over the
    airtime, 0 to 1. rise, fall and hang replace the flight's own frames.
    """

    height: float = 0.45
    lower: float = 0.0
    push: float = 0.35
    absorb: float = 0.3
    gravity: float = G
    fps: float = 24.0
    crouch_at: float = 15.3
    shape: Curve = np.square
    slope: float = 2.0
    push_stretch: float = 1.0
    absorb_stretch: float = 1.0
    rise: float | None = None
    fall: float | None = None
    hang: float = 0.0
    bend: Curve | None = None
    distance: float = 0.8
    path: Callable[[np.ndarray], tuple[np.ndarray, np.ndarray]] | None = None
    after: float = 12.0
    noise: float = 0.0
    seed: int = 0
    error: float = 0.0
    follows: Followed = Followed.CENTER_OF_MASS

    @property
    def drop(self) -> float:
        return self.height + self.lower

    def events(self) -> tuple[float, float, float, float, float]:
        """Return frames of crouch, takeoff, middle of the apex, landing and lowest point."""
        fast, slow = math.sqrt(2 * self.gravity * self.height), math.sqrt(2 * self.gravity * self.drop)
        takeoff = self.crouch_at + self.slope * self.push / fast * self.fps * self.push_stretch
        rise = fast / self.gravity * self.fps if self.rise is None else self.rise
        fall = slow / self.gravity * self.fps if self.fall is None else self.fall
        landing = takeoff + rise + self.hang + fall
        absorbed = landing + 2 * self.absorb / slow * self.fps * self.absorb_stretch
        return self.crouch_at, takeoff, takeoff + rise + self.hang / 2, landing, absorbed


def eased(k: float) -> dict[str, object]:
    """Return a push of shape k (half its end slope) that starts at rest: a s² + (1 - a) s³ has slope 3 - a."""
    a = 3 - 2 * k
    return {"shape": lambda s: a * s**2 + (1 - a) * s**3, "slope": 2 * k}


def build(leap: Leap) -> tuple[Track, Phases]:
    """Return the track of a jump, one sample a frame, and its events as they are."""
    crouch, takeoff, apex, landing, absorbed = leap.events()
    frames = np.arange(0.0, math.ceil(absorbed + leap.after) + 1)
    low, bottom, top = 1.0 - leap.push, 1.0 - leap.lower - leap.absorb, 1.0 + leap.height
    up = top - leap.height * ((apex - leap.hang / 2 - frames) / (apex - leap.hang / 2 - takeoff)) ** 2
    down = top - leap.drop * ((frames - apex - leap.hang / 2) / (landing - apex - leap.hang / 2)) ** 2
    z = np.select(
        [
            frames < crouch,
            frames < takeoff,
            frames < apex - leap.hang / 2,
            frames <= apex + leap.hang / 2,
            frames < landing,
            frames < absorbed,
        ],
        [
            np.full_like(frames, low),
            low + leap.push * leap.shape(np.clip((frames - crouch) / (takeoff - crouch), 0, 1)),
            up,
            np.full_like(frames, top),
            down,
            bottom + leap.absorb * ((absorbed - frames) / max(absorbed - landing, 1e-9)) ** 2,
        ],
        bottom,
    )
    part = np.clip((frames - takeoff) / (landing - takeoff), 0, 1)
    if leap.bend is not None:
        z = z + np.where((part > 0) & (part < 1), leap.bend(part), 0.0)
    x, y = leap.path(part) if leap.path else (leap.distance * part, 0 * part)
    positions = np.stack((x, y, z), axis=1)
    positions += np.random.default_rng(leap.seed).normal(0, leap.noise, positions.shape) if leap.noise else 0
    track = Track("Brindle", leap.fps, frames, positions, follows=leap.follows)
    arc = fitted(track, takeoff, landing)

    def event(frame: float, height: float) -> Event:
        return Event(frame, leap.error, height)

    return track, Phases(
        crouch=event(crouch, low),
        takeoff=event(takeoff, 1.0),
        apex=event(apex, top),
        landing=event(landing, 1.0 - leap.lower),
        absorbed=event(absorbed, bottom),
        arc=arc,
        method="curve",
    )


def fitted(track: Track, takeoff: float, landing: float) -> Arc | None:
    """Return the least-squares parabola of the samples strictly in the air; None for fewer than five."""
    air = (track.frames > takeoff) & (track.frames < landing)
    frames, z = track.frames[air], track.heights[air]
    if len(frames) < 5:
        return None
    middle = frames.mean()
    t = (frames - middle) / track.fps
    (c2, c1, c0), cov = np.polyfit(t, z, 2, cov="unscaled")
    off = z - np.polyval((c2, c1, c0), t)
    rms = math.sqrt(float(off @ off) / len(off))
    spread = math.sqrt(float(off @ off) / max(len(off) - 3, 1))
    return Arc(
        apex_frame=float(middle - c1 / (2 * c2) * track.fps),
        apex_height=float(c0 - c1**2 / (4 * c2)),
        gravity=float(-2 * c2),
        gravity_error=2 * spread * math.sqrt(cov[0, 0]),
        first=float(frames[0]),
        last=float(frames[-1]),
        count=len(frames),
        residual_rms=rms,
    )


def measured(leap: Leap = Leap(), world: World = World()) -> Jump:  # noqa: B008 (both frozen)
    """Return the jump as Leapwright measures it."""
    return measure(*build(leap), world)


def codes(leap: Leap = Leap(), world: World = World()) -> set[str]:  # noqa: B008 (both frozen)
    """Return the codes of everything Leapwright finds off in the jump."""
    return found(measured(leap, world))


def found(jump: Jump) -> set[str]:
    """Return the codes of everything Leapwright finds off in a measured jump."""
    return {finding.code for finding in judge(jump, Settings()).findings}


def keyed(
    crouch: tuple[float, float] | None,
    takeoff: tuple[float, float],
    apex: tuple[float, float],
    landing: tuple[float, float],
    absorbed: tuple[float, float] | None = None,
    *,
    fps: float = 24.0,
    step: int = 1,
    held: bool = True,
    eased_curve: bool = False,
    world: World = World(),  # noqa: B008 (frozen)
) -> Jump:
    """Return a jump of keyed poses, each (frame, height in meters), held or joined by straight or eased lines."""
    poses = [pose for pose in (crouch, takeoff, apex, landing, absorbed) if pose is not None]
    keys, heights = np.array(poses).T
    frames = np.arange(keys[0] - 6, keys[-1] + 7)
    if held:
        z = heights[np.clip(np.searchsorted(keys, frames, side="right") - 1, 0, None)]
    else:
        i = np.clip(np.searchsorted(keys, frames, side="right") - 1, 0, len(keys) - 2)
        s = np.clip((frames - keys[i]) / (keys[i + 1] - keys[i]), 0, 1)
        s = s * s * (3 - 2 * s) if eased_curve else s
        z = heights[i] * (1 - s) + heights[i + 1] * s
    track = Track("Brindle", fps, frames, np.stack((0 * z, 0 * z, z), axis=1), key_frames=keys)

    def event(pose: tuple[float, float] | None) -> Event | None:
        return None if pose is None else Event(pose[0], step / math.sqrt(12), pose[1])

    phases = Phases(
        event(crouch), event(takeoff), event(apex), event(landing), event(absorbed), None, "keys", step, held
    )
    return measure(track, phases, world)


def pinned(leap: Leap, **events: Event | None) -> Jump:
    """Return the jump measured with some of its events put elsewhere."""
    track, phases = build(leap)
    return measure(track, replace(phases, **events), World())
