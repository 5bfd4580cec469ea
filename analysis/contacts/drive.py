"""Drives: rises from a bottom that end on a given parabola, with the parabola's height and speed.

The parabola gives the height and the speed that a drive must have at its end. So each family has two unknowns
at most: when the drive ends, and one of its shape. Four families:

- power: x = d sᵖ from rest; p = 2 is a constant force, 1 a constant speed, 3 a cubic ease-in. The other
  unknown is the start.
- fading: the force changes evenly through the push and then fades out, as force plates record it. So the
  point is fastest `LEAD` seconds before the feet leave. The other unknown is the acceleration before the fade.
- springing: the leg is a spring that has its rest length when it leaves the ground (spring-mass model, Blickhan
  1989, J. Biomech. 22:1217). Its force is a quarter of a cosine; the end is the only unknown.
- ebbing: the net force dies away as a sine that ends at zero. The other unknown is the angle at which it
  starts, from a half sine (0) to the release of a spring (π/2).

All contacts of a track are fitted at once: arrays are (b, …), one row per contact.
"""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from ..arrays import Array
from .least_squares import Fit, fit

LEAD = 0.025
"""Seconds from the peak of the speed to takeoff: 22 to 27 ms in five plate records (BMC laboratory)."""
LANDING_LEAD = 0.012
"""Seconds from touchdown to the peak of the speed: half of LEAD, since in the same records the force of a landing is
two to three times as large (5.5 to 6.8 against 2.0 to 2.7 body weights)."""
LEAD_SPREAD = 0.4
"""Standard deviation of a lead, as a share of the lead: so far the samples may correct it (our choice)."""
LEAST_POWER, MOST_POWER = 0.7, 6.0
"""Least and most power of a push (our choice): below the least, the rise is a corner; above the most, it is a hold and
then a corner."""
USUAL_POWER = 2.0
"""Power that we expect of a push: that of a constant force (our choice)."""
USUAL_POWER_RESIDUAL = 1.43e-3
"""Residual, as a share of the rise, that we add where the power is e times the usual one. It settles the power of a
push with one or two samples, and changes nothing where there are more (our choice)."""
LEAST_RESIDUAL = 2e-5
"""Least residual of a smooth curve about a drive, in meters. Half or twice of it moves a contact by less than a
fiftieth of a frame."""

DRIVE_STARTS, DRIVE_ENDS = np.linspace(0.0, 1.0, 11), np.linspace(0.0, 1.0, 15)
"""Where starts and ends of a drive are tried first, as shares of the span from their earliest to their latest frame."""
START_COLUMN, END_COLUMN, LEVEL_COLUMN, LEAD_COLUMN = range(4)
"""Columns of the unknowns: the start, or the acceleration before the fade; the end; the height of the bottom; the lead.
"""


@dataclass(frozen=True, slots=True, eq=False)
class Grounds:
    """What drives are fitted to: the samples from each bottom to the first ones in the air.

    frames, heights, weights   (b, m) frames, meters, 1 for a sample and 0 for padding
    parabolas                  (b, 4) origin (frames), c0, c1, c2 of each flight
    levels                     (b,) heights of the bottoms, meters
    starts, ends               (b, 2) earliest and latest frame of start and end
    leads                      (b,) frames from the peak of a recorded speed to the contact
    free                       (b,) whether to fit the level too: where the bottom is turned through, not held
    noise                      meters, one standard deviation of a sample
    """

    frames: Array
    heights: Array
    weights: Array
    parabolas: Array
    levels: Array
    starts: Array
    ends: Array
    leads: Array
    free: Array
    noise: float

    def at(self, rows: Array) -> "Grounds":
        """Return only these rows."""
        arrays = {name: getattr(self, name)[rows] for name in self.__slots__[:-1]}
        return Grounds(**arrays, noise=self.noise)


