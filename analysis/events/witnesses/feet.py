"""The feet: a body is in the air while no foot is on the ground, and on it while one is."""

import math

import numpy as np

from ...cases.case import Case
from ...feet import Feet, Gap
from ..testimony import TRUST, ContactReading, Testimony

FEET_OFF_NATS, FEET_DOWN_NATS = 8.0, -8.0
"""Nats for a jump where no foot is down around the top, and where one is down throughout (ours: feet are seen, not
inferred)."""
SAMPLED = 0.1
"""Standard error of what is read between two samples, as a share of their gap: a foot rolls (ours)."""
TIPTOE_FACTOR = 1.25
"""Height of a body on tiptoe over its feet, as a multiple of its standing height, past which the feet are not its own
(ours)."""


def hear(case: Case) -> Testimony | None:
    """Say whether the feet are off the ground at the top, and when they leave and touch it."""
    feet = case.feet
    if feet is None:
        return None
    if not _read_there(case, feet):
        return None
    gap, beat = feet_over(case), case.poses.beat
    if gap is None:
        return Testimony(FEET_DOWN_NATS, seen={"foot down": 1.0}) if _belong(case, feet) else None
    takeoff, landing = (
        () if frame is None or error is None else (ContactReading(frame, math.hypot(error, SAMPLED * beat), TRUST),)
        for frame, error in ((gap.takeoff, gap.takeoff_error), (gap.landing, gap.landing_error))
    )
    return Testimony(FEET_OFF_NATS, takeoff, landing, {"feet off": 1.0})


def feet_over(case: Case) -> Gap | None:
    """Return the stretch around the top with no foot on the ground; None without feet, or with one down."""
    poses, beat = case.poses, case.poses.beat
    top = float(poses.frames[case.turn.top])
    return None if case.feet is None else case.feet.gap_over(top - beat, top + beat, step=poses.step, held=poses.held)


def _read_there(case: Case, feet: Feet) -> bool:
    """Tell whether the feet were read at the top: they may have been for other frames only."""
    top, beat = float(case.poses.frames[case.turn.top]), case.poses.beat
    first, last = max(top - beat, float(feet.frames[0])), min(top + beat, float(feet.frames[-1]))
    return first < last and feet.knows(first, last)


def _belong(case: Case, feet: Feet) -> bool:
    """Tell whether the body at its top can still have a foot where the feet are."""
    low = np.min([point.heights for point in feet.points], axis=0)
    over = np.interp(case.poses.frames, feet.frames, low)
    reach = case.poses.heights - over
    stands = [side.stand for side in (case.rising, case.falling) if side.stand is not None]
    usual = max(stands) - float(np.median(over)) if stands else float(np.median(reach))
    return float(reach[case.turn.top]) <= TIPTOE_FACTOR * usual
