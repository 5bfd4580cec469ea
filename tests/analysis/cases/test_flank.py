"""One side of a top: where it is fastest, and which height its body may stand at."""

from dataclasses import replace

import numpy as np
import pytest
from leapwright.analysis.cases.flank import Flank
from leapwright.analysis.cases.flank_samples import FlankSamples


def flank(*speeds: float, levels: tuple[float, ...] = (), is_open: bool = False) -> Flank:
    """Return a side that starts at 1 m and rises by these steps, meters a frame."""
    heights = 1.0 + np.concatenate(([0.0], np.cumsum(speeds)))
    return Flank(FlankSamples(np.arange(float(len(heights))).tolist(), heights.tolist()), None, levels, is_open)


def test_it_is_fastest_in_the_middle_of_its_fast_steps() -> None:
    # Nine tenths of the top speed count: the steps of 0.095 and 0.1 do, that of 0.085 does not.
    side = flank(0.02, 0.085, 0.095, 0.1, 0.05)
    assert side.samples.fast == (2.0, 4.0) and side.samples.fastest == 3.0


@pytest.mark.parametrize(("level", "is_near"), [(1.03, False), (1.05, True), (1.3, True), (1.62, False)])
def test_a_level_counts_where_its_toes_pass_while_the_point_is_fast(level: float, is_near: bool) -> None:
    # It is fast from frame 2 to 5, from 1.1 to 1.7 m. The toes are a quarter of the crouch over the level: at 1.0375,
    # 1.0625, 1.375 and 1.775 m, passed at frames 0.75, 1.25, 3.4 and 6.5. A tenth of 9 frames is allowed for.
    side = flank(0.05, 0.05, *[0.2] * 3, *[0.05] * 6)
    assert side.samples.fast == (2.0, 5.0)
    assert side.samples.is_near(level) is is_near


def test_without_a_level_the_toes_leave_where_it_is_fastest() -> None:
    # Fastest in the middle of the step from 1.2 to 1.6 m, at 1.4: a fifth of 0.4 m is toes, at a quarter of the crouch.
    side = flank(0.1, 0.1, 0.4, 0.1, 0.1)
    assert side.assumed == pytest.approx(1.0 + 0.4 / 1.25)


def test_a_side_that_ends_in_its_midst_is_not_guessed_at() -> None:
    assert flank(0.3, 0.4, 0.1, is_open=True).assumed is None
    assert flank(0.1, 0.4, 0.1, is_open=True).assumed is not None
    assert flank(0.3, 0.4, 0.1, levels=(1.2,), is_open=True).assumed == 1.2


def test_a_body_may_pop_off_a_bottom_that_is_held_unless_it_stands_elsewhere() -> None:
    side = flank(0.1, 0.4, 0.1)
    assert not side.may_pop
    held = replace(side, is_held=True)
    assert held.may_pop
    assert not replace(held, stand=1.2).may_pop
    assert not replace(held, elsewhere=(1.2,)).may_pop
    # Cut off in its midst, the track does not begin at rest.
    assert not replace(flank(0.4, 0.4, 0.1, is_open=True), is_held=True).may_pop


def test_a_bottom_on_the_worlds_origin_is_the_ground_whether_it_is_held_or_not() -> None:
    side = flank(0.1, 0.4, 0.1)
    low = replace(side, samples=replace(side.samples, heights=[height - 1.0 for height in side.samples.heights]))
    assert low.may_pop and low.popped_share > 0.9
    assert side.popped_share == 0.0
    # In a picture zero is its edge; and what rests higher elsewhere stands there.
    assert not replace(low, over_ground=False).may_pop and not replace(low, elsewhere=(0.2,)).is_grounded
    held = replace(low, is_held=True, over_ground=False)
    assert held.may_pop and held.popped_share == pytest.approx(0.35)


def test_how_far_up_from_the_stand_a_frame_is_goes_from_nothing_to_all_of_the_rise() -> None:
    # From 1.1 m, where it stands, to 1.6 m at the top: after the second step it is at 1.2, a fifth of the way.
    side = flank(0.1, 0.1, 0.3, 0.1, levels=(1.1,))
    assert [side.share_at(frame) for frame in (1.0, 2.0, 4.0)] == pytest.approx([0.0, 0.2, 1.0])
    assert flank(0.1, 0.4).share_at(1.0) is None


def test_of_two_fast_stretches_the_one_nearer_to_the_top_counts() -> None:
    # A squat at full speed, a pause at 0.3 of it, and 0.95 of it where the body leaves: frames 4 to 6. What slows to
    # 0.6 in between is one stretch.
    assert flank(0.2, 0.2, 0.06, 0.1, 0.19, 0.19, 0.05).samples.fast == (4.0, 6.0)
    assert flank(0.2, 0.2, 0.12, 0.19, 0.19, 0.05).samples.fast == (0.0, 5.0)


G = 9.80665
"""Standard acceleration, m/s² (3rd CGPM 1901, Resolution 2)."""


def arc_height(frame: float) -> float:
    """Return meters of a body that is highest, 2 m, at frame 12, at 24 frames a second."""
    return 2.0 - 0.5 * G * ((frame - 12.0) / 24.0) ** 2


@pytest.mark.parametrize(("count", "is_told"), [(3, False), (4, True)])
def test_keys_on_a_wide_beat_pass_a_height_where_their_arc_does(count: int, is_told: bool) -> None:
    # The curve from the last key on the ground, at frame 3, goes straight to the first one in the air, at 7; the arc
    # passes 1.6 m at 24 · √(2 · 0.4 / g) frames before its top.
    keys = np.array([(3.0, 1.2), *[(frame, arc_height(frame)) for frame in (7.0, 11.0, 15.0, 17.0)[:count]]]).T
    frames = [3.0, *np.arange(7.0, 13.0).tolist()]
    samples = FlankSamples(frames, [1.2, *[arc_height(frame) for frame in frames[1:]]], keys)
    passed = samples.crossing(1.6)
    drawn = replace(samples, keys=None).crossing(1.6)
    assert passed is not None and drawn is not None
    if is_told:
        away = np.sqrt(2.0 * 0.4 / G)
        assert passed == pytest.approx((12.0 - 24.0 * away, G * away / 24.0))
        assert abs(passed[0] - drawn[0]) > 0.3
    else:
        assert passed == drawn
    # The arc does not reach so high, or passes where the side does not lie.
    assert samples.crossing(2.1) is None
    assert samples.crossing(1.3) == replace(samples, keys=None).crossing(1.3)


def test_what_lies_before_a_rest_on_the_way_is_another_move() -> None:
    # Faster up to the rest, 0.3 m a frame, than from there on, 0.2 m.
    frames, heights = [0.0, 1.0, 2.0, 3.0, 4.0, 5.0], [0.0, 0.3, 0.3, 0.3, 0.5, 0.6]
    assert FlankSamples(frames, heights).fast == (0.0, 1.0)
    assert FlankSamples(frames, heights, rested=3).fast == (3.0, 4.0)
