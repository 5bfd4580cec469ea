"""Feet settle takeoff and landing where they agree with the arc, and whether the body leaves the ground."""

import math
from dataclasses import replace

import numpy as np
import pytest
from leapwright.analysis import Limits, Track, World
from leapwright.analysis.events import find_phases
from leapwright.analysis.events.settle import settle, vouched
from leapwright.analysis.feet import feet_of
from leapwright.analysis.phases import Found, Phases

from tests.analysis.closed_form import Leap
from tests.analysis.shod import Shoes, shod
from tests.truth.motions import make


def unsure(phases: Phases, *, off: float, error: float) -> Phases:
    """The jump with a takeoff that lies somewhere else, and is known that badly."""
    return replace(phases, takeoff=replace(phases.takeoff, frame=phases.takeoff.frame + off, frame_error=error))


def one(found: Found) -> Phases:
    (phases,) = found.phases
    return phases


def test_without_feet_nothing_changes() -> None:
    track, phases = shod()
    found = Found((phases,), ("a note",))
    assert settle(found, replace(track, feet=None), None) == found


def test_feet_draw_an_unsure_takeoff_to_where_they_leave() -> None:
    track, phases = shod()
    told = one(settle(Found((unsure(phases, off=0.8, error=0.6),)), track, feet_of(track))).takeoff
    assert told.frame == pytest.approx(phases.takeoff.frame, abs=0.15)
    assert told.frame_error < 0.2
    speed = math.sqrt(2 * 9.80665 * 0.45) / track.fps
    assert told.height - phases.takeoff.height == pytest.approx(
        (told.frame - phases.takeoff.frame - 0.8) * speed, rel=0.1
    )


def test_a_takeoff_known_well_stays() -> None:
    track, phases = shod(Shoes(off=0.3))
    told = one(settle(Found((unsure(phases, off=0.0, error=0.01),)), track, feet_of(track))).takeoff
    assert told.frame == pytest.approx(phases.takeoff.frame, abs=0.02)


def test_feet_that_disagree_are_a_finding_not_a_takeoff() -> None:
    track, phases = shod(Shoes(off=-3.0))
    sure = unsure(phases, off=0.0, error=0.2)
    assert one(settle(Found((sure,)), track, feet_of(track))).takeoff == sure.takeoff
    lost = unsure(phases, off=0.0, error=3.0)
    assert one(settle(Found((lost,)), track, feet_of(track))).takeoff == lost.takeoff, "two frames off: another contact"


def test_marks_by_hand_stay() -> None:
    track, phases = shod()
    marked = unsure(phases, off=0.5, error=0.5)
    marked = replace(marked, takeoff=replace(marked.takeoff, pinned=True))
    assert one(settle(Found((marked,)), track, feet_of(track))).takeoff == marked.takeoff


def test_a_rise_with_a_foot_on_the_ground_is_no_jump() -> None:
    # A calf raise: the body goes up 8 cm over toes that stay.
    track, phases = shod(leap=Leap(height=0.08, push=0.08, absorb=0.08))
    found = settle(Found((phases,)), _standing(track), feet_of(_standing(track)))
    assert found.phases == ()
    (note,) = found.notes
    assert note.startswith("a foot stays on the ground from frame")


def test_feet_that_a_body_could_not_keep_down_are_not_its_own() -> None:
    track, phases = shod(leap=Leap(height=0.6))
    assert len(settle(Found((phases,)), _standing(track), feet_of(_standing(track))).phases) == 1


def test_feet_vouch_for_a_doubtful_rise_while_they_are_off_the_ground() -> None:
    track, phases = shod(leap=Leap(height=0.08, push=0.08, absorb=0.08))
    assert vouched([phases], track, feet_of(track), 0.05) == [phases]
    assert vouched([phases], replace(track, feet=None), None, 0.05) == []
    assert vouched([phases], _standing(track), feet_of(_standing(track)), 0.05) == []
    assert vouched([phases], track, feet_of(track), 0.09) == [], "lower than the smallest hop"
    elsewhere, _ = shod(Shoes(off=3.0, on=6.0), Leap(height=0.08, push=0.08, absorb=0.08))
    assert vouched([phases], elsewhere, feet_of(elsewhere), 0.05) == []


def test_flights_of_a_noisy_run_are_found_by_the_feet_and_no_others() -> None:
    true = seen = 0
    for seed in range(12):
        run = make("run, noisy, feet known", seed)
        blind, told = (
            find_phases(track, World(), Limits()).phases for track in (replace(run.track, feet=None), run.track)
        )
        assert len(blind) <= len(told)
        for phases in told:
            assert any(abs(phases.apex.frame - answer.apex) < 1.0 for answer in run.truth), "a flight that is none"
        true, seen = true + len(run.truth), seen + len(told)
    assert seen >= 0.75 * true


def _standing(track: Track) -> Track:
    return replace(track, feet=np.broadcast_to(track.feet[0], track.feet.shape))