def power_drives(ground: Grounds) -> Fit:
    """Fit power-law drives."""
    origin, c0, c1, c2 = _columns(ground.parabolas)
    frames, air = ground.frames[:, None, :], _air(ground)
    s = ground.ends[:, 1] - ground.parabolas[:, 0]
    rise = ground.parabolas[:, 1] + (ground.parabolas[:, 2] + ground.parabolas[:, 3] * s) * s - ground.levels
    belief, twice = (USUAL_POWER_RESIDUAL * np.maximum(rise, 1e-3))[:, None], 2 * c2

    def model(at: Array) -> tuple[Array, Array, Array, Array]:
        start, end, level = at[..., START_COLUMN, None], at[..., END_COLUMN, None], at[..., LEVEL_COLUMN, None]
        late, way = end - origin, end - start
        d = np.maximum(c0 + (c1 + c2 * late) * late - level, 1e-9)
        span = np.maximum(way, 1e-3)
        power = (c1 + twice * late) * span / d
        possible = (power >= LEAST_POWER) & (power <= MOST_POWER) & (way >= 0.05)
        power = np.minimum(np.maximum(power, 1e-3), 50.0)
        # This is done in place, since the grid of these is the largest array of an audit.
        rising = frames - start
        rising /= span
        np.minimum(np.maximum(rising, 1e-12, out=rising), 1.0, out=rising)
        np.log(rising, out=rising)
        rising *= power
        np.exp(rising, out=rising)
        rising *= d
        rising += level
        pull = belief * np.log(power[..., 0] / USUAL_POWER)
        return np.where(frames > end, air, rising), start[..., 0], pull, possible[..., 0]

    first = ground.starts[:, :1] + DRIVE_STARTS * (ground.starts[:, 1:] - ground.starts[:, :1])
    return _fitted(ground, model, first, moves=(START_COLUMN, END_COLUMN))


def fading_drives(ground: Grounds) -> Fit:
    """Fit drives whose force fades out: the speed peaks a lead before the end."""
    origin, c0, c1, c2 = _columns(ground.parabolas)
    frames, air = ground.frames[:, None, :], _air(ground)
    gravity = -2 * c2
    earliest = ground.frames[:, None, :1] - 2
    belief = (max(ground.noise, LEAST_RESIDUAL) / (LEAD_SPREAD * ground.leads))[:, None]

    def model(at: Array) -> tuple[Array, Array, Array, Array]:
        late, end, level = at[..., START_COLUMN, None] * gravity, at[..., END_COLUMN, None], at[..., LEVEL_COLUMN, None]
        fade = np.maximum(at[..., LEAD_COLUMN, None], 1e-3) * (1 + at[..., START_COLUMN, None])
        s = end - origin
        z0, v0 = c0 + (c1 + c2 * s) * s, c1 + 2 * c2 * s
        rate = (late + gravity) / fade
        v1 = v0 + gravity * fade - rate * fade**2 / 2
        z1 = z0 - v0 * fade - gravity * fade**2 / 2 + rate * fade**3 / 6
        discriminant = 16 * v1**2 - 24 * late * (z1 - level)
        span = np.maximum((4 * v1 - np.sqrt(np.maximum(discriminant, 0.0))) / (2 * late), 1e-6)
        early = 2 * v1 / span - late
        start = end - fade - span
        x = np.minimum(np.maximum(frames - start, 0.0), span)
        rising = level + (early / 2 - (early - late) / (6 * span) * x) * x**2
        tau = end - frames
        fading = z0 - (v0 + (gravity / 2 - rate / 6 * tau) * tau) * tau
        possible = (late > 0) & (discriminant >= 0) & (span > 0.2) & (v1 > 0) & (start >= earliest)
        pull = belief * (at[..., LEAD_COLUMN] - ground.leads[:, None])
        joined = np.where(frames > end, air, np.where(tau > fade, rising, fading))
        return joined, start[..., 0], pull, possible[..., 0]

    first = np.broadcast_to(np.geomspace(0.15, 4.0, 11), (len(ground.free), 11))
    return _fitted(ground, model, first, moves=(START_COLUMN, END_COLUMN, LEAD_COLUMN))


