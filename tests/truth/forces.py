"""Pushes and landings integrated from random forces of the ground. SI units, z up, times in seconds.

Nothing here has a closed form that a model could share: the force of the ground is a sum of random smooth bumps, it
never pulls, and it fades to zero before the body leaves. Speed and height are integrated from it.
"""

from dataclasses import dataclass

import numpy as np
from scipy.interpolate import CubicSpline
from scipy.optimize import brentq

from .pieces import Path, Piece, backward, ease, flight, hold

GRID = np.linspace(0.0, 1.0, 601)
"""Shares of a push at which its force is summed."""


def bumps(rng: np.random.Generator, *, loaded: bool) -> np.ndarray:
    """Return a random force over GRID, positive, of mean 1; loaded: it does not start at zero."""
    force = np.zeros_like(GRID)
    for _ in range(int(rng.integers(1, 5))):
        middle, width = rng.uniform(0.0, 1.0), rng.uniform(0.2, 0.7)
        force += rng.uniform(0.2, 1.0) * np.exp(-(((GRID - middle) / width) ** 2))
    if loaded:
        force += rng.uniform(0.2, 1.0)
    else:
        force *= _smooth(GRID / rng.uniform(0.1, 0.6))
    return force / _sum(force)[-1]


def push(
    rng: np.random.Generator,
    *,
    distance: float,
    speed: float,
    gravity: float,
    fade: float,
    loaded: bool,
    straight: float | None = None,
) -> tuple[Piece, float]:
    """Return a push from rest over this distance to this speed, and its acceleration at the start.

    fade: seconds over which the force falls to zero before takeoff; at most seven tenths of the push.
    straight: 1 where it falls along a line, 0 where it ends without a bend; None: a draw.
    """
    force, sharp = bumps(rng, loaded=loaded), rng.uniform(0.0, 1.0) if straight is None else straight
    return by_force(force, distance=distance, speed=speed, gravity=gravity, fade=fade, straight=sharp)


def by_force(
    force: np.ndarray, *, distance: float, speed: float, gravity: float, fade: float, straight: float
) -> tuple[Piece, float]:
    """Return the push by a net force of this shape over GRID, as large and long as takes it there; else as `push`."""

    def run(seconds: float) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
        left = (1.0 - GRID) * seconds / max(min(fade, 0.7 * seconds), 1e-9)
        kept = (1.0 - straight) * _smooth(left) + straight * np.clip(left, 0.0, 1.0)
        if fade == 0.0:
            kept = np.ones_like(GRID)
        weight = _sum(kept)[-1] - 1.0
        size = (speed / seconds - gravity * weight) / _sum(force * kept)[-1]
        pull = (gravity + size * force) * kept - gravity
        fast = _sum(pull) * seconds
        return pull, fast, _sum(fast) * seconds

    seconds = brentq(lambda t: run(t)[2][-1] - distance, 0.3 * distance / speed, 40.0 * distance / speed)
    pull, fast, high = run(seconds)
    times = GRID * seconds
    height, rate = CubicSpline(times, high), CubicSpline(times, fast)
    return Piece("push", seconds, height, rate), float(pull[0])


def _smooth(share: np.ndarray) -> np.ndarray:
    """0 to 1 with no bend at either end."""
    share = np.clip(share, 0.0, 1.0)
    return share**2 * (3.0 - 2.0 * share)


def _sum(values: np.ndarray) -> np.ndarray:
    """Trapezoids over GRID, from 0."""
    return np.concatenate([[0.0], np.cumsum((values[1:] + values[:-1]) / 2.0)]) / (len(GRID) - 1)


@dataclass(frozen=True)
class Body:
    """One jump as a body could do it. Meters, m/s², seconds.

    stand, after    height it stands at before and after
    distance        crouch to takeoff
    height, drop    takeoff to apex, apex to landing
    absorb          landing to the bottom after it
    lift            how much higher than standing it is as its toes leave and touch
    hold            pause in the crouch; 0: the dip flows into the push
    fade, onset     over which the force fades before takeoff, and sets in after landing
    gravity         of its flight and of its pushes
    straight        how the force fades, see push
    """

    stand: float
    distance: float
    height: float
    drop: float
    absorb: float
    lift: float
    hold: float
    fade: float
    onset: float
    gravity: float
    straight: float | None = None

    @property
    def after(self) -> float:
        """The body stands where it landed."""
        return self.stand + self.height - self.drop


