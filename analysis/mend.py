"""Mend: one way to make a jump right as a whole, in whole frames, and the retiming that does it."""

from dataclasses import dataclass
from enum import Enum


class MendWay(Enum):
    """The ways to mend a jump; each is right by itself, and an artist chooses one.

    REAL_TIME    both push and flight go to real time
    FLIGHT       the flight stays, the push is fitted to it
    PUSH         the push stays, the flight is fitted to it
    CROUCH       no key moves: the crouch is drawn as deep as the push frames ask for
    HEIGHT       no key moves: it rises as high, from as deep, as its frames ask for
    EASE         the crouch is held longer and left with less ease
    ABSORB       the lowest pose after the landing moves
    SINK         the body sinks deeper after the landing
    ROLL         no body sinks so deep: roll, or accept the landing
    """

    REAL_TIME = "real-time"
    FLIGHT = "keep-flight"
    PUSH = "keep-push"
    CROUCH = "crouch-depth"
    HEIGHT = "height"
    EASE = "ease-less"
    ABSORB = "absorb"
    SINK = "sink-deeper"
    ROLL = "roll"


KEPT_BY_WAY = {MendWay.REAL_TIME: "nothing", MendWay.FLIGHT: "flight", MendWay.PUSH: "push", MendWay.ABSORB: "flight"}
"""What the retiming that does it keeps; a way that is not here is drawn by hand."""


@dataclass(frozen=True, slots=True)
class Mend:
    """One way to mend a jump. Frames and meters; None: it has none, or says nothing of it.

    was, frames     (event, frame) of every event now, and as it is to be; in order of time
    left            frames that the push will be over (above 0) or short of what the flight asks for
    pace            air pace that the flight will have: 1 is real time
    height          meters to rise from takeoff to apex
    depth           meters from the crouch up to the takeoff
    sink            meters to sink after the landing
    """

    way: MendWay
    was: tuple[tuple[str, float], ...] = ()
    frames: tuple[tuple[str, float], ...] = ()
    left: float | None = None
    pace: float | None = None
    height: float | None = None
    depth: float | None = None
    sink: float | None = None

    @property
    def keep(self) -> str | None:
        """What `retime` keeps to do it; None for what is drawn by hand."""
        return KEPT_BY_WAY.get(self.way)

    @property
    def moves(self) -> tuple[tuple[str, float, float], ...]:
        """(event, frame now, frame then) of the events that move."""
        pairs = zip(self.was, self.frames, strict=True)
        return tuple((event, old, new) for (event, old), (_, new) in pairs if old != new)
