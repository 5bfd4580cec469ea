"""Aim: what a retiming keeps of a jump, which event stays where it is, and how keys may move."""

from dataclasses import dataclass

from ..errors import RetimeError
from ..jump import Jump
from .warp import LAYS

KEEPS = ("flight", "push", "nothing")
"""What a retiming may leave as it is; the other side is fitted to it."""
KEEP_TIMES = "times"
"""The choice beside them that moves no key: it tells what the drawn times would fit."""
HELD_EVENTS = ("takeoff", "crouch", "landing")
"""Events of which one stays on its frame."""


@dataclass(frozen=True, slots=True)
class Aim:
    """What to keep of a jump, and how its keys may move.

    keep     "flight": fit the push to it; "push": fit the flight to it; "nothing": bring both to a pace
    pace     air pace to bring both to, with "nothing": 1 real time, less floaty, more snappy
    hold     the event that stays on its frame; what moves before it is taken up by the way into the crouch
    ripple   whether what follows moves along; otherwise it stays, and the settling takes up the difference
    whole    whether keys go to whole frames
    lay      which keys of the track between takeoff and landing change their values: "none"; "rounded", those
             that whole frames move out of proportion, back onto the path; "all", onto the fitted parabola

    Raises RetimeError for a word that is not one of these, and for a pace that cannot be.
    """

    keep: str = "flight"
    pace: float = 1.0
    hold: str = "takeoff"
    ripple: bool = False
    whole: bool = True
    lay: str = "rounded"

    def __post_init__(self) -> None:
        for name, value, known in (
            ("keep", self.keep, KEEPS),
            ("hold", self.hold, HELD_EVENTS),
            ("lay", self.lay, LAYS),
        ):
            if value not in known:
                raise RetimeError(f"{name} must be one of {', '.join(known)}, not {value!r}")
        if not 0.1 <= self.pace <= 10.0:
            raise RetimeError(f"the air pace must be from 0.1 to 10, not {self.pace:g}")
        if self.pace != 1.0 and self.keep != "nothing":
            raise RetimeError(f"an air pace changes flight and push: it cannot keep the {self.keep}")

    def pace_of(self, jump: Jump) -> float | None:
        """Return the air pace that a jump is to have afterward; None where its own is not known."""
        if self.keep == "nothing":
            return self.pace
        pace, push = jump.flight.pace, jump.push
        if self.keep == "flight" or pace is None:
            return pace.value if pace else None
        return pace.value * push.expected.value / push.frames.value if push else None
