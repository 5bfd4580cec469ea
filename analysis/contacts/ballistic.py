"""The longest stretch around a top that one parabola follows, and whether that makes it a flight.

In a flight the point is fastest where it leaves the ground and where it meets it again, so the parabola
reaches from the fastest rise to the fastest fall. A bob or an eased pose only looks like a parabola near
its top: where the parabola ends, the point still has most of its speed to gain.
"""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from ..arrays import Array

CANDIDATES = 24
"""Number of starts and of ends that are tried, about; a finer search no longer moves the result."""
LOOSE = 2.5e-3
"""Largest residual of a stretch that still counts as one parabola, as a share of its height."""
PARABOLA_RESIDUAL = 1e-5
"""Largest residual of a curve that was drawn as a parabola, as a share of its height."""


@dataclass(frozen=True, slots=True)
class Parabola:
    """height = c0 + c1 s + c2 s², meters, with s in frames from `origin`."""

    origin: float
    c0: float
    c1: float
    c2: float

    def height(self, frame: float) -> float:
        """Return meters at a frame."""
        s = frame - self.origin
        return self.c0 + (self.c1 + self.c2 * s) * s

    def speed(self, frame: float) -> float:
        """Return meters a frame, up, at a frame."""
        return self.c1 + 2 * self.c2 * (frame - self.origin)

    @property
    def vertex(self) -> float:
        """Frame of the top."""
        return self.origin - self.c1 / (2 * self.c2)

    @property
    def backward(self) -> "Parabola":
        """The same with time reversed."""
        return Parabola(-self.origin, self.c0, -self.c1, self.c2)


@dataclass(frozen=True, slots=True)
class Stretch:
    """Samples first..last (indices, both in) that follow a parabola to rms meters."""

    first: int
    last: int
    parabola: Parabola
    rms: float


def parabola_over(frames: Array, heights: Array) -> tuple[Parabola, float, float]:
    """Fit a parabola by least squares; return it, the squares that samples miss it by, and how well they tell its bend.

    frames, heights: (n,) frames and meters. The squares are summed, m²; the second is the sum of squares of what
    neither a constant nor a slope has of s², in frames⁴: over it, a sample's variance is that of c2. Orthogonal parts
    need no equations to be solved.
    """
    n = len(frames)
    middle, level = float(frames.sum()) / n, float(heights.sum()) / n
    s, off = frames - middle, heights - level
    square, size, lean, told = _parts(s.tobytes())
    slope, bend = float(off.dot(s)) / size, float(off.dot(square)) / told
    off -= slope * s + bend * square
    return Parabola(middle, level - bend * size / n, slope - bend * lean, bend), float(off.dot(off)), told


@lru_cache(maxsize=64)
def _parts(offsets: bytes) -> tuple[Array, float, float, float]:
    """Return what only s² has, the squares of s, how s² leans on s, and the squares of the first: of as many even
    samples they are the same at every flight.
    """
    s = np.frombuffer(offsets)
    square = s * s
    size = float(square.sum())
    square -= size / len(s)
    lean = float(square.dot(s)) / size
    square -= lean * s
    return square, size, lean, float(square.dot(square))


def longest(
    frames: Array,
    heights: Array,
    starts: Array,
    ends: Array,
    *,
    noise: float,
    fewest: int,
    loose: float = LOOSE,
) -> Stretch | None:
    """Find the longest stretch from one of `starts` to one of `ends` that is one downward parabola.

    frames, heights: (n,) frames and meters; starts, ends: indices; noise: meters, one standard
    deviation; fewest: samples a stretch must hold; loose: share of its height that its residual may have.
    Of stretches that are longer by no more than a sample at either end, one that follows its parabola far
    more closely is taken: the samples left out touch the ground. None when no stretch qualifies.
    """
    return windows(frames, heights, starts, ends).longest(noise=noise, fewest=fewest, loose=loose)


