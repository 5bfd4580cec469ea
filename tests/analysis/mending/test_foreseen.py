"""A retimed jump's figures, foreseen, against those of the same jump built with the other times and measured anew."""

import numpy as np
import pytest
from leapwright.analysis import Jump
from leapwright.analysis.figures import value_of
from leapwright.analysis.measures.arc import FreeSides
from leapwright.analysis.mending.foreseen import retimed

from tests.analysis.closed_form import G, Leap, measured

FIGURES = (
    "push_frames", "push_frames_expected", "push_excess", "push_pace", "agreement", "push_shape",
    "rise_frames", "fall_frames", "airtime_frames", "fitted_gravity", "air_pace", "absorb_frames",
    "absorb_frames_expected", "absorb_excess", "push_distance", "push_ratio", "jump_height", "drop_height",
)  # fmt: skip


def lengths(jump: Jump) -> dict[str, float]:
    """Return the frames between a jump's events."""
    events = (jump.crouch, jump.takeoff, jump.apex, jump.landing, jump.absorbed)
    frames = [event.frame for event in events]
    return dict(zip(("push", "rise", "fall", "absorb"), np.diff(frames).tolist(), strict=True))


def events(jump: Jump) -> dict[str, float]:
    """Return the frames of a jump's events by name."""
    return {name: getattr(jump, name).frame for name in ("crouch", "takeoff", "apex", "landing", "absorbed")}


@pytest.mark.parametrize(
    "changed",
    [
        # A quarter of the gravity, the heights kept: twice the frames in the air; push and absorb as long as they were.
        Leap(height=0.5, lower=0.3, push=0.4, fps=60.0, gravity=G / 4.0, push_stretch=0.5, absorb_stretch=0.5),
        # The air as it was, half as long again for the push, four fifths for the absorb.
        Leap(height=0.5, lower=0.3, push=0.4, fps=60.0, push_stretch=1.5, absorb_stretch=0.8),
        # All three: 0.8 of the air's frames, 1.2 · 0.8 of the push's, 1.5 · 0.8 of the absorb's.
        Leap(height=0.5, lower=0.3, push=0.4, fps=60.0, gravity=G / 0.64, push_stretch=1.2, absorb_stretch=1.5),
    ],
)
def test_what_is_foreseen_is_what_the_retimed_jump_measures(changed: Leap) -> None:
    before, after = measured(Leap(height=0.5, lower=0.3, push=0.4, fps=60.0)), measured(changed)
    then = retimed(before, events(before), lengths(after))
    seen = {name: value_of(after, name) for name in FIGURES}
    assert None not in seen.values()
    assert {name: value_of(then, name) for name in FIGURES} == pytest.approx(seen, rel=5e-3, abs=2e-2)
    assert then.landing.frame - then.takeoff.frame == pytest.approx(after.landing.frame - after.takeoff.frame)
    assert then.flight.takeoff_speed == pytest.approx(after.flight.takeoff_speed, rel=1e-3)
    assert then.flight.landing_speed == pytest.approx(after.flight.landing_speed, rel=1e-3)
    # Where two speeds differ, the audit says the nearer end of a band between a force that fades and one that holds.
    assert then.push.end.speed.value == pytest.approx(after.push.end.speed.value, rel=0.07)
    assert then.push.end.peak == pytest.approx(after.push.end.peak, rel=0.05)
    assert then.push.end.gap.value == pytest.approx(then.push.end.speed.value - then.flight.takeoff_speed)


def test_the_free_sides_of_a_flight_off_its_arc_go_with_its_airtime() -> None:
    before = measured(Leap(height=0.8, rise=6.0, fall=14.0))
    assert before.flight.free is not None
    now = lengths(before)
    then = retimed(before, events(before), now | {"rise": 2.0 * now["rise"], "fall": 2.0 * now["fall"]})
    free = before.flight.free
    assert then.flight.free == FreeSides(2.0 * free.rise, 2.0 * free.fall)
