"""contact-sinks: a foot goes into the ground.

Measured against the ground where that is given, else against where the same foot stands; the band is a share
of the body's size (ours).
"""

from ..finding import Finding
from ..footing import stance
from ..jump import Jump
from ..limits import Limits
from ..tolerance import beyond


def find(jump: Jump, limits: Limits) -> Finding | None:
    """Tell when a foot lies deeper under where it stands than its band allows."""
    if jump.feet_sink is None:
        return None
    if not beyond(jump.feet_sink, band=limits.sink_band * stance(jump), error=jump.feet_noise):
        return None
    first, last = jump.feet_sink_frames
    return Finding(
        code="contact-sinks",
        severity="check",
        frames=(first, last),
        template="A foot sinks {sink:.3f} m into the ground",
        mend_template="Raise it by {sink:.3f} m from frame {first} to {last}",
        values={"sink": jump.feet_sink, "first": round(first), "last": round(last)},
        measured=jump.feet_sink,
        expected=0.0,
    )
