"""Mends that move no key in time: a crouch as deep, a jump as high, as the drawn frames ask for; less ease."""

import math
from collections.abc import Iterator

from ..beat import whole_frame
from ..findings.basis.body import sinks
from ..jump import Jump
from ..law import rise_in
from ..limits import Limits
from ..measures.push import Push
from ..mend import Mend, MendWay
from ..retiming.timing import STIFF_LANDING
from .times import AIR_MENDED

MOST_MENDED_HEIGHT = 3.0
"""Largest height that a mend asks for, as a multiple of the jump's own: past it the timing is what is off (ours)."""
DEPTH = frozenset({"push-long", "push-short"})
EASES = "push-eases"


def heights(jump: Jump, codes: frozenset[str], limits: Limits) -> Iterator[Mend]:
    """Yield the mends of a jump that are drawn, not timed; codes: of its findings."""
    if EASES in codes and jump.push is not None:
        yield _ease(jump, jump.push)
    elif codes & DEPTH and jump.push is not None:
        # Push frames E = rise d / h: the frames F that are drawn fit a depth of d F / E.
        depth = jump.push.distance.value * jump.push.frames.value / jump.push.expected.value
        if depth <= deepest(jump) and jump.flight.height.value <= jump.reach * depth:
            yield Mend(MendWay.CROUCH, depth=depth)
    if codes & AIR_MENDED and (mend := _higher(jump, limits, stiff=STIFF_LANDING in codes)) is not None:
        yield mend


def deepest(jump: Jump) -> float:
    """Return meters that the body can crouch, or sink after a landing, at most; infinite where nothing tells its
    size.
    """
    return sinks(jump) or math.inf


def _ease(jump: Jump, push: Push) -> Mend:
    """Hold the crouch until what a steady push asks for is left."""
    takeoff = jump.takeoff.frame
    start = whole_frame(takeoff) - jump.beat.length(push.expected.value)
    return Mend(
        MendWay.EASE,
        was=(("crouch", whole_frame(takeoff - push.frames.value)),),
        frames=(("crouch", start),),
        left=whole_frame(takeoff) - start - push.expected.value,
    )


def _higher(jump: Jump, limits: Limits, *, stiff: bool) -> Mend | None:
    """Return the height that the airtime is real for, the landing kept where it is; crouch and absorb fitted to it.

    stiff: it lands stiffly as it is; else none that would.
    """
    flight, seconds = jump.flight, jump.flight.airtime.value / jump.fps
    lands, depth, sink = flight.height.value - flight.drop.value, None, None
    height = rise_in(seconds, landing=lands, gravity=jump.gravity)
    if height is None:
        return None
    rise = math.sqrt(2.0 * height / jump.gravity)
    if jump.push is not None:
        depth = jump.push.frames.value * height / (rise * jump.fps)
    if jump.absorb is not None:
        sink = jump.absorb.frames.value * (height - lands) / ((seconds - rise) * jump.fps)
    tall = limits.smallest_hop <= height <= MOST_MENDED_HEIGHT * flight.height.value
    if not tall or max(depth or 0.0, sink or 0.0) > deepest(jump) or (depth and height > jump.reach * depth):
        return None
    if sink is not None and not stiff and height - lands > limits.stiff_ratio * sink:
        return None
    takeoff = jump.takeoff.frame
    return Mend(
        MendWay.HEIGHT,
        was=(("apex", whole_frame(jump.apex.frame)),),
        frames=(("apex", whole_frame(takeoff + rise * jump.fps)),),
        pace=1.0,
        height=height,
        depth=depth,
        sink=sink,
    )
