"""Feet under a body whose contacts are known: they stand by turns, and swing from one stance to the next."""

from dataclasses import replace

import numpy as np

from .answer import Motion

STRIDE, LIFT = 1.2, 0.25
"""Meters from one stance to the next, and of a swinging foot over the ground."""


def shod(motion: Motion, rng: np.random.Generator) -> Motion:
    """Give a run its feet, on a ground at height 0; they are off it just while the body is in the air.

    They have the noise of the track's kind too, at half its size (ours: they are near and well seen).
    """
    frames, truth = motion.track.frames, motion.truth
    stances = [(-np.inf, truth[0].takeoff)]
    stances += [(one.landing, other.takeoff) for one, other in zip(truth, truth[1:], strict=False)]
    stances += [(truth[-1].landing, np.inf)]
    last = len(stances) - 1
    feet = np.empty((len(frames), 2, 3))
    for side in (0, 1):
        mine = [n for n in range(len(stances)) if n in (0, last) or n % 2 == side]
        x, z = np.full(len(frames), STRIDE * mine[0]), np.zeros(len(frames))
        for n, after in zip(mine, mine[1:], strict=False):
            swing = np.clip((frames - stances[n][1]) / (stances[after][0] - stances[n][1]), 0.0, 1.0)
            x += STRIDE * (after - n) * (1.0 - np.cos(np.pi * swing)) / 2.0
            z += LIFT * np.sin(np.pi * swing)
        feet[:, side] = np.column_stack((x, np.full(len(frames), 0.1 - 0.2 * side), z))
    path = motion.path.at((frames - motion.offset) / motion.track.fps)
    noise = float(np.std(motion.track.heights - path))
    feet += rng.normal(0.0, 0.5 * noise, feet.shape)
    return replace(motion, track=replace(motion.track, feet=feet, ground=0.0))
