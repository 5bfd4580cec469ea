"""contact-sinks: a foot goes into the ground.

Measured against the ground where that is given, else against where the same foot stands; the band is a share
of the body's size (ours).
"""

from ..finding import Finding
from ..jump import Jump
from ..limits import Limits
from .basis.body import stance
from .basis.tolerance import beyond


def find(jump: Jump, limits: Limits) -> Finding | None:
    """Tell when a foot lies deeper under where it stands than its band allows."""
    feet = jump.feet
    if feet is None or feet.sink.frames is None:
        return None
    sink, (first, last) = feet.sink.distance, feet.sink.frames
    if not beyond(sink, band=limits.sink_band * stance(jump), error=feet.noise):
        return None
    return Finding(
        code="contact-sinks",
        severity="check",
        frames=(first, last),
        template="A foot sinks {sink:.3f} m into the ground",
        mend_template="Raise it by {sink:.3f} m from frame {first} to {last}",
        values={"sink": sink, "first": round(first), "last": round(last)},
        measured=sink,
        expected=0.0,
    )
