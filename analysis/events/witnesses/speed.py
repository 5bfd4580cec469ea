"""The speed: a point rises fastest about where the body leaves the ground, and falls fastest about where it lands.

However a push and a flight are drawn: under the ground's force the point gains speed, in the air it loses it.
"""

from ...cases.case import Case
from ...cases.flank import Flank
from ..testimony import SAME_CONTACT_ERRORS, TRUST, ContactReading, Testimony, backward
from . import parabola
from .feet import feet_over

FASTEST_PLACE_ERROR = 0.15
"""Standard error of the fastest place as that of a contact, as a share of the time from there to the apex (drawn, keyed
and recorded jumps of tests/truth: 0.05 to 0.2, more where the landing is eased)."""


def hear(case: Case) -> Testimony | None:
    """Say where the point rises and falls fastest; nothing where poses or an exact parabola tell the contacts."""
    if case.posed is not None or parabola.is_exact(case):
        return None
    gap = feet_over(case)
    left, met = (None, None) if gap is None else (gap.takeoff, gap.landing)
    takeoff = _fastest(case.rising, case, left)
    landing = _fastest(case.falling, case, None if met is None else -met)
    return Testimony(0.0, takeoff, backward(landing))


def _fastest(side: Flank, case: Case, foot: float | None) -> tuple[ContactReading, ...]:
    if side.is_cut:
        return ()
    (first, last), fastest = side.samples.fast, side.samples.fastest
    error = max(FASTEST_PLACE_ERROR * (side.samples.frames[-1] - fastest), 0.5 * (last - first))
    if foot is None:
        return (ContactReading(fastest, error, TRUST * (1.0 - side.popped_share)),)
    # A foot may be misread, as a sole that hovers is.
    return (
        (ContactReading(fastest, error, 0.5 * TRUST),)
        if abs(foot - fastest) > SAME_CONTACT_ERRORS * error
        else ()
    )
