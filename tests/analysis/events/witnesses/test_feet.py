"""The feet as a witness: a body is in the air while no foot is on the ground, and on the ground while one is."""

from dataclasses import replace

import numpy as np
import pytest
from leapwright.analysis import Track
from leapwright.analysis.events.witnesses import feet

from tests.analysis.closed_form import Leap
from tests.analysis.events.heard import only_case
from tests.analysis.shod import shod

LEAP = Leap(height=0.45, push=0.4)


def test_feet_off_the_ground_speak_for_a_flight_and_say_when_it_is() -> None:
    track, true = shod(leap=LEAP)
    said = feet.hear(only_case(track))
    assert said.nats == feet.FEET_OFF_NATS
    assert said.takeoff[0].frame == pytest.approx(true.takeoff.frame, abs=0.5)
    assert said.landing[0].frame == pytest.approx(true.landing.frame, abs=0.5)


def standing(leap: Leap) -> Track:
    """Return the body of this jump over feet that stay where they are."""
    track, _ = shod(leap=leap)
    return replace(track, feet=np.broadcast_to(track.feet[0], track.feet.shape))


def test_a_foot_that_stays_down_speaks_against_it() -> None:
    # Up to 1.1 m from 0.9 m: on tiptoe.
    assert feet.hear(only_case(standing(Leap(height=0.1, push=0.1)))).nats == feet.FEET_DOWN_NATS


def test_feet_that_the_body_cannot_reach_are_not_its_own() -> None:
    # Up to 1.45 m from 0.6 m.
    assert feet.hear(only_case(standing(LEAP))) is None


def test_without_feet_nothing_is_said() -> None:
    assert feet.hear(only_case(replace(shod(leap=LEAP)[0], feet=None))) is None
