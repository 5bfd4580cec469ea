"""no-push: nothing drives the body up before it is in the air; there is no push to judge."""

from ..finding import Finding
from ..jump import Jump
from ..limits import Limits

LEAVES_UNPUSHED = (
    "The body leaves the ground at frame {takeoff:g} from where it stands: no crouch, and no push, leads into the air"
)
FALLS = "No push leads into the air at frame {takeoff:g}: it falls off an edge, or the push lies before the track"


def find(jump: Jump, limits: Limits) -> Finding | None:
    """Tell when a jump has no crouch: gravely where the body rises all the same."""
    if jump.crouch is not None:
        return None
    return Finding(
        code="no-push",
        severity="check" if jump.popped else "note",
        frames=(jump.takeoff.frame, jump.landing.frame),
        template=LEAVES_UNPUSHED if jump.popped else FALLS,
        mend_template="Key a crouch before frame {takeoff:g}, and push from there"
        if jump.popped
        else "If it should jump, key a crouch and a push before frame {takeoff:g}",
        values={"takeoff": round(jump.takeoff.frame, 1)},
    )