def springing_drives(ground: Grounds) -> Fit:
    """Fit drives whose force is a quarter cosine."""
    origin, c0, c1, c2 = _columns(ground.parabolas)
    frames, air = ground.frames[:, None, :], _air(ground)
    gravity = -2 * c2
    turn = 2 / np.pi
    bend = gravity * (turn - 0.5)

    def model(at: Array) -> tuple[Array, Array, Array, Array]:
        end, level = at[..., END_COLUMN, None], at[..., LEVEL_COLUMN, None]
        s = end - origin
        v, d = c1 + 2 * c2 * s, c0 + (c1 + c2 * s) * s - level
        root = np.sqrt(np.maximum((v * turn) ** 2 + 4 * bend * d, 0.0))
        span = np.maximum((root - v * turn) / (2 * bend), 1e-6)
        force = (v + gravity * span) / (turn * span)
        x = np.minimum(np.maximum(frames - (end - span), 0.0), span)
        rising = level + force * (turn * span) ** 2 * (1 - np.cos(x / (turn * span))) - gravity * x**2 / 2
        possible = (d > 0) & (v > 0) & (span > 0.2)
        return np.where(frames > end, air, rising), (end - span)[..., 0], np.zeros(at.shape[:2]), possible[..., 0]

    return _fitted(ground, model, np.zeros((len(ground.free), 1)), moves=(END_COLUMN,))


def ebbing_drives(ground: Grounds) -> Fit:
    """Fit drives whose net force ends at zero, as a sine does.

    With a = A sin(θ + (π − θ) t / T): v = A T (1 + cos θ) / (π − θ), d = A T² (cos θ + sin θ / (π − θ)) / (π − θ).
    """
    origin, c0, c1, c2 = _columns(ground.parabolas)
    frames, air = ground.frames[:, None, :], _air(ground)

    def model(at: Array) -> tuple[Array, Array, Array, Array]:
        angle, end, level = at[..., START_COLUMN, None], at[..., END_COLUMN, None], at[..., LEVEL_COLUMN, None]
        s = end - origin
        v, d = np.maximum(c1 + 2 * c2 * s, 1e-9), c0 + (c1 + c2 * s) * s - level
        turn = np.pi - angle
        cosine, sine = np.cos(angle), np.sin(angle)
        span = np.maximum(d / v * (1 + cosine) / (cosine + sine / turn), 1e-6)
        rate = turn / span
        x = np.minimum(np.maximum(frames - (end - span), 0.0), span)
        rising = level + v / (1 + cosine) * (cosine * x - (np.sin(angle + rate * x) - sine) / rate)
        possible = (angle > -0.3) & (angle < np.pi / 2 + 0.3) & (d > 0) & (span > 0.2)
        return np.where(frames > end, air, rising), (end - span)[..., 0], np.zeros(at.shape[:2]), possible[..., 0]

    first = np.broadcast_to(np.linspace(0.0, np.pi / 2, 5), (len(ground.free), 5))
    return _fitted(ground, model, first, moves=(START_COLUMN, END_COLUMN))


def _columns(parabolas: Array) -> tuple[Array, ...]:
    return tuple(parabolas[:, i, None, None] for i in range(4))


def _air(ground: Grounds) -> Array:
    """Return heights of the parabolas at the samples, (b, 1, m) meters."""
    origin, c0, c1, c2 = _columns(ground.parabolas)
    s = ground.frames[:, None, :] - origin
    return c0 + (c1 + c2 * s) * s


Model = Callable[[Array], tuple[Array, Array, Array, Array]]


def _fitted(ground: Grounds, model: Model, first: Array, *, moves: tuple[int, ...]) -> Fit:
    """Fit from the best point of a grid over the first unknown and the end; moves: the columns of what is fitted,
    besides a free level.
    """
    ends = ground.ends[:, :1] + DRIVE_ENDS * (ground.ends[:, 1:] - ground.ends[:, :1])
    grid = np.empty((len(ends), first.shape[1], ends.shape[1], 4))
    grid[..., START_COLUMN] = first[:, :, None]
    grid[..., END_COLUMN] = ends[:, None, :]
    grid[..., LEVEL_COLUMN] = ground.levels[:, None, None]
    grid[..., LEAD_COLUMN] = ground.leads[:, None, None]
    free = np.zeros((len(ends), 4), dtype=bool)
    free[:, moves], free[:, LEVEL_COLUMN] = True, ground.free
    grid = grid.reshape(len(ends), -1, 4)
    return fit(model, grid, ground.heights, ground.weights, free=free, noise=ground.noise)
