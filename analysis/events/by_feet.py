"""Flights that the feet tell where the path alone does not: off the ground for as long as a jump takes.

A root that sways, or limbs that swing about a body keyed as a whole, leave no parabola to find. The feet say when
the body is in the air; that it rises and falls there as a jump does is still asked of the path.
"""

from dataclasses import replace

import numpy as np

from ..feet import Feet, Gap
from ..limits import Limits
from ..phases import Arc, Event, Phases
from ..track import Track
from .arcs import apex_of, arc_between
from .bottoms import Bottom, bottom
from .curve import FALL, overlap
from .knots import Knot
from .poses import Poses

BENT = 0.15
"""Share of its rise that the path may miss its arc by, root mean square (ours: legs tucked up take a tenth)."""
NOTE = "the path alone shows no flight: takeoff and landing are where the feet leave the ground and touch it"


def jumps_by_feet(
    track: Track, feet: Feet | None, poses: Poses, others: list[Phases], gravity: float, limits: Limits
) -> list[Phases]:
    """Find the jumps between the feet's contacts that share no time with others; none without feet."""
    if feet is None or poses.held:
        return []
    made = [_made(track, poses, gap, gravity, limits) for gap in feet.gaps]
    return [one for one in made if one is not None and not any(overlap(one, other) for other in others)]


def _made(track: Track, poses: Poses, gap: Gap, gravity: float, limits: Limits) -> Phases | None:
    if gap.takeoff is None or gap.landing is None:
        return None
    arc = arc_between(track, gap.takeoff, gap.landing)
    if arc is None or not limits.slowest_pace <= (arc.gravity / gravity) ** 0.5 <= limits.fastest_pace:
        return None
    takeoff, landing = (
        Event(frame, error, float(np.interp(frame, track.frames, track.heights)))
        for frame, error in ((gap.takeoff, gap.takeoff_error), (gap.landing, gap.landing_error))
    )
    rise, fall = arc.apex_height - takeoff.height, arc.apex_height - landing.height
    if rise < limits.smallest_hop or fall < FALL * rise or arc.residual_rms > BENT * rise:
        return None
    f, z = track.frames, track.heights
    before = _bottom(f, z, takeoff, arc, poses.noise, track.fps)
    after = _bottom(-f[::-1], z[::-1], replace(landing, frame=-landing.frame), arc, poses.noise, track.fps)
    return Phases(
        crouch=None if before is None or before.cut else before.event,
        takeoff=takeoff,
        apex=apex_of(arc, track.fps),
        landing=landing,
        absorbed=None if after is None or after.cut else after.backwards.event,
        arc=arc,
        method="curve",
        notes=(NOTE,),
    )


def _bottom(f: np.ndarray, z: np.ndarray, contact: Event, arc: Arc, noise: float, fps: float) -> Bottom | None:
    """The bottom before a contact; of a landing, with time reversed."""
    speed = arc.gravity * abs(arc.apex_frame - abs(contact.frame)) / fps**2
    found = bottom(f, z, Knot(contact.frame, contact.frame_error, contact.height, speed, speed), noise=noise, fps=fps)
    return None if found is None else replace(found, error=max(found.error, contact.frame_error))
