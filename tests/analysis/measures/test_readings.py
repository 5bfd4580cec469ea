"""Errors that belong together are propagated together: J C Jᵀ against the observed scatter, and what one fit shares."""

from dataclasses import replace

import numpy as np
import pytest
from leapwright.analysis import Jump, World
from leapwright.analysis.jump import measure
from leapwright.analysis.measures.readings import measured, read_events
from leapwright.analysis.phases import Arc
from leapwright.analysis.quantity import Unit

from tests.analysis.closed_form import G, Leap, build, fitted

LEAP = Leap(height=0.5, push=0.3, absorb=0.3, fps=60.0)
NOISE = 0.004
TRIES = 400
"""So many draws know a standard deviation to 1 / sqrt(2 · 400) = 3.5 %: three to four of those are allowed below."""
MIDDLE_OF_FIVE = np.sqrt(595.0) / 35.0
"""A parabola's value in the middle of five samples, in one's noise: it weighs them -3, 12, 17, 12, -3 over 35
(Savitzky & Golay 1964, Anal. Chem. 36:1627).
"""


def on_arc(arc: Arc, seed: int) -> Jump:
    """Return the jump with its contacts known, and all else read on this arc."""
    track, phases = build(replace(LEAP, noise=NOISE, seed=seed))
    contacts = (phases.takeoff, phases.landing)
    takeoff, landing = (replace(event, height=float(arc.heights(event.frame, LEAP.fps))) for event in contacts)
    apex = replace(phases.apex, frame=arc.apex_frame, height=arc.apex_height)
    return measure(track, replace(phases, takeoff=takeoff, apex=apex, landing=landing, arc=arc), World())


@pytest.mark.parametrize("name", ["height", "drop", "rise", "fall", "gravity", "pace"])
def test_the_noise_of_an_arc_is_in_all_that_is_read_on_it(name: str) -> None:
    # Contacts are known exactly here: what scatters is the parabola alone, of samples that are drawn anew each time.
    values, errors = [], []
    _, takeoff, _, landing, _ = LEAP.events()
    for seed in range(TRIES):
        track, _ = build(replace(LEAP, noise=NOISE, seed=seed))
        jump = on_arc(fitted(track, takeoff, landing), seed)
        figure = getattr(jump.flight, name)
        values.append(figure.value)
        errors.append(figure.error)
    assert np.median(errors) == pytest.approx(np.std(values), rel=0.15)


def test_the_speed_at_takeoff_scatters_less_than_height_and_gravity_do_alone() -> None:
    # v = sqrt(2 g h), of one parabola: g and h err together, so that the shape is known better than by both apart.
    _, takeoff, _, landing, _ = LEAP.events()
    shapes = []
    for seed in range(TRIES):
        track, _ = build(replace(LEAP, noise=NOISE, seed=seed))
        jump = on_arc(fitted(track, takeoff, landing), seed)
        shapes.append((jump.push.shape.value, jump.push.shape.error))
    values, errors = np.array(shapes).T
    low = MIDDLE_OF_FIVE * NOISE / LEAP.push  # the crouch's height does not vary here
    seen = np.hypot(np.std(values), low)
    assert np.median(errors) == pytest.approx(seen, rel=0.15)


def test_what_a_crouch_shares_with_its_takeoff_is_in_neither_twice() -> None:
    # A takeoff that is a frame later takes the crouch along by a frame, so only the crouch's own error is left in the
    # push's frames.
    track, phases = build(LEAP)
    takeoff = replace(phases.takeoff, frame_error=0.4)
    own = 0.3

    def frames_error(along: float) -> float:
        crouch = replace(phases.crouch, frame_error=float(np.hypot(own, along * 0.4)), along=along)
        return measure(track, replace(phases, crouch=crouch, takeoff=takeoff), World()).push.frames.error

    assert frames_error(0.0) == pytest.approx(np.hypot(own, 0.4))
    assert frames_error(1.0) == pytest.approx(own)
    assert frames_error(-1.0) == pytest.approx(np.hypot(own, 0.8))


def test_a_later_takeoff_is_a_higher_one() -> None:
    # v = sqrt(2 · 9.80665 · 0.5) = 3.132 m/s; a frame of 1/60 s is worth 5.2 cm.
    track, phases = build(LEAP)
    readings = read_events(track, replace(phases, takeoff=replace(phases.takeoff, frame_error=1.0)))
    push = measured({"d": (readings.push, Unit.METERS)})["d"]
    assert push.error == pytest.approx(np.sqrt(2.0 * G * 0.5) / 60.0, rel=1e-3)
    whole = measured({"d": (readings.push + readings.up, Unit.METERS)})["d"]
    assert whole.error == pytest.approx(0.0, abs=1e-6)


def test_without_an_arc_its_speed_is_that_by_both_heights_and_the_airtime() -> None:
    # Off a ledge of 0.7 m, 0.5 m up: the same 3.132 m/s.
    track, phases = build(replace(LEAP, lower=0.7))
    takeoff = replace(phases.takeoff, frame_error=1.0)
    readings = read_events(track, replace(phases, arc=None, takeoff=takeoff))
    push = measured({"d": (readings.push, Unit.METERS)})["d"]
    assert push.error == pytest.approx(np.sqrt(2.0 * G * 0.5) / 60.0, rel=1e-3)


def test_a_height_beside_an_arc_is_known_as_the_middle_of_five_samples_is() -> None:
    # The push distance takes two such heights.
    for seed in range(3):
        track, phases = build(replace(LEAP, noise=NOISE, seed=seed))
        jump = measure(track, phases, World())
        assert jump.push.distance.error == pytest.approx(np.sqrt(2.0) * MIDDLE_OF_FIVE * jump.flight.noise)


def test_an_apex_away_from_the_middle_of_its_samples_moves_with_their_bend() -> None:
    # 0.5 m up and 2 m down: the apex lies a third of the way, and a parabola that bends more has it nearer the middle.
    leap = replace(LEAP, lower=1.5)
    _, takeoff, _, landing, _ = leap.events()
    values, errors = [], []
    for seed in range(TRIES):
        track, phases = build(replace(leap, noise=NOISE, seed=seed))
        arc = fitted(track, takeoff, landing)
        apex = replace(phases.apex, frame=arc.apex_frame, height=arc.apex_height)
        jump = measure(track, replace(phases, apex=apex, arc=arc), World())
        values.append(jump.flight.rise.value)
        errors.append(jump.flight.rise.error)
    assert np.median(errors) == pytest.approx(np.std(values), rel=0.1)
