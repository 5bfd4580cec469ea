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
