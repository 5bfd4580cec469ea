"""A pin is added to the marks of the jump that it lies in, or to those of a jump that is still being marked."""

from dataclasses import replace

import pytest
from leapwright.addon.marks import pinning
from leapwright.analysis import Marks, SettingsError

from tests.analysis.closed_form import Leap, measured

FPS = 24.0
JUMP = measured(Leap(crouch_at=15.3))
LATER = measured(Leap(crouch_at=115.3))


def pinned_at(jump, **frames):
    """Return the jump with some of its events pinned."""
    return replace(jump, **{name: replace(getattr(jump, name), frame=at, pinned=True) for name, at in frames.items()})


def pinned(marks, jumps, event, frame, jump=None):
    return pinning.pinned(marks, jumps, event, frame, fps=FPS, jump=jump)


def test_a_frame_within_a_jump_is_that_jumps_and_the_chosen_ones_first():
    jumps = [JUMP, LATER]
    assert pinning.jump_for(jumps, "apex", JUMP.apex.frame, fps=FPS, chosen=None) == 0
    assert pinning.jump_for(jumps, "apex", LATER.apex.frame, fps=FPS, chosen=0) == 1
    assert pinning.jump_for([JUMP, JUMP], "apex", JUMP.apex.frame, fps=FPS, chosen=1) == 1
    assert pinning.jump_for(jumps, "apex", 75.0, fps=FPS, chosen=0) is None
    assert pinning.jump_for([], "apex", 75.0, fps=FPS, chosen=None) is None


def test_marks_belong_to_the_jump_whose_pinned_event_is_theirs():
    own = Marks(takeoff=21.0)
    assert pinning.belongs(own, pinned_at(JUMP, takeoff=21.0))
    assert pinning.belongs(own, pinned_at(JUMP, takeoff=21.0004))  # the host stores it in single precision
    assert not pinning.belongs(own, pinned_at(JUMP, takeoff=22.0))
    assert not pinning.belongs(own, replace(JUMP, takeoff=replace(JUMP.takeoff, frame=21.0)))


def test_a_first_pin_of_a_jump_makes_marks_of_its_own():
    assert pinned((Marks(apex=120),), [JUMP, pinned_at(LATER, apex=120)], "takeoff", 21, jump=0) == (
        Marks(apex=120),
        Marks(takeoff=21),
    )


def test_a_second_pin_of_a_jump_joins_the_first():
    jumps = [pinned_at(JUMP, takeoff=21.0), LATER]
    assert pinned((Marks(takeoff=21),), jumps, "landing", 36, jump=0) == (Marks(takeoff=21, landing=36),)


def test_pins_without_a_jump_are_one_jumps_within_four_seconds():
    # 4 s at 24 fps are 96 frames.
    begun = (Marks(takeoff=300),)
    assert pinned(begun, [JUMP], "apex", 396) == (Marks(takeoff=300, apex=396),)
    assert pinned(begun, [JUMP], "apex", 397) == (Marks(takeoff=300), Marks(apex=397))


def test_of_two_jumps_being_made_the_nearer_one_takes_the_pin():
    begun = (Marks(takeoff=300), Marks(takeoff=340))
    assert pinned(begun, [], "apex", 350) == (Marks(takeoff=300), Marks(takeoff=340, apex=350))


def test_a_pin_takes_back_only_the_stretch_without_a_jump_it_lies_in():
    stretches = (Marks(no_jump=(10, 30)), Marks(no_jump=(200, 230)))
    assert pinned(stretches, [], "apex", 30) == (Marks(no_jump=(200, 230)), Marks(apex=30))


def test_pins_that_would_not_rise_are_refused():
    with pytest.raises(SettingsError, match="must rise"):
        pinned((Marks(takeoff=21),), [pinned_at(JUMP, takeoff=21.0)], "landing", 20, jump=0)


def test_denying_a_jump_takes_its_pins_and_then_its_flight():
    marks = (Marks(takeoff=21), Marks(takeoff=121))
    without, denied = pinning.denied(marks, pinned_at(JUMP, takeoff=21.0))
    assert without == (Marks(takeoff=121),)
    assert denied == (Marks(takeoff=121), Marks(no_jump=(21, float(-(-JUMP.landing.frame // 1)))))


def test_takeoff_apex_and_landing_are_enough_for_a_jump():
    assert pinning.is_whole(Marks(takeoff=1, apex=2, landing=3))
    assert not pinning.is_whole(Marks(crouch=1, takeoff=2, landing=3, absorbed=4))
