"""arc-skew: said when, and only when, the apex lies away from where its two heights put it."""

from dataclasses import replace

import pytest
from leapwright.analysis import Followed, Jump, Limits
from leapwright.analysis.findings import arc_skew
from leapwright.analysis.quantity import as_ratio, in_frames

from tests.analysis.closed_form import Leap, codes, found, keyed, measured
from tests.analysis.findings.one import only


@pytest.mark.parametrize(("skew", "told"), [(0.0, False), (0.14, False), (0.16, True), (-0.14, False), (-0.16, True)])
def test_an_apex_off_by_fifteen_hundredths_of_the_airtime_is_told(skew: float, told: bool) -> None:
    # Equal heights: the apex belongs in the middle, rise = (½ + skew) T.
    total = 24.0
    leap = Leap(height=1.2258, rise=(0.5 + skew) * total, fall=(0.5 - skew) * total)
    assert ("arc-skew" in codes(leap)) is told


def test_a_landing_far_below_has_its_apex_early_and_right() -> None:
    assert "arc-skew" not in codes(Leap(height=0.2, lower=1.6))


def test_among_keyed_poses_the_apex_key_is_moved() -> None:
    jump = keyed((8, 0.6), (10, 1.0), (16, 1.8513), (30, 1.0))
    finding = only("arc-skew", jump)
    assert finding.mend == "Move the apex key to 20 (exact)"
    assert finding.message.startswith("The apex comes 4 frames early")


def test_a_keyed_apex_one_frame_off_is_rounding() -> None:
    assert "arc-skew" not in found(keyed((8, 0.9), (10, 1.0), (12, 1.05), (16, 1.0)))


def skewed(jump: Jump, skew: float, *, airtime: float) -> Jump:
    """Return the jump with this share of this airtime, frames, for its skew."""
    shape = replace(jump.shape, skew=as_ratio(skew, 0.0))
    return replace(jump, shape=shape, flight=replace(jump.flight, airtime=in_frames(airtime, 0.0)))


@pytest.mark.parametrize(("skew", "told"), [(0.19, False), (0.21, True)])
def test_an_apex_within_a_frame_is_rounding(skew: float, told: bool) -> None:
    # Of 5 frames in the air one is a fifth.
    jump = skewed(measured(), skew, airtime=5.0)
    assert (arc_skew.find(jump, Limits()) is not None) is told


def test_it_belongs_where_the_roots_of_its_heights_put_it() -> None:
    # 0.4 m up and 1.6 m down: roots 1 and 2, so a third of 24 frames after the takeoff. A fifth late is 4.8 more.
    jump = skewed(measured(Leap(height=0.4, lower=1.2)), 0.2, airtime=24.0)
    finding = arc_skew.find(jump, Limits())
    assert finding.expected == pytest.approx(jump.takeoff.frame + 8.0)
    assert finding.measured == pytest.approx(jump.takeoff.frame + 12.8)


@pytest.mark.parametrize(("skew", "limbs"), [(0.165, True), (0.172, False)])
def test_hips_off_by_what_limbs_do_may_be_the_bodys_limbs(skew: float, limbs: bool) -> None:
    # 20 frames of 24 in the air: 3.3 and 3.44 frames off its top a body has fallen g t² / 2, 0.0927 and 0.1007 m, and
    # limbs move a person's hips by 0.097 m.
    jump = skewed(measured(Leap(height=0.8, follows=Followed.BODY)), skew, airtime=20.0)
    assert (arc_skew.find(jump, Limits()).limbs is not None) is limbs
