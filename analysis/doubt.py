"""Doubt: the frames of a track where its audit is unsure, for the feet or a center of mass to settle.

Frames of the track; nothing here reads a scene.
"""

from .audit import Audit
from .certainty import Certainty
from .jump import Jump
from .limits import Limits
from .phases import Event
from .track import Track

WIDE = 0.5
"""Standard error of a contact, in frames, past which it is unsure: it may lie on another frame (ours)."""
SECONDS_BESIDE_DOUBT = 0.6
"""Seconds that are read before and after a doubtful stretch: long enough for a foot that stands to be seen standing
(ours)."""

Stretch = tuple[float, float]
"""First and last frame, both in."""


def is_unsure(jump: Jump) -> bool:
    """Say whether it is unsure that this is a jump, or where it leaves the ground or touches it."""
    return jump.certainty is not Certainty.SURE or _wide(jump.takeoff) or _wide(jump.landing)


def unsure_frames(audit: Audit, track: Track, limits: Limits) -> tuple[Stretch, ...]:
    """Return the stretches of a track around every jump that is unsure, in order and apart.

    All of it where no jump was found though it rises by the smallest hop.

    >>> from .audit import audit_track
    >>> still = Track("still", 24, range(10), [[0, 0, 1]] * 10)
    >>> unsure_frames(audit_track(still), still, Limits())
    ()
    """
    ends = float(track.frames[0]), float(track.frames[-1])
    if not audit.jumps:
        rises = track.heights.max() - track.heights.min() >= limits.smallest_hop
        return (ends,) if rises else ()
    margin = SECONDS_BESIDE_DOUBT * track.fps
    found: list[Stretch] = []
    for jump in filter(is_unsure, audit.jumps):
        start = (jump.crouch or jump.takeoff).frame - margin
        end = (jump.absorbed or jump.landing).frame + margin
        if found and start <= found[-1][1]:
            start = found.pop()[0]
        found.append((max(start, ends[0]), min(end, ends[1])))
    return tuple(found)


def _wide(event: Event) -> bool:
    return event.frame_error > WIDE and not event.pinned
