"""push-beyond: the push is too shallow, or the jump too high, for this kind of jumper.

The mean force over the push, its vertical part, is R + 1 of the body's weights in that world, for any push (work
and energy). Legs limit the force: `reach` in `analysis/world.py` turns the largest ratio of a kind on Earth into
that of other gravities and sizes. What a body brings along is not its push: a rebound is no finding, and the rise
that a run-up's speed can give, v² / 2 g, is taken off.
"""

from ..finding import Finding
from ..jump import Jump
from ..limits import Limits
from .basis.tolerance import TOLD_ERRORS

BEYOND_IN_AIR = "{kind} of its size does not lift itself under {gravity:.2f} m/s²"
REACHES = "{kind} of its size reaches {most:.3g} under {gravity:.2f} m/s²"


def find(jump: Jump, limits: Limits) -> Finding | None:
    """Tell when the push ratio, less two standard errors, is above what the kind of jumper reaches."""
    push, most = jump.push, jump.reach
    if push is None or push.rebounds:
        return None
    run_up = push.approach**2 / (2.0 * jump.gravity) / push.distance.value
    if push.ratio.value - run_up - TOLD_ERRORS * push.ratio.error <= most:
        return None
    able = most > 0.0
    return Finding(
        code="push-beyond",
        severity="note",
        frames=(jump.takeoff.frame - push.frames.value, jump.apex.frame),
        template="The push lifts with {weights:.1f} times the body's weight there on average: it rises {height:.2f} m "
        "from a push of {distance:.2f} m, ratio {ratio:.1f}; a " + (REACHES if able else BEYOND_IN_AIR),
        mend_template="Crouch {deep:.2f} m deep, or rise {low:.2f} m; a small creature may, a giant may not"
        if able
        else "Nothing, if the world is meant to be as heavy as that for it; a smaller body may",
        values={
            "weights": push.body_weights,
            "height": jump.flight.height.value,
            "distance": push.distance.value,
            "ratio": push.ratio.value,
            "kind": jump.kind,
            "most": most,
            "gravity": jump.gravity,
            "deep": jump.flight.height.value / most if able else None,
            "low": push.distance.value * most,
        },
        measured=push.ratio.value,
        expected=max(most, 0.0),
    )
