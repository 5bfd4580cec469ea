"""Foreseen: a jump as it would measure if its stretches took other times, or its crouch and top other heights."""

from dataclasses import replace

from ..jump import Jump
from ..measures.flight import Flight
from ..measures.landing import Absorb
from ..measures.push import Push, PushEnd
from ..quantity import Quantity, in_frames, in_speed
from ..retiming.timing import Frames, lengths_of


def retimed(jump: Jump, old: Frames, lengths: Frames) -> Jump:
    """Return the jump with push, flight and absorb scaled in time, its findings left out.

    old: frames of its events; lengths: frames of the stretches between them. The law scales with them: gravity
    with the inverse square of the airtime, what a push and an absorb are asked for with the airtime. Figures that
    change are taken as exact, so that none hides in its error.
    """
    now = lengths_of(old)
    air = (lengths.get("rise", 0.0) + lengths["fall"]) / (now.get("rise", 0.0) + now["fall"])
    flight = _flight(jump.flight, air)
    push = jump.push and _push(jump.push, flight, air=air, own=lengths["push"] / now["push"] if "push" in now else 1.0)
    absorb = jump.absorb and _absorb(
        jump.absorb, air=air, own=lengths["absorb"] / now["absorb"] if "absorb" in now else 1.0
    )
    landing = replace(jump.landing, frame=jump.takeoff.frame + flight.airtime.value)
    return replace(jump, flight=flight, push=push, absorb=absorb, landing=landing, findings=())


def _flight(flight: Flight, air: float) -> Flight:
    return replace(
        flight,
        rise=_times(flight.rise, air),
        fall=_times(flight.fall, air),
        airtime=_times(flight.airtime, air),
        gravity=flight.gravity and _times(flight.gravity, air**-2),
        pace=flight.pace and _times(flight.pace, 1.0 / air),
        takeoff_speed=flight.takeoff_speed / air,
        landing_speed=flight.landing_speed / air,
        free=flight.free and replace(flight.free, rise=flight.free.rise * air, fall=flight.free.fall * air),
    )


def _push(push: Push, flight: Flight, *, air: float, own: float) -> Push:
    frames, expected = _times(push.frames, own), _times(push.expected, air)
    return replace(
        push,
        frames=frames,
        expected=expected,
        excess=in_frames(frames.value - expected.value, 0.0),
        pace=_times(push.pace, 1.0 / own),
        agreement=_times(push.agreement, air / own),
        shape=push.shape and _times(push.shape, own / air),
        end=push.end and _end(push.end, flight, own=own),
    )


def _end(end: PushEnd, flight: Flight, *, own: float) -> PushEnd:
    speed = _times(end.speed, 1.0 / own)
    return replace(end, speed=speed, gap=in_speed(speed.value - flight.takeoff_speed, 0.0), peak=end.peak / own)


def _absorb(absorb: Absorb, *, air: float, own: float) -> Absorb:
    frames, expected = _times(absorb.frames, own), _times(absorb.expected, air)
    return replace(
        absorb,
        frames=frames,
        expected=expected,
        excess=in_frames(frames.value - expected.value, 0.0),
    )


def _times(quantity: Quantity, factor: float) -> Quantity:
    return Quantity(quantity.value * factor, 0.0, quantity.unit)
