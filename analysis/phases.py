"""Phases: the five events of one jump and the arc between them, as the events package finds them."""

from dataclasses import dataclass
from enum import StrEnum

import numpy as np
from numpy.typing import ArrayLike

from .arrays import Array
from .notes import Note


class Unpushed(StrEnum):
    """Why no push is seen before a flight."""

    FALL = "fall"
    """It falls off an edge, or the push lies before the track."""
    STAND = "stand"
    """The body leaves the ground from where it stands, without a crouch."""
    ON_GROUND = "on the ground"
    """The point itself lies on the ground, as a root between the feet does: how its body crouches, pushes and absorbs
    does not show in it."""


@dataclass(frozen=True, slots=True)
class Event:
    """One event of a jump.

    frame         where it lies, sub-frame where the curve allows
    frame_error   one standard error of it, in frames
    height        meters, z of the track there
    pinned        set by hand
    along         frames that it lies later for each frame that the contact beside it does: of a crouch and of an
                  absorb, whose fit has the contact in it (their covariance over the contact's variance)
    """

    frame: float
    frame_error: float
    height: float
    pinned: bool = False
    along: float = 0.0


@dataclass(frozen=True, slots=True)
class Arc:
    """The parabola of a flight, least squares over the samples strictly between takeoff and landing.

    apex_frame, apex_height   its vertex (frames, meters)
    gravity, gravity_error    m/s², positive down; one standard error
    first, last               frames of the first and last sample used
    count                     samples used
    residual_rms              meters
    """

    apex_frame: float
    apex_height: float
    gravity: float
    gravity_error: float
    first: float
    last: float
    count: int
    residual_rms: float

    def heights(self, frames: ArrayLike, fps: float) -> Array:
        """Return heights of the parabola, meters, at these frames."""
        seconds = (np.asarray(frames, dtype=np.float64) - self.apex_frame) / fps
        return self.apex_height - 0.5 * self.gravity * seconds**2


@dataclass(frozen=True, slots=True)
class Phases:
    """The five events of one jump, and how they were come by.

    crouch     None where no push is seen
    unpushed   why no push is seen, where there is no crouch
    absorbed   None when the track ends before it, or nothing gives way
    arc        None when fewer than five samples lie in the air or the drawn curve holds no arc
    method     "curve": fitted to the samples, sub-frame; "keys": the keyed poses are the events
    step       frames from one pose to the next: 1, or 2, 3 … for a shot on twos, threes
    held       the poses are stepped (each is held until the next)
    notes      what the track could not tell, and what would settle it
    certainty  probability that it is a jump, 0 to 1; 1 where it was made by hand
    """

    crouch: Event | None
    takeoff: Event
    apex: Event
    landing: Event
    absorbed: Event | None
    arc: Arc | None
    method: str
    step: int = 1
    held: bool = False
    notes: tuple[Note, ...] = ()
    certainty: float = 1.0
    unpushed: Unpushed = Unpushed.FALL


@dataclass(frozen=True, slots=True)
class Found:
    """All jumps of a track in order of time, and what there is to say of the track as a whole."""

    phases: tuple[Phases, ...] = ()
    notes: tuple[Note, ...] = ()
