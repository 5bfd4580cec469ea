"""push-speed: the speed jumps at takeoff; the push ends faster or slower than the flight begins.

Nothing can change a speed at once: the push's end and the flight's start share one.
"""

from ..finding import Finding
from ..jump import Jump
from ..limits import Limits
from .basis.body import push_doubted
from .basis.tolerance import beyond


def find(jump: Jump, limits: Limits) -> Finding | None:
    """Tell when the two speeds differ by more than their tolerance."""
    end, start = jump.push.end if jump.push else None, jump.flight.takeoff_speed
    if end is None or start <= 0.0:
        return None
    if not beyond(end.gap.value, band=limits.speed_jump * start, error=end.gap.error):
        return None
    if end.gap.value < 0.0:
        mend = "Let the spacing grow evenly into frame {takeoff}: speed up the end of the push"
    else:
        mend = "Let the spacing run on through frame {takeoff}: slow the push's end, or open up the flight"
    finding = Finding(
        code="push-speed",
        severity="check",
        frames=(jump.takeoff.frame - 1.0, jump.takeoff.frame + 1.0),
        template="The speed jumps at takeoff: the push ends at {push:.1f} m/s, the flight begins at {flight:.1f} m/s",
        mend_template=mend,
        values={"push": end.speed.value, "flight": start, "takeoff": round(jump.takeoff.frame)},
        measured=end.speed.value,
        expected=start,
    )
    return push_doubted(finding, jump, limits)
