"""Feet for the closed-form jump: where they are is built by hand, so that what is off with them is known."""

from dataclasses import dataclass, replace

import numpy as np
from leapwright.analysis import Jump, Track, World
from leapwright.analysis.jump import measure
from leapwright.analysis.phases import Phases

from tests.analysis.closed_form import Leap, build

LIFT = 0.5
"""Meters that the feet rise in the air; the body of the closed-form jump stands 1 m over them."""


@dataclass(frozen=True)
class Shoes:
    """How two feet go with a jump: frames by which they leave and touch late (under 0: early); meters that they slide
    along x in the push and after the landing, and sink over three frames from the landing; their noise; the height of
    the ground, and of the bones over their soles, meters; and the ground as a track is given it."""

    off: float = 0.0
    on: float = 0.0
    push_slide: float = 0.0
    slide: float = 0.0
    sink: float = 0.0
    noise: float = 0.0
    floor: float = 0.0
    sole: float = 0.0
    ground: float | None = None


def shod(shoes: Shoes = Shoes(), leap: Leap = Leap()) -> tuple[Track, Phases]:  # noqa: B008 (both frozen)
    """Return the jump's track with its feet, and its events as they are."""
    track, phases = build(leap)
    f, crouch = track.frames, phases.crouch.frame
    off, on = phases.takeoff.frame + shoes.off, phases.landing.frame + shoes.on
    air = np.clip((f - off) / (on - off), 0.0, 1.0)
    x = leap.distance * air + shoes.push_slide * np.clip((f - crouch) / (off - crouch), 0.0, 1.0)
    x = x + shoes.slide * np.clip((f - on) / 6.0, 0.0, 1.0)
    step_down = np.where(f > 0.5 * (off + on), leap.lower, 0.0)
    z = LIFT * np.sin(np.pi * air) - step_down - np.where((f >= on) & (f < on + 3), shoes.sink, 0.0)
    z = z + shoes.floor + shoes.sole
    feet = np.stack([np.stack((x, side + 0 * x, z), axis=1) for side in (0.1, -0.1)], axis=1)
    feet += np.random.default_rng(5).normal(0.0, shoes.noise, feet.shape) if shoes.noise else 0.0
    up = track.positions + np.array([0.0, 0.0, shoes.floor])
    return replace(track, positions=up, feet=feet, ground=shoes.ground), phases


def walked(shoes: Shoes = Shoes(), leap: Leap = Leap()) -> Jump:  # noqa: B008 (both frozen)
    """Return the jump as Leapwright measures it, feet and all."""
    return measure(*shod(shoes, leap), World())
