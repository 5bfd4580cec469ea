"""Drawn motions are what they claim, as the host draws them: poses are met, contacts lie above the stand, seeds repeat.
"""

import numpy as np
import pytest
from leapwright.analysis import audit_track

from .drawn import FAMILIES, MAKERS, TOLD, make
from .drawn.host import drawn

KEYED = ("poses", "floaty", "snappy", "cartoon", "apex skewed", "joined by lines", "breakdowns", "pace a third")
"""Families in which each contact has its key."""


def test_the_host_draws_its_own_curve_through_the_keys() -> None:
    keys = np.array([1.0, 9.0, 13.0, 20.0])
    poses = np.array([[0.0, 0.0, 1.0], [0.0, 0.0, 0.6], [0.0, 0.0, 1.5], [0.0, 0.0, 1.0]])
    heights = drawn(keys, poses, np.arange(1.0, 21.0))[:, 2]
    assert heights[[0, 8, 12, 19]] == pytest.approx(poses[:, 2], abs=1e-6)
    # Clamped handles are level at an extreme: neither side passes it.
    assert heights.max() == pytest.approx(1.5, abs=1e-6) and heights.min() == pytest.approx(0.6, abs=1e-6)
    straight = drawn(keys, poses, np.arange(1.0, 21.0), joined="linear")[:, 2]
    assert straight == pytest.approx(np.interp(np.arange(1.0, 21.0), keys, poses[:, 2]), abs=1e-6)


@pytest.mark.parametrize("family", FAMILIES)
def test_the_events_rise_and_the_top_is_the_top(family: str) -> None:
    for seed in range(4):
        motion = make(family, seed)
        heights, frames = motion.track.heights, motion.track.frames
        assert motion.truth
        for true in motion.truth:
            assert true.takeoff < true.apex < true.landing and true.jump_height > 0 and true.drop > 0
            if family in ("popped", "root at the feet"):
                assert true.crouch is None and true.absorbed is None and true.push_distance is None
                continue
            assert true.crouch < true.takeoff and true.landing < true.absorbed and true.push_distance > 0
            air = (frames >= true.takeoff) & (frames <= true.landing)
            pushing = (frames >= true.crouch) & (frames <= true.takeoff)
            assert heights[air].max() >= heights[pushing].max()


@pytest.mark.parametrize("family", KEYED)
def test_each_contact_lies_on_its_key(family: str) -> None:
    for seed in range(4):
        motion = make(family, seed)
        for true in motion.truth:
            assert {true.takeoff, true.landing, true.apex} <= set(motion.track.key_frames)


def test_a_motion_is_the_same_each_time() -> None:
    for family in FAMILIES:
        one, other = make(family, 3), make(family, 3)
        assert (one.track.positions == other.track.positions).all() and one.truth == other.truth


def test_what_a_family_should_tell_is_a_family() -> None:
    assert set(TOLD) <= set(MAKERS)


def test_the_crouch_of_worked_over_poses_is_read_on_its_key() -> None:
    # A breakdown by eye may lie lower than the crouch, or the curve run on under it: then no one can tell. Three of
    # four are on their keys.
    off = []
    for seed in range(40):
        motion = make("breakdowns", seed)
        for jump in audit_track(motion.track).jumps:
            true = [one for one in motion.truth if one.takeoff < jump.apex.frame < one.landing]
            if true and jump.crouch is not None:
                off.append(abs(jump.crouch.frame - true[0].crouch))
    assert len(off) >= 50
    # Three of four, less one deviation of a share of so many.
    assert np.mean(np.array(off) <= 0.5) >= 0.75 - np.sqrt(0.75 * 0.25 / len(off))
