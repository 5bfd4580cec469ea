"""Mends of a landing that gives way too little: as deep as the body allows, else another way to land."""

from collections.abc import Iterator

from ..beat import whole_frame
from ..findings.landing_stiff import SOFT_RATIO
from ..jump import Jump
from ..limits import Limits
from ..mend import Mend, MendWay
from ..retiming.timing import STIFF_LANDING
from .heights import deepest
from .times import too_shallow

CAPPED_RATIO_SHARE = 0.8
"""Largest absorb ratio of a capped mend, as a share of the stiffest allowed: the drawing adds some (ours)."""


def landings(jump: Jump, codes: frozenset[str], limits: Limits) -> Iterator[Mend]:
    """Yield the mends of a landing that stops too soon; codes: of the jump's findings.

    How far a body sinks is capped by its own size; where that leaves the landing stiff it rolls, or it is
    accepted.
    """
    if STIFF_LANDING not in codes or not too_shallow(jump, limits):
        return
    drop, wanted = jump.flight.drop.value, jump.flight.drop.value / SOFT_RATIO
    sink = min(wanted, deepest(jump))
    if drop <= CAPPED_RATIO_SHARE * limits.stiff_ratio * sink:
        frames = jump.beat.length(jump.flight.own_fall * sink / drop)
        landing = whole_frame(jump.landing.frame)
        was = landing + whole_frame(jump.absorb.frames.value) if jump.absorb else landing
        yield Mend(
            MendWay.SINK,
            was=(("absorbed", was),),
            frames=(("absorbed", landing + frames),),
            sink=sink,
        )
    if sink < wanted:
        yield Mend(MendWay.ROLL, sink=wanted)
