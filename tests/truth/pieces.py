"""Closed-form pieces of a vertical path: holds, eases, pushes, flights, absorbs. SI units, z up.

Laws: v² = 2 g h; a constant push takes 2 d / v; k = t_push v / (2 d) is half the end slope of the push normalized in
both axes, so x(s) = s^(2k) has any k. A human push starts loaded and its force fades to zero before the feet leave, so
its speed peaks 20 to 30 ms early (five plate records, BMC laboratory, CC BY 4.0).
"""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from scipy.optimize import brentq

Profile = Callable[[np.ndarray], np.ndarray]


@dataclass(frozen=True)
class Piece:
    """A stretch of path: `height` and `speed` take seconds since its start; meters, m/s."""

    name: str
    seconds: float
    height: Profile
    speed: Profile


@dataclass(frozen=True)
class Path:
    """Pieces in order; constant before the first and after the last."""

    pieces: tuple[Piece, ...]

    @property
    def starts(self) -> np.ndarray:
        """(n + 1,) seconds at which each piece starts; the last one is the end of all."""
        return np.concatenate([[0.0], np.cumsum([piece.seconds for piece in self.pieces])])

    def at(self, seconds: np.ndarray, *, what: str = "height") -> np.ndarray:
        """Return heights (or speeds) at these seconds."""
        starts = self.starts
        seconds = np.clip(np.asarray(seconds, dtype=float), 0.0, starts[-1])
        which = np.clip(np.searchsorted(starts, seconds, side="right") - 1, 0, len(self.pieces) - 1)
        values = np.empty_like(seconds)
        for index in np.unique(which):
            mine = which == index
            values[mine] = getattr(self.pieces[index], what)(seconds[mine] - starts[index])
        return values


def polynomial(name: str, seconds: float, coefficients: list[float]) -> Piece:
    """Return a piece from coefficients of t, lowest first."""
    height = np.polynomial.Polynomial(coefficients)
    return Piece(name, seconds, height, height.deriv())


def hold(name: str, height: float, seconds: float) -> Piece:
    """Stay at a height."""
    return polynomial(name, seconds, [height, 0.0])


def ease(
    name: str,
    start: float,
    end: float,
    seconds: float,
    *,
    shape: str = "jerk",
    pull: tuple[float, float] = (0, 0),
) -> Piece:
    """Move between two rests. shape: "cosine", "cubic" (3s² − 2s³), "jerk" (minimum jerk, a quintic).

    pull: accelerations at both ends, m/s², for "jerk" only.
    """
    rise, t = end - start, seconds
    if shape == "cosine":
        turn = np.pi / t
        return Piece(
            name,
            t,
            lambda x: start + rise * (1 - np.cos(turn * x)) / 2,
            lambda x: rise * turn * np.sin(turn * x) / 2,
        )
    if shape == "cubic":
        return polynomial(name, t, [start, 0, 3 * rise / t**2, -2 * rise / t**3])
    a, b = pull
    return polynomial(
        name,
        t,
        [
            start,
            0.0,
            a / 2,
            (20 * rise - (3 * a - b) * t**2) / (2 * t**3),
            (-30 * rise + (3 * a - 2 * b) * t**2) / (2 * t**4),
            (12 * rise - (a - b) * t**2) / (2 * t**5),
        ],
    )


def flight(start: float, speed: float, gravity: float, seconds: float) -> Piece:
    """Fly: z = z0 + v t − g t² / 2."""
    return polynomial("flight", seconds, [start, speed, -gravity / 2])


def power_push(start: float, distance: float, speed: float, k: float) -> Piece:
    """Return a push along s^(2k), leaving at `speed`; it lasts 2 d k / v."""
    t = 2 * distance * k / speed
    return Piece(
        "push",
        t,
        lambda x: start + distance * np.clip(x / t, 0, None) ** (2 * k),
        lambda x: speed * np.clip(x / t, 0, None) ** (2 * k - 1),
    )


def human_push(
    start: float, distance: float, speed: float, *, gravity: float, lead: float, front: float
) -> tuple[Piece, float]:
    """Return a push like a plate record: loaded at the bottom, force fading to zero at takeoff.

    Net acceleration falls linearly from A to (1 − front) A, then to −gravity, crossing zero `lead`
    seconds before takeoff. A and the duration follow from distance and speed. Returns the piece and A.
    Raises ValueError when no such push exists.
    """

    def parts(pull: float) -> tuple[float, float]:
        late = (1 - front) * pull
        fade = lead * (1 + late / gravity)
        level = (speed - (late - gravity) / 2 * fade) / (pull * (1 - front / 2))
        return level, fade

    def traveled(pull: float) -> float:
        level, fade = parts(pull)
        late = (1 - front) * pull
        mid = pull * level * (1 - front / 2)
        return pull * level**2 * (0.5 - front / 6) + mid * fade + late * fade**2 / 3 - gravity * fade**2 / 6

    top = brentq(lambda pull: parts(pull)[0], 1e-3, 1e4)
    pull = brentq(lambda pull: traveled(pull) - distance, 1e-2, top)
    level, fade = parts(pull)
    late = (1 - front) * pull
    first = polynomial("", level, [start, 0.0, pull / 2, -front * pull / (6 * level)])
    z, v = float(first.height(level)), float(first.speed(level))
    last = polynomial("", fade, [z, v, late / 2, -(late + gravity) / (6 * fade)])

    def joined(what: str) -> Profile:
        one, two = getattr(first, what), getattr(last, what)
        return lambda x: np.where(np.asarray(x) < level, one(x), two(np.asarray(x) - level))

    return Piece("push", level + fade, joined("height"), joined("speed")), pull


def spring_push(start: float, distance: float, speed: float, gravity: float) -> Piece:
    """Return a push as of a running leg: ground force a quarter cosine, from its peak at the bottom to zero.

    a = P cos(w t) − g with w = π / 2T, so v = P / w − g T and d = P / w² − g T² / 2.
    """
    c = gravity * (2 / np.pi - 0.5)
    t = (np.sqrt((2 * speed / np.pi) ** 2 + 4 * c * distance) - 2 * speed / np.pi) / (2 * c)
    w = np.pi / (2 * t)
    pull = w * (speed + gravity * t)
    return Piece(
        "push",
        t,
        lambda x: start + pull / w**2 * (1 - np.cos(w * x)) - gravity * x**2 / 2,
        lambda x: pull / w * np.sin(w * x) - gravity * x,
    )


def backward(name: str, piece: Piece) -> Piece:
    """Return the same piece, time reversed: a push becomes a landing."""
    t = piece.seconds
    return Piece(name, t, lambda x: piece.height(t - x), lambda x: -piece.speed(t - x))
