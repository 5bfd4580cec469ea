"""One jump's recipe, and the path of several of them with the times of their events."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from .pieces import Path, Piece, backward, ease, flight, hold, human_push, power_push, spring_push

HUMAN_K = (0.78, 1.02)
"""k of five plate records of countermovement jumps (BMC laboratory, CC BY 4.0), feet-off to speed peak."""


@dataclass(frozen=True)
class Leap:
    """A jump from standing. Lengths in meters, gravity in m/s², times in seconds.

    height, drop      takeoff to apex, apex to landing
    distance, absorb  crouch to takeoff, landing to the bottom after it
    k                 shape of the push; `human` takes its own (lead, front: see human_push)
    spring            pushes and lands as a running leg (spring_push)
    lift              how much higher than standing the body is at takeoff
    hold              pause in the crouch; human pushes have none
    dip, rise         durations of going down and of settling, in units of sqrt(length / gravity)
    """

    height: float
    distance: float
    gravity: float
    drop: float
    absorb: float
    k: float = 1.0
    lift: float = 0.0
    hold: float = 0.0
    dip: float = 2.5
    rise: float = 3.0
    dip_shape: str = "cosine"
    human: bool = False
    spring: bool = False
    lead: float = 0.025
    front: float = 0.3

    @property
    def speed(self) -> float:
        """At takeoff."""
        return float(np.sqrt(2 * self.gravity * self.height))

    @property
    def air_seconds(self) -> float:
        """Rise and fall."""
        return float(np.sqrt(2 * self.height / self.gravity) + np.sqrt(2 * self.drop / self.gravity))

    @cached_property
    def _push(self) -> tuple[Piece, float] | None:
        if self.spring:
            return spring_push(0.0, self.distance, self.speed, self.gravity), 0.0
        if not self.human:
            return power_push(0.0, self.distance, self.speed, self.k), 0.0
        try:
            return human_push(
                0.0, self.distance, self.speed, gravity=self.gravity, lead=self.lead, front=self.front
            )
        except ValueError:
            return None

    @cached_property
    def _absorb(self) -> tuple[Piece, float] | None:
        fast = float(np.sqrt(2 * self.gravity * self.drop))
        if self.spring:
            return spring_push(0.0, self.absorb, fast, self.gravity), 0.0
        if not self.human:
            return power_push(0.0, self.absorb, fast, 1.0), 0.0
        try:
            return human_push(
                0.0, self.absorb, fast, gravity=self.gravity, lead=self.lead / 2, front=self.front / 2
            )
        except ValueError:
            return None

    @property
    def push_seconds(self) -> float:
        """How long the push lasts."""
        return self._push[0].seconds

    @property
    def possible(self) -> bool:
        """Whether such a push exists and, if it is a human one, has the k of recorded ones."""
        if self._push is None or self._absorb is None:
            return False
        k = self.push_seconds * self.speed / (2 * self.distance)
        return not self.human or HUMAN_K[0] <= k <= HUMAN_K[1]


Events = tuple[float, float, float, float, float]


def path_of(
    leaps: list[Leap], pauses: list[float], lead_in: float, lead_out: float
) -> tuple[Path, list[Events]]:
    """Stand, leap, settle, stand, … and the seconds of crouch, takeoff, apex, landing, absorbed of each.

    A pause of 0 lets an absorb flow into the next push from the same bottom.
    """
    pieces: list[Piece] = []
    events: list[Events] = []
    stand, flowing = 0.0, False
    pieces.append(hold("stand", stand, lead_in))
    for index, leap in enumerate(leaps):
        bottom = stand + leap.lift - leap.distance
        push, pull = leap._push
        if not flowing:
            pieces.extend(_down(leap, stand, bottom, pull))
        crouch = sum(piece.seconds for piece in pieces)
        pieces.append(_raised(push, bottom, "push"))
        takeoff = bottom + leap.distance
        pieces.append(flight(takeoff, leap.speed, leap.gravity, leap.air_seconds))
        landing = takeoff + leap.height - leap.drop
        absorb, back = leap._absorb
        low = landing - leap.absorb
        pieces.append(_raised(backward("absorb", absorb), low, "absorb"))
        off = crouch + push.seconds
        apex = off + leap.speed / leap.gravity
        down = off + leap.air_seconds
        events.append((crouch, off, apex, down, down + absorb.seconds))
        flowing = index < len(pauses) and pauses[index] == 0.0
        if flowing:
            stand = low + leaps[index + 1].distance - leaps[index + 1].lift
            continue
        stand = landing - min(leap.lift, 0.8 * leap.absorb)
        span = leap.rise * np.sqrt(max(stand - low, 0.02) / leap.gravity)
        shape = "jerk" if leap.human else leap.dip_shape
        pieces.append(ease("settle", low, stand, span, shape=shape, pull=(back, 0.0)))
        pieces.append(hold("stand", stand, pauses[index] if index < len(pauses) else lead_out))
    return Path(tuple(pieces)), events


def _down(leap: Leap, stand: float, bottom: float, pull: float) -> list[Piece]:
    span = leap.dip * np.sqrt((stand - bottom) / leap.gravity)
    if leap.human:
        return [ease("dip", stand, bottom, span, shape="jerk", pull=(0.0, pull))]
    down = [ease("dip", stand, bottom, span, shape=leap.dip_shape)]
    return [*down, hold("hold", bottom, leap.hold)] if leap.hold else down


def _raised(piece: Piece, by: float, name: str) -> Piece:
    return Piece(name, piece.seconds, lambda x: by + piece.height(x), piece.speed)
