"""contact-early: said when, and only when, feet leave or touch more than a frame too soon."""

from dataclasses import replace

import pytest
from leapwright.analysis import Limits, World
from leapwright.analysis.findings import contact_early
from leapwright.analysis.jump import measure
from leapwright.analysis.quantity import in_frames

from tests.analysis.closed_form import found
from tests.analysis.findings.one import only
from tests.analysis.shod import Shoes, shod, walked


@pytest.mark.parametrize(("late", "told"), [(-0.5, False), (0.0, False), (-1.8, True), (-4.0, True), (3.0, False)])
def test_feet_that_leave_before_the_takeoff(late: float, told: bool) -> None:
    assert ("contact-early" in found(walked(Shoes(off=late)))) is told


@pytest.mark.parametrize(("late", "told"), [(-0.5, False), (0.0, False), (-1.8, True), (-4.0, True), (3.0, False)])
def test_feet_that_touch_before_the_landing(late: float, told: bool) -> None:
    assert ("contact-early" in found(walked(Shoes(on=late)))) is told


def test_it_says_by_how_much_and_until_when() -> None:
    # Takeoff at 20.95, landing at 35.5 of the closed-form jump: 2 sqrt(2 h / g) = 14.54 frames in between.
    finding = only("contact-early", walked(Shoes(off=-3.0)))
    assert finding.measured == pytest.approx(-3.0, abs=0.2)
    assert finding.message.endswith("before the body takes off at 21")
    assert finding.mend == "Keep them planted until 21"
    assert only("contact-early", walked(Shoes(on=-3.0))).mend == "Keep them off it until 35"


def test_both_ends_are_one_finding() -> None:
    finding = only("contact-early", walked(Shoes(off=-2.0, on=-3.0)))
    assert "takes off" in finding.message and "lands" in finding.message
    assert finding.mend == "Keep them planted until 21; keep them off it until 35"


def test_without_feet_nothing_is_said() -> None:
    track, phases = shod(Shoes(off=-3.0))
    assert "contact-early" in found(measure(track, phases, World()))
    assert found(measure(replace(track, feet=None), phases, World())) == set()


@pytest.mark.parametrize(("early", "told"), [(1.65, False), (1.75, True)])
def test_feet_and_body_are_each_as_unsure_as_they_say(early: float, told: bool) -> None:
    # Half a frame each is 0.707 together: past the band of one frame and one error.
    jump = walked()
    takeoff = replace(jump.takeoff, frame_error=0.5)
    feet = replace(jump.feet, off=in_frames(takeoff.frame - early, 0.5), on=None)
    jump = replace(jump, takeoff=takeoff, feet=feet)
    assert (contact_early.find(jump, Limits()) is not None) is told
