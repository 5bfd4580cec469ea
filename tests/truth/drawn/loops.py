"""Jumps with no stand beside them: hops that repeat, and a hop out of a run."""

from collections.abc import Callable
from dataclasses import replace

import numpy as np

from .blocking import block, drawn_sheet
from .draft import Sheet, draft, truths


def loop(rng: np.random.Generator) -> Sheet:
    """Hops from crouch to crouch and nothing else, keyed by poses or on every frame."""
    body = draft(rng, count=(1, 2, 3), flowing=1.0, air=7.0, pushed=2.0, uneven=0.0, height=(0.1, 2.0))
    if rng.uniform() < 0.5:
        poses = block(rng, body)
        outside = (poses.keys < poses.events[0, 0]) | (poses.keys > poses.events[-1, -1])
        return drawn_sheet(poses.without(poses.keys[outside]), rng)
    first, last = np.floor(body.times[0, 0]), np.ceil(body.times[-1, -1])
    frames = np.arange(first, last + 1)
    heights = np.array([body.at(row)[:, 2] for row in body.times])
    return Sheet(body.fps, frames, body.at(frames), truths(body.times, heights), frames, "linear")


def run_up(rng: np.random.Generator) -> Sheet:
    """Strides that bob, a dip, a hop, and strides again; baked, or a key on every second frame."""
    body = draft(rng, count=(1,), height=(0.12, 1.2), stand=(0.5, 1.5), air=7.0, ends=(0.8, 1.6), ratio=(1.0, 4.0))
    body = replace(body, speed=0.0)
    frames = np.arange(np.ceil(body.start), body.end)
    (times,) = body.times
    (jump,) = body.jumped.bodies
    places = body.at(frames)
    rate = rng.uniform(2.2, 3.2) / np.sqrt(jump.stand)
    size = rng.uniform(0.02, 0.05) * jump.stand
    near = np.interp(frames, times[[0, 0, 4, 4]] + body.fps * np.array([-0.5, -0.2, 0.3, 0.6]), [1.0, 0.0, 0.0, 1.0])
    phase = rng.uniform(0, 2 * np.pi)
    places[:, 2] += near * size * np.sin(2 * np.pi * rate * (frames - frames[0]) / body.fps + phase)
    speed = rng.uniform(1.5, 4.0) * np.sqrt(jump.stand)
    places[:, 0] = speed * (frames - frames[0]) / body.fps
    heights = np.array([body.at(times)[:, 2]])
    return Sheet(body.fps, frames, places, truths(body.times, heights), frames, "linear")


MAKERS: dict[str, Callable[[np.random.Generator], Sheet]] = {"hop loop": loop, "run-up hop": run_up}
