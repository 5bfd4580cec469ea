"""no-push: nothing is seen to drive the body up before it is in the air; there is no push to judge."""

from ..finding import Finding
from ..jump import Jump
from ..limits import Limits
from ..phases import Unpushed

FALLS = "No push leads into the air at frame {takeoff:g}: it falls off an edge, or the push lies before the track"
STANDS = (
    "The body leaves the ground at frame {takeoff:g} from where it stands: no crouch, and no push, leads into the air"
)
LIES = "The point lies on the ground until frame {takeoff:g}: its body's crouch, push and absorb do not show"
SAID = {
    Unpushed.FALL: ("note", FALLS, "If it should jump, key a crouch and a push before frame {takeoff:g}"),
    Unpushed.STAND: ("check", STANDS, "Key a crouch before frame {takeoff:g}, and push from there"),
    Unpushed.ON_GROUND: ("note", LIES, "Follow the hips or the center of mass to judge the push and the landing"),
}
"""Severity, sentence and mend."""


def find(jump: Jump, limits: Limits) -> Finding | None:
    """Tell when a jump has no crouch: gravely where the body rises all the same."""
    if jump.crouch is not None:
        return None
    severity, template, mend = SAID[jump.unpushed]
    return Finding(
        code="no-push",
        severity=severity,
        frames=(jump.takeoff.frame, jump.landing.frame),
        template=template,
        mend_template=mend,
        values={"takeoff": round(jump.takeoff.frame, 1)},
    )