@dataclass(frozen=True)
class Jumped:
    """The path of one jump or more, and the seconds of their events: crouch … absorbed, one row a jump."""

    path: Path
    bodies: tuple[Body, ...]
    events: np.ndarray


def leap(rng: np.random.Generator, bodies: list[Body], *, pauses: list[float], ends: tuple[float, float]) -> Jumped:
    """Stand, jump, stand … as forces move it. pauses: of standing between; 0: an absorb flows into a push."""
    pieces: list[Piece] = [hold("stand", bodies[0].stand, ends[0])]
    events, low, back = [], bodies[0].stand, 0.0
    for index, body in enumerate(bodies):
        flowing = index > 0 and pauses[index - 1] == 0.0
        loaded = body.hold == 0.0
        off = body.stand + body.lift
        distance = off - low if flowing else body.distance
        speed = float(np.sqrt(2 * body.gravity * body.height))
        own = {"gravity": body.gravity, "straight": body.straight}
        drive, pull = push(rng, distance=distance, speed=speed, fade=body.fade, loaded=loaded or flowing, **own)
        if not flowing:
            pieces += _dip(rng, body, off - distance, pull)
        crouch = sum(piece.seconds for piece in pieces)
        pieces.append(_raised(drive, off - distance))
        air = speed / body.gravity + float(np.sqrt(2 * body.drop / body.gravity))
        pieces.append(flight(off, speed, body.gravity, air))
        fast = float(np.sqrt(2 * body.gravity * body.drop))
        land, back = push(rng, distance=body.absorb, speed=fast, fade=body.onset, loaded=True, **own)
        low = body.after + body.lift - body.absorb
        pieces.append(_raised(backward("absorb", land), low))
        takeoff = crouch + drive.seconds
        events.append((crouch, takeoff, takeoff + speed / body.gravity, takeoff + air, takeoff + air + land.seconds))
        if index + 1 < len(bodies) and pauses[index] == 0.0:
            continue
        pieces.append(backward("settle", sink(rng, body.after, low, gravity=body.gravity, pull=back)))
        pieces.append(hold("stand", body.after, pauses[index] if index + 1 < len(bodies) else ends[1]))
    return Jumped(Path(tuple(pieces)), tuple(bodies), np.array(events))


def _dip(rng: np.random.Generator, body: Body, low: float, pull: float) -> list[Piece]:
    """Down to the crouch, with the push's first acceleration at its bottom, or a rest there."""
    down = sink(rng, body.stand, low, gravity=body.gravity, pull=0.0 if body.hold else pull)
    return [down, hold("hold", low, body.hold)] if body.hold else [down]


def sink(rng: np.random.Generator, start: float, end: float, *, gravity: float, pull: float) -> Piece:
    """Go down from rest to rest, the acceleration at the end `pull`; the ground never has to pull."""
    if pull < 0.5 * gravity:
        seconds = float(np.sqrt(rng.uniform(9.0, 16.0) * (start - end) / gravity))
        return ease("dip", start, end, seconds, pull=(0.0, pull))
    least = rng.uniform(0.4, 0.85) * gravity
    brake = min(rng.uniform(0.3, 0.7), least / pull)
    rising = _smooth((GRID - 1.0 + brake) / brake)
    falling = np.sin(np.pi * np.clip(GRID / (1.0 - 0.5 * brake), 0.0, 1.0)) ** 2
    curve = pull * rising - pull * _sum(rising)[-1] / _sum(falling)[-1] * falling
    fast = _sum(curve)
    way = _sum(fast)
    seconds = float(np.sqrt((end - start) / way[-1]))
    times = GRID * seconds
    height, rate = CubicSpline(times, start + way * seconds**2), CubicSpline(times, fast * seconds)
    return Piece("dip", seconds, height, rate)


def _raised(piece: Piece, by: float) -> Piece:
    return Piece(piece.name, piece.seconds, lambda x: by + piece.height(x), piece.speed)