@dataclass(frozen=True, slots=True, eq=False)
class Windows:
    """Stretches from each of (a,) starts to each of (b,) ends, with the parabolas that follow them best.

    starts, ends   indices of samples
    origin         frame that s counts from
    beat           frames from the first sample to the second
    count          (a, b) samples
    lengths        (a, b) frames
    c0, c1, c2     (a, b) meters, over frames and their square from origin
    rms            (a, b) meters, residual over the square root of count - 3
    scatter        (a, b) times the noise that it may be where noise is all that it is
    heights        (a, b) meters that each parabola rises over half its length
    """

    starts: Array
    ends: Array
    origin: float
    beat: float
    count: Array
    lengths: Array
    c0: Array
    c1: Array
    c2: Array
    rms: Array
    scatter: Array
    heights: Array

    def longest(self, *, noise: float, fewest: int, loose: float = LOOSE) -> Stretch | None:
        """Find the longest that is one downward parabola, as `longest` does."""
        good, measured = (self.count >= max(fewest, 4)) & (self.c2 < 0), noise * self.scatter
        score = self._score(good, np.hypot(measured, loose * self.heights))
        best = int(score.argmax())
        if score.flat[best] == -np.inf:
            return None
        closer = self._score(good, np.hypot(measured, PARABOLA_RESIDUAL * self.heights))
        second = int(closer.argmax())
        if closer.flat[second] >= score.flat[best] - 2.2 * self.beat:
            best = second
        a, b = divmod(best, score.shape[1])
        parabola = Parabola(self.origin, float(self.c0[a, b]), float(self.c1[a, b]), float(self.c2[a, b]))
        return Stretch(int(self.starts[a]), int(self.ends[b]), parabola, float(self.rms[a, b]))

    def _score(self, good: Array, allowed: Array) -> Array:
        """Return lengths in frames, less for what misses its parabola; minus infinity where more than is allowed."""
        return np.where(good & (self.rms <= allowed), self.lengths - 0.5 * self.rms / allowed, -np.inf)


def by_noise(free: Array | int) -> Array:
    """Return how many times the noise the residual of a parabola may be, by its samples less three, one at least."""
    scatter: Array = 1.15 + 2 / np.sqrt(2 * free)
    return scatter


def windows(frames: Array, heights: Array, starts: Array, ends: Array) -> Windows:
    """Fit a parabola to every stretch from one of `starts` to one of `ends`, or to fewer where there are many.

    frames, heights: (n,) frames and meters; starts, ends: rising indices.
    """
    starts, ends = _thinned(starts, outer=0), _thinned(ends, outer=-1)
    base, stop = int(starts[0]), int(ends[-1]) + 1
    origin = float(frames[(base + stop) // 2])
    s = frames[base:stop] - origin
    z = heights[base:stop] - heights[base]
    powers = np.empty((9, len(s)))
    for i, power in enumerate((1.0, s, s * s, s**3, s**4, z, z * s, z * s * s, z * z)):
        powers[i] = power
    sums = np.zeros((9, len(s) + 1))
    powers.cumsum(axis=1, out=sums[:, 1:])
    window = sums[:, None, ends + 1 - base] - sums[:, starts - base, None]
    lengths = s[ends - base] - s[starts - base, None]
    count = window[0]
    with np.errstate(invalid="ignore", divide="ignore"):
        (c0, c1, c2), rss = _parabolas(window)
        free = np.maximum(count - 3, 1)
        rms = np.sqrt(np.maximum(rss, 0) / free)
        rises = np.abs(c2) * (lengths / 2) ** 2
    beat = float(s[1] - s[0])
    return Windows(starts, ends, origin, beat, count, lengths, c0 + heights[base], c1, c2, rms, by_noise(free), rises)


def _thinned(indices: Array, *, outer: int) -> Array:
    """Return at most `CANDIDATES` of them, ever fewer away from the outer end (0 or −1)."""
    if len(indices) <= CANDIDATES:
        return indices
    away = _steps_away(len(indices))
    return indices[away] if outer == 0 else indices[len(indices) - 1 - away[::-1]]


@lru_cache(maxsize=256)
def _steps_away(count: int) -> Array:
    """Return which of so many indices are tried, counted from the outer end; stretches of one length share them."""
    return np.unique(np.geomspace(1, count, CANDIDATES).round().astype(np.intp)) - 1


def _parabolas(window: Array) -> tuple[tuple[Array, Array, Array], Array]:
    """Return the least-squares parabolas from the sums 1, s, s², s³, s⁴, z, zs, zs², z²: coefficients and residual."""
    n, s1, s2, s3, s4, z0, z1, z2, zz = window
    n = np.maximum(n, 1)
    m1, m2, w0 = s1 / n, s2 / n, z0 / n
    a11 = s2 - s1 * m1
    a12 = s3 - s1 * m2
    a22 = s4 - s2 * m2
    b1 = z1 - z0 * m1
    b2 = z2 - z0 * m2
    determinant = a11 * a22 - a12 * a12
    c1 = (b1 * a22 - b2 * a12) / determinant
    c2 = (a11 * b2 - a12 * b1) / determinant
    c0 = w0 - c1 * m1 - c2 * m2
    rss = zz - z0 * w0 - c1 * b1 - c2 * b2
    return (c0, c1, c2), rss
