"""travel-stop: the body stops, or turns back, over the ground while it is in the air.

Nothing can hold it there: the horizontal speed of a free flight is constant.
"""

from ..finding import Finding
from ..jump import Jump
from ..limits import Limits
from .basis.body import doubted
from .basis.tolerance import course_of


def find(jump: Jump, limits: Limits) -> Finding | None:
    """Tell when the slowest stretch of the flight runs at less than its share of the mean speed."""
    course = course_of(jump, limits)
    if course is None or course.slowest >= limits.stop_share:
        return None
    first, last = course.slowest_frames
    finding = Finding(
        code="travel-stop",
        severity="check",
        frames=(first, last),
        template="The travel stops in the air between frames {first:g} and {last:g}",
        mend_template="Keep it moving: {spacing:.3f} m a frame from frame {takeoff} to {landing}",
        values={
            "first": first,
            "last": last,
            "spacing": jump.travel.speed.value / jump.fps,
            "takeoff": round(jump.takeoff.frame),
            "landing": round(jump.landing.frame),
        },
        measured=course.slowest,
        expected=1.0,
    )
    return doubted(finding, jump, off=course.strays)
