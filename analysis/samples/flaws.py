"""Bad frames of a dense track: a sample off its neighbors' curve, a frame that repeats or is missing.

Each is named, and what can be mended is: a sample that is off, or that repeats the one before amid the motion, is
drawn through. Only samples that nobody keyed as poses are looked at; a key that is off is the animator's.
"""

from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from ..arrays import Array, thirds

LEAST_OFF_METERS = 4e-3
"""Least distance from the curve of its neighbors, in meters, for a sample to be off: less is lost in any drawing
(ours)."""
NOISES = 8.0
"""Least distance from that curve as a multiple of the noise; extrapolation by three samples adds noise up by √19
(binomials)."""
LEAST_OFF_AGREEMENT = 0.5
"""Least over largest of the distances from the curves before the sample, after it and around it, under which it is not
off: at a contact the first two differ (ours)."""
CATCHES_UP = 1.6
"""Length of a step over those around it, from which a frame is missing before it (2 at an even speed)."""
REPEATED_STEP_SHARE = 0.3
"""Length of a step over those around it, up to which a frame repeats the one before (noise moves it)."""
LEAST_OFF_NOISE = 18.0
"""Least distance of a sample from the place due to it, as a multiple of the noise: four times √20, which carrying a
parabola on adds the noise up by."""
IN_PLACE = 0.2
"""Most distance of a sample from the place of the one that it is taken for, over its distance from its own place
(ours)."""
STEADY_STEPS_SHARE = 0.4
"""Least over largest of the two steps on either side, under which the motion is not steady: in a push or at a contact
steps differ for reasons (ours)."""
MOVES = 8e-3
"""Least speed, in meters a frame, at which a repeated or missing frame shows (ours)."""


class Flaw(StrEnum):
    """What is wrong with a frame."""

    OFF = "off"
    REPEATED = "repeated"
    MISSING = "missing"


@dataclass(frozen=True, slots=True)
class BadFrame:
    """A frame with a flaw; meters: how far it is off, None where it repeats or is missing."""

    frame: float
    flaw: Flaw
    meters: float | None = None


def outliers(heights: Array, noise: float) -> Array:
    """Find samples that lie off the curve of their neighbors, as indices.

    heights: (n,) meters, evenly spaced; noise: meters, one standard deviation. The curve before a sample, the one
    after it and the one around it must all say that it is off, and by alike: at a contact they differ.
    """
    none, least = np.zeros(0, dtype=np.intp), max(LEAST_OFF_METERS, NOISES * noise)
    if len(heights) < 7:
        return none
    # Parabolas carried on are (3, -3, 1) of the three samples beside, Lagrange's cubic is (-1, 4, 4, -1) / 6 of four.
    third = thirds(heights)
    before, after, around = third[:-3], -third[3:], (third[2:-1] - third[1:-2]) / 6
    least_of_two, most_of_two = np.minimum(before, after), np.maximum(before, after)
    low, high = np.minimum(least_of_two, around), np.maximum(most_of_two, around)
    middle = np.abs(np.maximum(least_of_two, np.minimum(most_of_two, around)))
    near, far = np.minimum(np.abs(low), np.abs(high)), np.maximum(np.abs(low), np.abs(high))
    middle[(low * high <= 0) | (near < LEAST_OFF_AGREEMENT * far)] = 0.0
    if middle.max() <= least:
        return none
    # A bad sample spoils the curves of its neighbors: only the worst of them is bad.
    worst = middle >= np.lib.stride_tricks.sliding_window_view(np.pad(middle, 3), 7).max(axis=1)
    return ((middle > least) & worst).nonzero()[0] + 3


def through(heights: Array, at: Array) -> Array:
    """Return heights at these indices on Lagrange's cubic through the two samples on either side."""
    z = heights
    return (4 * (z[at - 1] + z[at + 1]) - z[at - 2] - z[at + 2]) / 6


def stumbles(positions: Array, noise: float) -> tuple[Array, Array]:
    """Find steps of a steady motion that are next to none, and that are twice as long: indices of the later samples.

    positions: (n, 3) meters, evenly spaced. A hold or a turn is none: there the steps around it differ.
    """
    steps = positions[1:] - positions[:-1]
    none = np.zeros(0, dtype=np.intp)
    if len(steps) < 6:
        return none, none
    size = np.sqrt(np.einsum("ij,ij->i", steps, steps))
    before, step, after = steps[:-2], steps[1:-1], steps[2:]
    usual = (before + after) / 2
    square = np.maximum(np.einsum("ij,ij->i", usual, usual), 1e-18)
    ratio = np.einsum("ij,ij->i", step, usual) / square
    onward = np.einsum("ij,ij->i", before, after) > 0
    even = np.minimum(size[:-2], size[2:]) >= STEADY_STEPS_SHARE * np.maximum(size[:-2], size[2:])
    steady = onward & even & (square > max(MOVES, NOISES * noise) ** 2)
    same = (steady & (ratio <= REPEATED_STEP_SHARE)).nonzero()[0] + 2
    long = (steady & (ratio >= CATCHES_UP)).nonzero()[0] + 2
    astray = _astray(positions, noise)
    if len(astray):
        again = _in_place(positions, astray, (1, 0, 0))
        same = np.union1d(same, again[onward[again - 2]])
        long = np.union1d(long, _in_place(positions, astray, (6, -8, 3)))
    return same, long


def _astray(positions: Array, noise: float) -> Array:
    """Find samples that lie off the parabolas on either side, carried on by a sample, as do those before them: indices.

    A parabola carried on is (3, -3, 1) of the three samples beside, so that third differences say how far.
    """
    third = thirds(positions)
    off = np.einsum("ij,ij->i", third, third) > max(MOVES, LEAST_OFF_NOISE * noise) ** 2
    return (off[:-2] & off[2:]).nonzero()[0] + 3


def _in_place(positions: Array, astray: Array, due: tuple[int, int, int]) -> Array:
    """Tell which of the samples that are astray lie where another is due, seen from either side: indices.

    due: how the three samples before make up that other: (1, 0, 0) the last of them, (6, -8, 3) the one after next.
    """
    p, found = positions, np.ones(len(astray), dtype=bool)
    for way, here in ((-1, astray), (1, astray - 1)):
        one, two, three = p[here + way], p[here + 2 * way], p[here + 3 * way]
        off = np.linalg.norm(p[here] - 3 * (one - two) - three, axis=1)
        other = np.linalg.norm(p[here] - due[0] * one - due[1] * two - due[2] * three, axis=1)
        found &= other <= IN_PLACE * off
    return astray[found]
