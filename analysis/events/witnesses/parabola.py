"""The parabola: in a flight the point is fastest where it leaves the ground and where it meets it again.

So the parabola around the top reaches from the fastest rise to the fastest fall. A bob or an eased pose only looks
like one near its top: where it ends, the point still has most of its speed to gain. And a bob is explained as well
by smooth motion that never leaves the ground.
"""

import math
from functools import lru_cache

from ...cases.case import Case
from ...contacts.arcs import FEWEST_ARC_SAMPLES
from ...contacts.ballistic import parabola_over
from ...contacts.flights import WORTH, FlightStretch
from ...contacts.side import NOISY
from ..testimony import TRUST, ContactReading, Testimony
from ..weights import nats

DECISIVE = 25.0
"""Nats by which contacts must beat a bob to settle the matter, for a drawn curve; half of it under noise (ours)."""
LOOSELY = 0.6
"""Weight of a parabola, and of its contacts, where the samples follow it loosely only (ours)."""
EXACT_RESIDUAL = 1e-4
"""Residual, as a share of the height, under which the curve is a parabola and was drawn as one."""
EXACT_TRUST = 0.9995
"""Trust in the contacts of an exact parabola: no foot that says otherwise is believed against it (ours)."""


def hear(case: Case) -> Testimony | None:
    """Say how truly the top is a flight's, and where its parabola meets the ground."""
    flight = case.flight
    there = seen(case)
    if flight is None or flight.takeoff is None or flight.landing is None:
        return Testimony(nats(there), seen=there)
    trust = EXACT_TRUST if "exact" in there else TRUST * strength(case, flight)
    trust = max(trust * (LOOSELY if flight.loose or flight.poses.by_hand else 1.0), 1.0 - TRUST)
    takeoff, landing = (
        (ContactReading(sign * end.frame, end.error, trust),)
        for end, sign in ((flight.takeoff, 1.0), (flight.landing, -1.0))
    )
    return Testimony(nats(there), takeoff, landing, there)


def seen(case: Case) -> dict[str, float]:
    """Tell what there is to see, by the names of its tables."""
    flight = case.flight
    if flight is None or flight.reach < WORTH:
        return {"no parabola in poses" if case.poses.held else "no parabola": 1.0}
    found = {"parabola's pace": math.log2(flight.pace(case.gravity, case.fps))}
    if flight.takeoff is None or flight.landing is None:
        found["contacts lost"] = 1.0
    if not flight.poses.by_hand:  # few keys, off as by a hand, follow any top
        found["measured parabola" if case.poses.noise > NOISY else "drawn parabola"] = strength(case, flight)
        if (bob := case.against_a_bob) is not None and bob < 0.0:
            found["bob is better"] = -bob
    if is_exact(case):
        found["exact"] = 1.0
    return found


def is_exact(case: Case) -> bool:
    """Tell whether the flight was drawn as its parabola, up to contacts at both ends."""
    flight = case.flight
    return flight is not None and flight.reach >= WORTH and case.poses.noise <= NOISY and _is_exact(flight)


def strength(case: Case, flight: FlightStretch) -> float:
    """Tell how well the parabola does where it does worst, 0 to 1: in reach, and against a bob.

    Keys that are off as by a hand are too few, and too far off, to tell it from a bob.
    """
    shares = [(flight.reach - WORTH) / (1.0 - WORTH)]
    if not flight.poses.by_hand:
        decisive = DECISIVE / 2 if case.poses.noise > NOISY else DECISIVE
        shares.append((case.against_a_bob or 0.0) / decisive)
    return max(0.0, min(1.0, *shares)) * (LOOSELY if flight.loose else 1.0)


@lru_cache(maxsize=1)
def _is_exact(flight: FlightStretch) -> bool:
    """Tell whether the samples strictly between the contacts lie on one parabola; the stand asks the same again."""
    if flight.takeoff is None or flight.landing is None:
        return False
    f, z = flight.poses.frames, flight.poses.heights
    a, b = int(f.searchsorted(flight.takeoff.frame, side="right")), int(f.searchsorted(-flight.landing.frame))
    if b - a < FEWEST_ARC_SAMPLES:
        return False
    _, off, _ = parabola_over(f[a:b], z[a:b])
    return math.sqrt(off / (b - a)) <= EXACT_RESIDUAL * float(z[a:b].max() - z[a:b].min())
