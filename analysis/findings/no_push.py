"""no-push: nothing drives the body up before it is in the air; there is no push to judge."""

from ..finding import Finding
from ..jump import Jump
from ..limits import Limits


def find(jump: Jump, limits: Limits) -> Finding | None:
    """Tell when a jump has no crouch."""
    if jump.crouch is not None:
        return None
    return Finding(
        code="no-push",
        severity="note",
        frames=(jump.takeoff.frame, jump.landing.frame),
        template="No push leads into the air at frame {takeoff:g}: it falls off an edge, or the push lies "
        "before the track",
        mend_template="If it should jump, key a crouch and a push before frame {takeoff:g}",
        values={"takeoff": round(jump.takeoff.frame, 1)},
    )
