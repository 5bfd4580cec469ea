"""Where a push begins or an absorb ends: the bottom next to a contact, turned through or held.

Everything here is seen back in time from a takeoff; a landing's absorb is the same with time reversed.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from ..arrays import Array
from ..phases import Event
from .ballistic import parabola_over
from .knot import Knot

NOISY = 1e-4
"""Noise, in meters, above which we take the samples for measured; below, for drawn (our choice)."""
REST_SPEED_SHARE = 0.04
"""Speed below which the point counts as at rest, as a share of the takeoff speed (our choice)."""
HOLD_DRIFT_SHARE = 3e-3
"""Most that a hold may drift in one BEAT, as a share of the push distance (ours: a millimeter of a person's push)."""
SHRINKS = 0.8
"""Ratio of the move in one BEAT to that in the next, below which the first still belongs to the push: in a hold that
drifts, both moves are alike (our choice)."""
SCATTERS = 4.0
"""How far two samples of a hold may lie apart, in times the noise: 2.8 deviations of their difference (our choice)."""
SKEWS = 0.8
"""Standard error of a vertex, in units of r³ / T², where the forces on its two sides differ: r is the reach of the
samples that it is read from (root of Σt⁴ / Σt²), T the time of the push, both in frames (pushes and landings
integrated from random forces)."""
LEAST_VERTEX_ERROR = 0.07
"""Least standard error of a vertex, in samples (closed forms of other pushes: `python -m tests.bench detection`)."""
BEAT = 1 / 24
"""One frame of film, in seconds: we judge holds over it, whatever the frame rate of the track."""


@dataclass(frozen=True, slots=True)
class Bottom:
    """The bottom before a contact: frame and its standard error (frames), height (meters).

    held: the point rested there; cut: the track begins in the middle of the push; along: by how many frames the
    bottom moves when the contact moves by one.
    """

    frame: float
    error: float
    height: float
    held: bool
    cut: bool
    along: float = 0.0

    @property
    def event(self) -> Event:
        """The bottom as an event, the crouch."""
        return Event(self.frame, self.error, self.height, along=self.along)

    @property
    def backward(self) -> "Bottom":
        """The same with time reversed."""
        return replace(self, frame=-self.frame)


def bottom(
    frames: Array, heights: Array, contact: Knot, *, noise: float, fps: float, rough: bool = False
) -> Bottom | None:
    """Find the bottom that leads up to `contact`.

    frames, heights: the samples up to the contact, in rising frames, and meters; rough: put the end of a hold at its
    last sample. Return None where the point was never lower than the contact by more than the noise: there was no push.
    """
    last = int(frames.searchsorted(contact.frame, side="right"))
    f, z = frames[:last], heights[:last]
    if last < 2:
        return None
    beat = max(BEAT * fps / float(f[-1] - f[-2]), 1.0)
    # The walk reads numbers one by one; a view of the memory gives them three times as fast as an array.
    at, high = f.data, z.data
    c = _foot(at, high, contact, noise, beat)
    rise = contact.height - float(z[c])
    if rise <= max(4 * noise, 1e-4):
        return None
    drift = HOLD_DRIFT_SHARE * rise + SCATTERS * noise
    flat = c
    while flat > 0 and abs(high[flat - 1] - high[c]) <= drift and c - flat < 12 * beat:
        flat -= 1
    if c - flat >= 2 * beat or (c > flat == 0):
        if rough:
            level = z[flat : c + 1]  # what leads into a hold lies above it
            low = float(level.min() if noise <= NOISY else level.mean())
            return Bottom(float(f[c]), float(f[c] - f[c - 1]), low, held=True, cut=False)
        return _held(f, z, flat, c, contact, noise)
    return _turned(f, z, c, contact, noise)


def _foot(f: Sequence[float], z: Sequence[float], contact: Knot, noise: float, beat: float) -> int:
    """Return the index of the last sample before the push: walk back from the contact to it; beat: samples in BEAT."""
    slow = REST_SPEED_SHARE * contact.ground if contact.ground > 0 else REST_SPEED_SHARE * contact.speed
    reach = 1 if noise <= NOISY else _samples_over(noise, slow * float(f[-1] - f[-2]), beat)
    i = len(z) - 1
    while i >= reach and (z[i] - z[i - reach]) > slow * (f[i] - f[i - reach]) + 2 * noise:
        i -= 1
    rise = contact.height - z[i]
    least = HOLD_DRIFT_SHARE * rise / beat**2 + 2 * noise
    while 0 < i < len(z) - 1 and least < z[i] - z[i - 1] < SHRINKS ** (1 / beat) * (z[i + 1] - z[i]):
        i -= 1
    low = max(i - reach, 0)
    return min(range(low, i + 1), key=z.__getitem__) if reach > 1 else i


def _samples_over(noise: float, slow: float, beat: float) -> int:
    """Return over how many samples a point that only just counts as moving moves more than its noise: two samples at
    least, two BEATs at most.
    """
    most = max(round(2.0 * beat), 2)
    return most if SCATTERS * noise >= most * slow else max(math.ceil(SCATTERS * noise / slow), 2)


def _held(f: Array, z: Array, flat: int, c: int, contact: Knot, noise: float) -> Bottom:
    """Return the end of a hold: the start of the power-law rise that meets the contact's height and speed.

    A rise x = d sᵖ over T frames ends at the speed p d / T. Height and speed of the contact are given, so that only the
    start is unknown; we take the one with the least residual over the samples of the push.
    """
    level = float(np.mean(z[flat : c + 1]))
    d = contact.height - level
    speed = max(contact.ground, 1e-9)
    t, x = f[c:], z[c:] - level
    early, late = float(f[max(c - 2, 0)]), float(min(f[c] + 2.0 * (f[c] - f[c - 1]), contact.frame - 0.05))
    starts = np.linspace(min(early, late - 0.1), late, 61)
    span = contact.frame - starts
    power = np.clip(speed * span / d, 0.7, 6.0)
    s = np.clip((t[None, :] - starts[:, None]) / span[:, None], 0.0, None)
    rss = ((d * s ** power[:, None] - x[None, :]) ** 2).sum(axis=1)
    i = int(np.argmin(rss))
    step = float(starts[1] - starts[0])
    at, bend = float(starts[i]), 0.0
    if 0 < i < len(rss) - 1:
        bend = float(rss[i - 1] - 2 * rss[i] + rss[i + 1]) / step**2
        if bend > 0:
            at += float(rss[i - 1] - rss[i + 1]) / (2 * bend * step)
    spread = np.sqrt(max(float(rss[i]) / max(len(t) - 1, 1), noise**2))
    error = min(spread / np.sqrt(max(bend / 2, 1e-12)), 0.5 * (contact.frame - at)) if bend > 0 else 0.5 * step
    return Bottom(at, float(error), level, held=True, cut=False)


def _turned(f: Array, z: Array, c: int, contact: Knot, noise: float) -> Bottom:
    """Return a bottom that the point turns through without rest: the vertex of a parabola over the nearest samples."""
    push = contact.frame - f[c]
    beat = float(f[1] - f[0])
    reach = 1
    if noise > NOISY:
        pull = 2 * (contact.height - z[c]) / max(push, beat) ** 2
        reach = int(np.clip(np.sqrt(40 * noise / max(pull, 1e-12)) / beat, 1, max(push / beat / 2, 1)))
    a, b = max(c - reach, 0), min(c + reach + 1, len(z))
    if b - a < 3:
        a, b = max(b - 3, 0), min(a + 3, len(z))
    if b - a < 3:
        return Bottom(float(f[c]), 0.5 * beat, float(z[c]), held=False, cut=c == 0)
    parabola, *_ = parabola_over(f[a:b], z[a:b])
    if parabola.c2 <= 0:  # no vertex: it may lie anywhere within the push
        return Bottom(float(f[c]), max(push, beat) / math.sqrt(12), float(z[c]), held=False, cut=c == 0)
    away = parabola.vertex - float(f[c])
    vertex = float(f[c]) + min(max(away, -2.0 * beat), 1.0 * beat)
    n = b - a
    # For n even samples, Σt² = n (n² - 1) / 12 and Σt⁴ / Σt² = (3 n² - 7) / 20.
    noisy = noise / (2 * parabola.c2 * beat) / math.sqrt(n * (n * n - 1) / 12)
    skewed = SKEWS * (beat * math.sqrt((3 * n * n - 7) / 20)) ** 3 / max(push, beat) ** 2
    error = math.hypot(noisy, skewed, LEAST_VERTEX_ERROR * beat)
    height = min(parabola.height(vertex), float(z[c]))
    return Bottom(vertex, error, height, held=False, cut=c == 0 and away < -0.75 * beat)
