"""travel-drift: the horizontal speed changes in the air.

Nothing pushes there, so it is constant; viewers see errors of it first (Reitsma & Pollard 2003). The
hips of a body swing about its center of mass: those of one recorded jump change by 28 to 51 %, its center of mass by
less than 4 (n = 1), so the band is wider for a root.
"""

from ..finding import Finding
from ..jump import Jump
from ..limits import Limits
from . import travel_stop
from .basis.body import doubted
from .basis.tolerance import beyond, course_of, travel_band


def find(jump: Jump, limits: Limits) -> Finding | None:
    """Tell when the speed's spread leaves its tolerance; a stop is told by its own finding."""
    course = course_of(jump, limits)
    if course is None or travel_stop.find(jump, limits):
        return None
    # A spread is never under 0: noise alone gives one of about its error.
    noise = course.spread.error
    if not beyond(course.spread.value, band=travel_band(jump, limits) + noise, error=noise):
        return None
    finding = Finding(
        code="travel-drift",
        severity="check",
        frames=(jump.takeoff.frame, jump.landing.frame),
        template="The travel changes speed in the air by {spread:.0%}: {start:.2f} m/s after takeoff, "
        "{end:.2f} m/s before landing",
        mend_template="Space it evenly: {spacing:.3f} m a frame from frame {takeoff} to {landing}",
        values={
            "spread": course.spread.value,
            "start": course.start_speed,
            "end": course.end_speed,
            "spacing": jump.travel.speed.value / jump.fps,
            "takeoff": round(jump.takeoff.frame),
            "landing": round(jump.landing.frame),
        },
        measured=course.spread.value,
        expected=0.0,
    )
    return doubted(finding, jump, off=course.strays)
