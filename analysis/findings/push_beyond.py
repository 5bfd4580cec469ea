"""push-beyond: the push is too shallow, or the jump too high, for this kind of jumper.

The mean force over the push is R + 1 body weights for any push (work and energy); `KINDS` has the largest
push ratio R measured for each kind. With size R falls as 1 / size: giants need small ones, mice large ones.
"""

from ..finding import Finding
from ..jump import Jump
from ..limits import Limits
from ..world import KINDS
from .basis.tolerance import SURE


def find(jump: Jump, limits: Limits) -> Finding | None:
    """Tell when the push ratio, less two standard errors, is above what the kind of jumper reaches."""
    push, most = jump.push, KINDS[jump.kind]
    if push is None or push.ratio.value - SURE * push.ratio.error <= most:
        return None
    return Finding(
        code="push-beyond",
        severity="note",
        frames=(jump.takeoff.frame - push.frames.value, jump.apex.frame),
        template="A push of {weights:.1f} body weights on average: it rises {height:.2f} m from a push of "
        "{distance:.2f} m, ratio {ratio:.1f}, where the kind {kind} reaches {most:g}",
        mend_template="Crouch {deep:.2f} m deep, or rise {low:.2f} m; a small creature may, a giant may not",
        values={
            "weights": push.body_weights,
            "height": jump.flight.height.value,
            "distance": push.distance.value,
            "ratio": push.ratio.value,
            "kind": jump.kind,
            "most": most,
            "deep": jump.flight.height.value / most,
            "low": push.distance.value * most,
        },
        measured=push.ratio.value,
        expected=most,
    )
